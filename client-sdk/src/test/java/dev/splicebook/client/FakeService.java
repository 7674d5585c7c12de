package dev.splicebook.client;

import com.sun.net.httpserver.HttpExchange;
import com.sun.net.httpserver.HttpServer;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.net.InetAddress;
import java.net.InetSocketAddress;
import java.nio.charset.StandardCharsets;
import java.time.Duration;
import java.util.List;
import java.util.Map;
import java.util.Queue;
import java.util.concurrent.ConcurrentLinkedQueue;
import java.util.concurrent.CopyOnWriteArrayList;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.atomic.AtomicInteger;
import org.jspecify.annotations.Nullable;

/** Answers on loopback with what it was told to, in turn, and keeps what it was asked. */
final class FakeService implements AutoCloseable {

    static final String KEY = "a-key-that-nobody-may-see";

    private final HttpServer server;
    private final ExecutorService threads = Executors.newCachedThreadPool();
    private final Queue<Answer> answers = new ConcurrentLinkedQueue<>();
    private final List<Request> requests = new CopyOnWriteArrayList<>();
    private final List<Duration> waits = new CopyOnWriteArrayList<>();
    private final AtomicInteger unfinished = new AtomicInteger();
    private final CountDownLatch end = new CountDownLatch(1);

    /** What came in; {@code path} with its query. */
    record Request(String method, String path, Map<String, List<String>> headers, String body) {

        String header(String name) {
            return String.join(",", headers.getOrDefault(name, List.of()));
        }
    }

    private record Answer(int status, Map<String, String> headers, String body, Kind kind) {}

    private enum Kind {
        WHOLE,
        NEVER,
        STALLED,
        BROKEN_OFF,
        CUT_OFF
    }

    FakeService() {
        try {
            server = HttpServer.create(new InetSocketAddress(InetAddress.getLoopbackAddress(), 0), 0);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
        server.setExecutor(threads);
        server.createContext("/", this::handle);
        server.start();
    }

    String url() {
        return "http://127.0.0.1:" + server.getAddress().getPort();
    }

    /** A client that waits for nothing; {@link #waits()} has what it would have waited. */
    Splicebook.Builder client() {
        return Splicebook.builder().baseUrl(url()).key(KEY).sleeper(waits::add);
    }

    FakeService answers(int status, String json) {
        return answers(status, json, Map.of());
    }

    FakeService answers(int status, String body, Map<String, String> headers) {
        answers.add(new Answer(status, headers, body, Kind.WHOLE));
        return this;
    }

    FakeService answersProblem(int status, String code, Map<String, String> headers) {
        return answers(status, """
                {"type": "/problems/%s", "title": "t", "status": %d, "detail": "the detail", "errors": [],
                 "requestId": "r-1"}""".formatted(code, status), headers);
    }

    FakeService neverAnswers() {
        return ends(Kind.NEVER);
    }

    /** Sends the head and the first half of the body, then nothing. */
    FakeService stallsWithinItsAnswer() {
        return stallsWithin("{}");
    }

    /** Sends the head and the first half of a body, then nothing. */
    FakeService stallsWithin(String body) {
        answers.add(new Answer(200, Map.of(), body, Kind.STALLED));
        return this;
    }

    /** Sends the head and the first half of a body, then closes the connection. */
    FakeService breaksOffWithin(String body) {
        answers.add(new Answer(200, Map.of(), body, Kind.BROKEN_OFF));
        return this;
    }

    FakeService breaksTheConnection() {
        return ends(Kind.CUT_OFF);
    }

    private FakeService ends(Kind kind) {
        answers.add(new Answer(200, Map.of(), "{}", kind));
        return this;
    }

    List<Request> requests() {
        return List.copyOf(requests);
    }

    /** How many requests ended before their body did. */
    int unfinishedRequests() {
        return unfinished.get();
    }

    List<Duration> waits() {
        return List.copyOf(waits);
    }

    @Override
    public void close() {
        end.countDown();
        server.stop(0);
        threads.shutdownNow();
    }

    private void handle(HttpExchange exchange) throws IOException {
        try (exchange) {
            String body;
            try {
                body = new String(exchange.getRequestBody().readAllBytes(), StandardCharsets.UTF_8);
            } catch (IOException e) {
                unfinished.incrementAndGet();
                throw e;
            }
            requests.add(new Request(
                    exchange.getRequestMethod(),
                    exchange.getRequestURI().toString(),
                    Map.copyOf(exchange.getRequestHeaders()),
                    body));
            @Nullable Answer answer = answers.poll();
            if (answer == null) {
                throw new IOException("nothing more was to be asked");
            }
            send(exchange, answer);
        }
    }

    private void send(HttpExchange exchange, Answer answer) throws IOException {
        byte[] body = answer.body().getBytes(StandardCharsets.UTF_8);
        switch (answer.kind()) {
            case WHOLE -> {
                answer.headers().forEach(exchange.getResponseHeaders()::set);
                exchange.sendResponseHeaders(answer.status(), body.length == 0 ? -1 : body.length);
                exchange.getResponseBody().write(body);
            }
            case NEVER -> awaitEnd();
            case STALLED -> {
                exchange.sendResponseHeaders(answer.status(), body.length);
                exchange.getResponseBody().write(body, 0, body.length / 2);
                exchange.getResponseBody().flush();
                awaitEnd();
            }
            case BROKEN_OFF -> {
                exchange.sendResponseHeaders(answer.status(), body.length);
                exchange.getResponseBody().write(body, 0, body.length / 2);
                exchange.getResponseBody().flush();
                throw new IOException("the connection is to break");
            }
            case CUT_OFF -> throw new IOException("the connection is to break");
        }
    }

    private void awaitEnd() throws IOException {
        try {
            end.await();
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
            throw new IOException(e);
        }
    }
}
