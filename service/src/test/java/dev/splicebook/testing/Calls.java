package dev.splicebook.testing;

import java.io.IOException;
import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpRequest.BodyPublishers;
import java.net.http.HttpResponse;
import java.net.http.HttpResponse.BodyHandlers;
import java.time.Duration;
import java.util.HashMap;
import java.util.Map;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;

/**
 * Calls to a service, as a shop's program makes them.
 *
 * @param base like {@code http://127.0.0.1:8080}
 * @param headers sent with every call
 */
public record Calls(String base, Map<String, String> headers) {

    private static final HttpClient CLIENT =
            HttpClient.newBuilder().connectTimeout(Duration.ofSeconds(5)).build();
    private static final JsonMapper MAPPER = JsonMapper.builder().build();

    public Calls {
        headers = Map.copyOf(headers);
    }

    public static Calls to(String base) {
        return new Calls(base, Map.of());
    }

    public Calls withKey(String key) {
        return with("Authorization", "Bearer " + key);
    }

    public Calls with(String header, String value) {
        Map<String, String> more = new HashMap<>(headers);
        more.put(header, value);
        return new Calls(base, more);
    }

    public HttpResponse<String> get(String path) {
        return send(request(path).GET().build());
    }

    public HttpResponse<String> post(String path, String json) {
        return send(request(path)
                .header("Content-Type", "application/json")
                .POST(BodyPublishers.ofString(json))
                .build());
    }

    /** A call that changes something and has no body. */
    public HttpResponse<String> post(String path) {
        return send(request(path).POST(BodyPublishers.noBody()).build());
    }

    /** With a body of another type than JSON, which a header says. */
    public HttpResponse<String> send(String method, String path, String body) {
        return send(request(path).method(method, BodyPublishers.ofString(body)).build());
    }

    /** The body of an answer that is JSON. */
    public static JsonNode json(HttpResponse<String> response) {
        return MAPPER.readTree(response.body());
    }

    /** The value of a header, or an empty text. */
    public static String header(HttpResponse<?> response, String name) {
        return response.headers().firstValue(name).orElse("");
    }

    private HttpRequest.Builder request(String path) {
        HttpRequest.Builder request = HttpRequest.newBuilder(URI.create(base + path));
        headers.forEach(request::header);
        return request.timeout(Duration.ofSeconds(30));
    }

    private static HttpResponse<String> send(HttpRequest request) {
        try {
            return CLIENT.send(request, BodyHandlers.ofString());
        } catch (IOException e) {
            throw new IllegalStateException(request + " was not answered", e);
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
            throw new IllegalStateException(request + " was interrupted", e);
        }
    }
}
