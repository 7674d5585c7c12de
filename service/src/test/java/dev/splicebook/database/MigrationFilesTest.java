package dev.splicebook.database;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.util.Map;
import java.util.TreeMap;
import java.util.zip.CRC32;
import org.junit.jupiter.api.Test;
import org.springframework.core.io.Resource;
import org.springframework.core.io.support.PathMatchingResourcePatternResolver;

/** A database that has run a migration refuses to start with another text of it, be it a comment. */
class MigrationFilesTest {

    private static final Map<String, String> LANDED = Map.ofEntries(
            Map.entry("V1__book.sql", "3245ae5a"),
            Map.entry("V2__search.sql", "a83b5dd7"),
            Map.entry("V3__fits.sql", "086e2719"),
            Map.entry("V4__exchange.sql", "c8b920e3"),
            Map.entry("V5__jobs.sql", "c78295ca"));

    @Test
    void changesNoMigrationThatDatabasesHaveRun() throws IOException {
        Map<String, String> found = new TreeMap<>();
        for (Resource file : new PathMatchingResourcePatternResolver().getResources("classpath:db/migration/*.sql")) {
            CRC32 sum = new CRC32();
            file.getContentAsString(StandardCharsets.UTF_8)
                    .lines()
                    .forEach(line -> sum.update(line.getBytes(StandardCharsets.UTF_8)));
            found.put(String.valueOf(file.getFilename()), String.format("%08x", sum.getValue()));
        }

        assertThat(found)
                .as("put a changed migration back and write another; add a new one here when it lands")
                .containsExactlyInAnyOrderEntriesOf(LANDED);
    }
}
