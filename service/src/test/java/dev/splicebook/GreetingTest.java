package dev.splicebook;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class GreetingTest {

    @Test
    void findsAFileInAParentOfTheWorkingFolder(@TempDir Path top) throws Exception {
        Path file = Files.createDirectories(top.resolve("examples")).resolve("one.json");
        Files.writeString(file, "{}");
        Path below = Files.createDirectories(top.resolve("service").resolve("target"));

        assertThat(Greeting.findUpwards(below, Path.of("examples", "one.json"))).contains(file);
        assertThat(Greeting.findUpwards(below, Path.of("examples", "two.json"))).isEmpty();
    }

    @Test
    void quotesThePathAsAShellReadsIt() {
        assertThat(Greeting.checkCall("http://127.0.0.1:8080", Path.of("/a b/$c\"d`e/check.json")))
                .startsWith("curl ")
                .contains("http://127.0.0.1:8080/v1/checks")
                .endsWith("-d @\"/a b/\\$c\\\"d\\`e/check.json\"");
    }
}
