package dev.splicebook.exchange;

import dev.splicebook.testing.Calls;
import java.io.IOException;
import java.io.InputStream;
import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpRequest.BodyPublisher;
import java.net.http.HttpRequest.BodyPublishers;
import java.net.http.HttpResponse;
import java.net.http.HttpResponse.BodyHandlers;
import java.nio.charset.StandardCharsets;
import java.time.Duration;
import java.util.UUID;
import tools.jackson.databind.JsonNode;

/** Imports and exports, as a shop's program sends and fetches them. */
record Exchange(Calls calls) {

    private static final HttpClient CLIENT = HttpClient.newHttpClient();
    private static final Duration PATIENCE = Duration.ofMinutes(5);

    HttpResponse<String> put(UUID id, String lines) {
        return put(id, "", lines);
    }

    HttpResponse<String> put(UUID id, String query, String lines) {
        return put(id, query, BodyPublishers.ofByteArray(lines.getBytes(StandardCharsets.UTF_8)));
    }

    HttpResponse<String> put(UUID id, String query, BodyPublisher body) {
        return CLIENT.sendAsync(request(id, query, body), BodyHandlers.ofString())
                .join();
    }

    JsonNode view(UUID id) {
        return Calls.json(calls.get("/v1/imports/" + id));
    }

    String export(String query) {
        HttpResponse<String> answer = calls.get("/v1/export" + query);
        if (answer.statusCode() != 200) {
            throw new IllegalStateException(answer.body());
        }
        return answer.body();
    }

    InputStream exportStream(String query) throws IOException, InterruptedException {
        HttpRequest.Builder request = HttpRequest.newBuilder(URI.create(calls.base() + "/v1/export" + query));
        calls.headers().forEach(request::header);
        return CLIENT.send(request.build(), BodyHandlers.ofInputStream()).body();
    }

    private HttpRequest request(UUID id, String query, BodyPublisher body) {
        HttpRequest.Builder request = HttpRequest.newBuilder(URI.create(calls.base() + "/v1/imports/" + id + query))
                .timeout(PATIENCE);
        calls.headers().forEach(request::header);
        return request.header("Content-Type", "application/x-ndjson").PUT(body).build();
    }
}
