package dev.splicebook.client;

import java.io.IOException;
import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpConnectTimeoutException;
import java.net.http.HttpRequest;
import java.net.http.HttpRequest.BodyPublishers;
import java.net.http.HttpResponse;
import java.net.http.HttpResponse.BodyHandlers;
import java.net.http.HttpTimeoutException;
import java.time.Duration;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.ExecutionException;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.TimeoutException;
import org.jspecify.annotations.Nullable;
import tools.jackson.core.JacksonException;
import tools.jackson.databind.JavaType;

/** Sends calls, again where that is safe, and reads what comes back. */
final class Transport {

    private final HttpClient http;
    private final String baseUrl;
    private final String authorization;
    private final Duration timeout;
    private final Retrying retrying;

    Transport(HttpClient http, String baseUrl, String key, Duration timeout, Retrying retrying) {
        this.http = http;
        this.baseUrl = baseUrl;
        this.authorization = "Bearer " + key;
        this.timeout = timeout;
        this.retrying = retrying;
    }

    /** One page as it stands in JSON. */
    record Listing<T>(List<T> items, @Nullable String next) {
        Listing {
            items = Require.listOrEmpty(items);
        }
    }

    /** Null where the body is the literal null. */
    @FunctionalInterface
    private interface BodyReader<T> {
        @Nullable
        T read(byte[] body);
    }

    <T> T send(Call call, Class<T> type) {
        return read(call, exchange(call), body -> Json.MAPPER.readValue(body, type));
    }

    <T> Page<T> page(Call call, Paging paging, Class<T> type) {
        Call paged = call.query("limit", paging.limit()).query("cursor", paging.cursor());
        JavaType listingOfType = Json.MAPPER.getTypeFactory().constructParametricType(Listing.class, type);
        Listing<T> listing =
                read(paged, exchange(paged), body -> Json.MAPPER.<Listing<T>>readValue(body, listingOfType));
        return new Page<>(
                listing.items(), listing.next(), cursor -> page(call, new Paging(paging.limit(), cursor), type));
    }

    private HttpResponse<byte[]> exchange(Call call) {
        HttpRequest request = request(call);
        for (int attempt = 1; ; attempt++) {
            SplicebookException failure;
            Duration retryAfter = null;
            boolean mayPass = call.isRepeatable();
            try {
                HttpResponse<byte[]> response = attempt(request);
                if (response.statusCode() < 300) {
                    return response;
                }
                retryAfter = retrying.retryAfter(
                        response.headers().firstValue("Retry-After").orElse(null));
                failure = problem(call, response, retryAfter);
                mayPass &= response.statusCode() == 503;
            } catch (HttpTimeoutException e) {
                failure = new ConnectionException(call + " was not answered within " + timeout.toMillis() + " ms", e);
                // the time that the caller gave is used up, unless it was but the connection that took too long
                mayPass &= e instanceof HttpConnectTimeoutException;
            } catch (IOException e) {
                failure = new ConnectionException(call + " was not answered: " + told(e), e);
            } catch (InterruptedException e) {
                throw interrupted(call, e);
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

    private HttpRequest request(Call call) {
        HttpRequest.Builder request = HttpRequest.newBuilder(URI.create(baseUrl + call.path() + call.query()))
                .header("Authorization", authorization)
                .header("Accept", "application/json, application/problem+json");
        if (call.expectedRevision() != null) {
            request.header("If-Match", "\"" + call.expectedRevision() + "\"");
        }
        if (call.body() == null) {
            return request.GET().build();
        }
        return request.header("Content-Type", "application/json")
                .method(call.method(), BodyPublishers.ofByteArray(Json.MAPPER.writeValueAsBytes(call.body())))
                .build();
    }

    /** One attempt, bounded as a whole: the client's own timeout ends where the body begins. */
    private HttpResponse<byte[]> attempt(HttpRequest request) throws IOException, InterruptedException {
        CompletableFuture<HttpResponse<byte[]>> pending = http.sendAsync(request, BodyHandlers.ofByteArray());
        try {
            return pending.get(timeout.toNanos(), TimeUnit.NANOSECONDS);
        } catch (TimeoutException e) {
            pending.cancel(true);
            HttpTimeoutException late = new HttpTimeoutException("no answer in time");
            late.initCause(e);
            throw late;
        } catch (InterruptedException e) {
            pending.cancel(true);
            throw e;
        } catch (ExecutionException e) {
            if (e.getCause() instanceof IOException failure) {
                throw failure;
            }
            throw new IOException("the HTTP client failed", e.getCause());
        }
    }

    private static ConnectionException interrupted(Call call, InterruptedException e) {
        Thread.currentThread().interrupt();
        return new ConnectionException(call + " was interrupted", e);
    }

    private static String told(IOException e) {
        String message = e.getMessage();
        return message == null ? e.getClass().getSimpleName() : message;
    }

    private static <T> T read(Call call, HttpResponse<byte[]> response, BodyReader<T> reader) {
        try {
            T value = reader.read(response.body());
            if (value != null) {
                return value;
            }
        } catch (JacksonException e) {
            throw unreadable(call, response, e.getOriginalMessage(), e);
        }
        throw unreadable(call, response, "it is null", null);
    }

    private static SplicebookException unreadable(
            Call call, HttpResponse<byte[]> response, String why, @Nullable Throwable cause) {
        return new SplicebookException(
                call + " was answered with " + response.statusCode() + " and a body that cannot be read: " + why,
                cause);
    }

    private static ApiException problem(Call call, HttpResponse<byte[]> response, @Nullable Duration retryAfter) {
        int status = response.statusCode();
        Problem problem = readProblem(response);
        String told = call.toString();
        return switch (status) {
            case 400 -> new BadRequestException(told, status, problem);
            case 401 -> new UnauthorizedException(told, status, problem);
            case 404 -> new NotFoundException(told, status, problem);
            case 409 -> new ConflictException(told, status, problem);
            case 412 -> new PreconditionFailedException(told, status, problem);
            case 503 -> new UnavailableException(told, status, problem, retryAfter);
            default -> new ApiException(told, status, problem);
        };
    }

    /** What stands between here and the service may answer in its place, in any form. */
    private static Problem readProblem(HttpResponse<byte[]> response) {
        try {
            Problem problem = Json.MAPPER.readValue(response.body(), Problem.class);
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
                response.headers().firstValue("X-Request-Id").orElse(null));
    }
}
