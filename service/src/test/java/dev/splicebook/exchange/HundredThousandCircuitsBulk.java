package dev.splicebook.exchange;

import static org.assertj.core.api.Assertions.assertThat;

import dev.splicebook.shop.DemoKey;
import dev.splicebook.testing.Calls;
import dev.splicebook.testing.ServiceProcess;
import dev.splicebook.testing.TestDatabase;
import java.io.InputStream;
import java.net.http.HttpRequest.BodyPublishers;
import java.net.http.HttpResponse;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.time.Instant;
import java.util.List;
import java.util.Map;
import java.util.UUID;
import java.util.regex.MatchResult;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;
import tools.jackson.databind.JsonNode;

/** What an import and an export of 100,000 circuits cost a service with a small heap; run by the profile {@code bulk}. */
class HundredThousandCircuitsBulk {

    private static final int VEHICLES = 1000;
    private static final int CIRCUITS = 100;
    private static final Pattern COLLECTION = Pattern.compile("(\\d+)M->(\\d+)M\\((\\d+)M\\)");

    private final Path folder = TestDatabase.newFolder();

    @Test
    void passInBothDirectionsThroughASmallHeap() throws Exception {
        Path lines = folder.resolve("book.ndjson");
        Path exported = folder.resolve("exported.ndjson");
        try (var out = Files.newBufferedWriter(lines)) {
            for (int at = 0; at < VEHICLES; at++) {
                out.write(vehicle(at));
            }
        }
        try (ServiceProcess service = ServiceProcess.start(
                List.of("-Xmx256m", "-Xlog:gc"),
                Map.of(),
                List.of("--splicebook.data-folder=" + folder.resolve("data")))) {
            Exchange exchange = new Exchange(service.calls().withKey(DemoKey.VALUE));

            Instant start = Instant.now();
            HttpResponse<String> stored = exchange.put(UUID.randomUUID(), "", BodyPublishers.ofFile(lines));
            Instant imported = Instant.now();
            try (InputStream export = exchange.exportStream("?what=vehicles")) {
                Files.copy(export, exported);
            }
            Instant end = Instant.now();
            HttpResponse<String> again = exchange.put(UUID.randomUUID(), "", BodyPublishers.ofFile(exported));
            Instant judged = Instant.now();

            assertThat(stored.statusCode()).as(stored.body()).isEqualTo(200);
            JsonNode view = Calls.json(stored);
            assertThat(view.path("circuits").asInt()).isEqualTo(VEHICLES * CIRCUITS);
            try (var read = Files.lines(exported)) {
                assertThat(read.count()).isGreaterThanOrEqualTo(VEHICLES);
            }
            assertThat(Calls.json(again).path("unchanged").asInt()).isGreaterThanOrEqualTo(VEHICLES);
            assertThat(service.output()).doesNotContain("OutOfMemoryError");
            System.out.printf(
                    "%d MB in: %d ms; out: %d ms; in again, unchanged: %d ms; heap before a collection at most %d MB, after one at most %d MB%n",
                    Files.size(lines) / 1_000_000,
                    Duration.between(start, imported).toMillis(),
                    Duration.between(imported, end).toMillis(),
                    Duration.between(end, judged).toMillis(),
                    most(service.output(), 1),
                    most(service.output(), 2));
        }
    }

    private static int most(String output, int group) {
        return COLLECTION
                .matcher(output)
                .results()
                .map((MatchResult found) -> found.group(group))
                .mapToInt(Integer::parseInt)
                .max()
                .orElse(0);
    }

    private static String vehicle(int number) {
        String circuits = IntStream.range(0, CIRCUITS)
                .mapToObj(at -> "\"C" + at / 20 + "-" + (at % 20 + 1)
                        + "\":{\"function\":\"power.accessory\",\"colour\":\"RD/BU\",\"electrical\":{\"kind\":\"supply\","
                        + "\"volts\":12.6,\"maxAmps\":10,\"live\":[\"accessory\",\"running\"]},"
                        + "\"source\":\"fuse box, slot " + at + "\",\"test\":\"12 V with the key at accessory.\"}")
                .collect(Collectors.joining(","));
        String line = "{\"kind\":\"vehicle\",\"id\":\""
                + UUID.nameUUIDFromBytes(Integer.toString(number).getBytes(StandardCharsets.UTF_8))
                + "\",\"document\":{\"maker\":\"Ondrake\",\"model\":\"Quarrel " + number + "\",\"circuits\":{"
                + circuits
                + "}}}\n";
        return line;
    }
}
