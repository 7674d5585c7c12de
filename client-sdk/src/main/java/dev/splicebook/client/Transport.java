package dev.splicebook.client;

import com.fasterxml.jackson.annotation.JsonAnySetter;
import java.io.IOException;
import java.io.InterruptedIOException;
import java.io.OutputStream;
import java.io.UncheckedIOException;
import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpConnectTimeoutException;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.net.http.HttpResponse.BodySubscriber;
import java.net.http.HttpResponse.BodySubscribers;
import java.net.http.HttpTimeoutException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.time.Duration;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.UUID;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.ExecutionException;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.TimeoutException;
import java.util.function.Supplier;
import org.jspecify.annotations.Nullable;
import tools.jackson.core.JacksonException;
import tools.jackson.databind.JavaType;
import tools.jackson.databind.JsonNode;

/** Sends calls, again where that is safe, and reads what comes back. */
final class Transport {

    /** For what takes as long as what it carries: a shop's whole book, over a slow line. */
    static final Duration LONG_TIMEOUT = Duration.ofMinutes(10);

    private static final int NOT_MODIFIED = 304;

    private final HttpClient http;
    private final String baseUrl;
    private final String authorization;
    private final Duration timeout;
    private final Retrying retrying;
    private final @Nullable Supplier<IdempotencyKey> keys;
    private final CallOptions options;

    /** Takes {@code keys} for where each call that creates something gets its key; null for no key. */
    Transport(
            HttpClient http,
            String baseUrl,
            String key,
            Duration timeout,
            Retrying retrying,
            @Nullable Supplier<IdempotencyKey> keys) {
        this.http = http;
        this.baseUrl = baseUrl;
        this.authorization = "Bearer " + key;
        this.timeout = timeout;
        this.retrying = retrying;
        this.keys = keys;
        this.options = CallOptions.defaults();
    }

    private Transport(Transport base, CallOptions options) {
        this.http = base.http;
        this.baseUrl = base.baseUrl;
        this.authorization = base.authorization;
        this.timeout = base.timeout;
        this.retrying = options.retries() == null ? base.retrying : base.retrying.atMost(options.retries());
        this.keys = base.keys;
        this.options = options;
    }

    /** The same with options that go before those it has. */
    Transport with(CallOptions different) {
        return new Transport(this, different.over(options));
    }

    /** One page as it stands in JSON; {@code more} is what stands beside its entries. */
    record Listing<T>(
            List<T> items,
            @Nullable String next,
            @JsonAnySetter Map<String, JsonNode> more) {
        Listing {
            items = Require.listOrEmpty(items);
            more = Require.mapOrEmpty(more);
        }
    }

    /** Null where the body is the literal null. */
    @FunctionalInterface
    private interface BodyReader<T> {
        @Nullable
        T read(String body);
    }

    /** What is made of an answer within its attempt; an {@link IOException} is one of the connection. */
    @FunctionalInterface
    private interface Making<B, T> {
        T make(int status, B body) throws IOException;
    }

    /** An answer that is in memory as a whole. */
    private record Answer(int status, String body) {}

    /** The body of an answer: {@code content} if it is what was asked for, and {@code other} if it is not. */
    private record Received<B>(@Nullable B content, String other) {}

    <T> T send(Call call, Class<T> type) {
        return read(call, answer(call), body -> Json.MAPPER.readValue(body, type));
    }

    /** A call of which the answer has no body. */
    void run(Call call) {
        answer(call);
    }

    /** What is held, if there is nothing newer. */
    <T> T refresh(Call call, T held, Class<T> type) {
        Answer answer = answer(call);
        return answer.status() == NOT_MODIFIED ? held : read(call, answer, body -> Json.MAPPER.readValue(body, type));
    }

    <T> Page<T> page(Call call, Paging paging, Class<T> type) {
        Call paged = call.query("limit", paging.limit()).query("cursor", paging.cursor());
        JavaType listingOfType = Json.MAPPER.getTypeFactory().constructParametricType(Listing.class, type);
        Listing<T> listing = read(paged, answer(paged), body -> Json.MAPPER.<Listing<T>>readValue(body, listingOfType));
        return new Page<>(
                listing.items(),
                listing.next(),
                listing.more(),
                cursor -> page(call, new Paging(paging.limit(), cursor), type));
    }

    /** An answer that is text in UTF-8. */
    String text(Call call) {
        return answer(call).body();
    }

    /** Opens an answer of any length, to be closed by who reads it. */
    Pieces open(Call call) {
        return exchange(call, () -> new Pieces(timeoutOf(call)), (status, pieces) -> pieces);
    }

    /**
     * Writes an answer of any length to a file, which is there whole or, if that fails, as it was.
     *
     * @throws IOException if the file cannot be written
     */
    void save(Call call, Path file) throws IOException {
        Path part = file.resolveSibling(file.getFileName() + "." + UUID.randomUUID() + ".part");
        try {
            exchange(call, () -> new Pieces(timeoutOf(call)), (status, pieces) -> {
                try (OutputStream out = Files.newOutputStream(part)) {
                    return pieces.transferTo(out);
                } catch (IOException e) {
                    if (pieces.isBroken()) {
                        throw e;
                    }
                    throw new UncheckedIOException(e);
                } finally {
                    pieces.close();
                }
            });
            Files.move(part, file, StandardCopyOption.REPLACE_EXISTING);
        } catch (UncheckedIOException e) {
            throw Require.present("cause", e.getCause());
        } finally {
            Files.deleteIfExists(part);
        }
    }

    /** A connection that broke while an answer was read that {@link #open} had opened. */
    ConnectionException brokenOff(Call call, IOException e) {
        if (e instanceof HttpTimeoutException late) {
            return late(call, late);
        }
        return e instanceof InterruptedIOException
                ? interrupted(call, e)
                : new ConnectionException(call + " was not answered to the end: " + told(e), e);
    }

    private Answer answer(Call call) {
        return exchange(call, Transport::text, Answer::new);
    }

    private <B, T> T exchange(Call call, Supplier<BodySubscriber<B>> subscriber, Making<B, T> making) {
        IdempotencyKey key = keyFor(call);
        for (int attempt = 1; ; attempt++) {
            SplicebookException failure;
            Duration retryAfter = null;
            boolean mayPass = isRepeatable(call, key);
            try {
                HttpResponse<Received<B>> response = attempt(call, key, subscriber);
                B content = response.body().content();
                if (content != null) {
                    return making.make(response.statusCode(), content);
                }
                retryAfter = retrying.retryAfter(
                        response.headers().firstValue("Retry-After").orElse(null));
                failure = problem(call, response, response.body().other(), retryAfter);
                mayPass &= response.statusCode() == 503 || response.statusCode() == 429;
            } catch (HttpTimeoutException e) {
                failure = late(call, e);
                // the time that the caller gave is used up, unless it was but the connection that took too long
                mayPass &= e instanceof HttpConnectTimeoutException;
            } catch (InterruptedException | InterruptedIOException e) {
                throw interrupted(call, e);
            } catch (IOException e) {
                failure = new ConnectionException(call + " was not answered: " + told(e), e);
            }
            Optional<Duration> wait = mayPass ? retrying.waitAfter(attempt, retryAfter) : Optional.empty();
            if (wait.isEmpty()) {
                throw failure;
            }
            try {
                retrying.sleeper().sleep(wait.get());
            } catch (InterruptedException e) {
                throw interrupted(call, e);
            }
        }
    }

    private @Nullable IdempotencyKey keyFor(Call call) {
        if (call.repeat() != Call.Repeat.WITH_KEY) {
            return null;
        }
        IdempotencyKey key = options.idempotencyKey();
        return key == null && keys != null ? keys.get() : key;
    }

    private static boolean isRepeatable(Call call, @Nullable IdempotencyKey key) {
        boolean isReplayable = call.body() == null || call.body().isReplayable();
        return isReplayable
                && switch (call.repeat()) {
                    case ALWAYS -> true;
                    case WITH_KEY -> key != null;
                    case NEVER -> false;
                };
    }

    private Duration timeoutOf(Call call) {
        if (options.timeout() != null) {
            return options.timeout();
        }
        return call.isLong() && timeout.compareTo(LONG_TIMEOUT) < 0 ? LONG_TIMEOUT : timeout;
    }

    private HttpRequest.Builder request(Call call, @Nullable IdempotencyKey key) {
        HttpRequest.Builder request = HttpRequest.newBuilder(URI.create(baseUrl + call.path() + call.query()))
                .header("Authorization", authorization);
        call.headers().forEach(request::header);
        if (key != null) {
            request.header("Idempotency-Key", key.value());
        }
        return request;
    }

    /** One attempt, bounded as a whole: the client's own timeout ends where the body begins. */
    private <B> HttpResponse<Received<B>> attempt(
            Call call, @Nullable IdempotencyKey key, Supplier<BodySubscriber<B>> subscriber)
            throws IOException, InterruptedException {
        Source.Sending sending = call.body() == null ? Source.Sending.nothing() : opened(call.body());
        HttpRequest request =
                request(call, key).method(call.method(), sending.publisher()).build();
        CompletableFuture<HttpResponse<Received<B>>> pending = http.sendAsync(
                request,
                head -> isAskedFor(call, head.statusCode())
                        ? BodySubscribers.mapping(subscriber.get(), body -> new Received<>(body, ""))
                        : BodySubscribers.mapping(text(), body -> new Received<@Nullable B>(null, body)));
        try {
            CompletableFuture.anyOf(pending, sending.failure())
                    .get(timeoutOf(call).toNanos(), TimeUnit.NANOSECONDS);
            throwIfFailed(sending);
            return pending.get();
        } catch (TimeoutException e) {
            HttpTimeoutException late = new HttpTimeoutException("no answer in time");
            late.initCause(e);
            throw late;
        } catch (ExecutionException e) {
            throwIfFailed(sending);
            if (e.getCause() instanceof IOException failure) {
                throw failure;
            }
            throw new IOException("the HTTP client failed", e.getCause());
        } finally {
            // nothing to do where it has ended
            pending.cancel(true);
        }
    }

    private static BodySubscriber<String> text() {
        return BodySubscribers.ofString(StandardCharsets.UTF_8);
    }

    private static boolean isAskedFor(Call call, int status) {
        return status < 300 || (status == NOT_MODIFIED && call.isConditionalRead());
    }

    private static Source.Sending opened(Source source) {
        try {
            return source.open();
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    /** Ends with what the caller's source ended with, which is no fault of the connection. */
    private static void throwIfFailed(Source.Sending sending) {
        Throwable failure = sending.failure().getNow(null);
        if (failure instanceof IOException e) {
            throw new UncheckedIOException(e);
        }
        if (failure instanceof RuntimeException e) {
            throw e;
        }
        if (failure instanceof Error e) {
            throw e;
        }
    }

    private ConnectionException late(Call call, HttpTimeoutException e) {
        return new ConnectionException(
                call + " was not answered within " + timeoutOf(call).toMillis() + " ms", e);
    }

    private static ConnectionException interrupted(Call call, Exception e) {
        Thread.currentThread().interrupt();
        return new ConnectionException(call + " was interrupted", e);
    }

    private static String told(IOException e) {
        String message = e.getMessage();
        return message == null ? e.getClass().getSimpleName() : message;
    }

    private static <T> T read(Call call, Answer answer, BodyReader<T> reader) {
        try {
            T value = reader.read(answer.body());
            if (value != null) {
                return value;
            }
        } catch (JacksonException e) {
            throw unreadable(call, answer.status(), e.getOriginalMessage(), e);
        }
        throw unreadable(call, answer.status(), "it is null", null);
    }

    /** An answer that is not what it should be. */
    static SplicebookException unreadable(Call call, int status, String why, @Nullable Throwable cause) {
        return new SplicebookException(
                call + " was answered with " + status + " and a body that cannot be read: " + why, cause);
    }

    private static ApiException problem(
            Call call, HttpResponse<?> response, String body, @Nullable Duration retryAfter) {
        int status = response.statusCode();
        Problem problem = readProblem(response, body);
        String told = call.toString();
        return switch (status) {
            case 400 -> new BadRequestException(told, status, problem);
            case 401 -> new UnauthorizedException(told, status, problem);
            case 404 -> new NotFoundException(told, status, problem);
            case 409 -> new ConflictException(told, status, problem);
            case 412 -> new PreconditionFailedException(told, status, problem);
            case 429, 503 -> new UnavailableException(told, status, problem, retryAfter);
            default -> new ApiException(told, status, problem);
        };
    }

    /** What stands between here and the service may answer in its place, in any form. */
    private static Problem readProblem(HttpResponse<?> response, String body) {
        try {
            Problem problem = Json.MAPPER.readValue(body, Problem.class);
            if (problem != null) {
                return problem;
            }
        } catch (JacksonException noProblem) {
            // told below
        }
        return new Problem(
                Problem.UNKNOWN_TYPE,
                "the answer is no problem document",
                List.of(),
                response.headers().firstValue("X-Request-Id").orElse(null),
                Map.of());
    }
}
