package dev.splicebook.check.web;

import static org.assertj.core.api.Assertions.assertThat;

import dev.splicebook.hookup.DemoFiles;
import dev.splicebook.testing.ServiceIntegrationTest;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.Test;
import tools.jackson.core.util.DefaultIndenter;
import tools.jackson.core.util.DefaultPrettyPrinter;
import tools.jackson.core.util.Separators;
import tools.jackson.databind.DeserializationFeature;
import tools.jackson.databind.json.JsonMapper;

/** The API as it lies among the examples, for those who make clients from it, is the one that the service tells. */
class CommittedApiIntegrationTest extends ServiceIntegrationTest {

    private static final Path FILE = DemoFiles.examples().resolve("openapi.json");

    private static final JsonMapper MAPPER = JsonMapper.builder()
            .enable(DeserializationFeature.USE_BIG_DECIMAL_FOR_FLOATS)
            .build();

    @Test
    void isWhatTheServiceTells() throws IOException {
        String told = lines(anonymousCalls().get("/v3/api-docs").body());
        if (Boolean.getBoolean("splicebook.test.write-api")) {
            Files.writeString(FILE, told);
        }
        String committed = Files.exists(FILE) ? Files.readString(FILE).replace("\r\n", "\n") : "";

        assertThat(committed)
                .as("api-examples/openapi.json is not what the service tells; this writes it, to be looked at and"
                        + " committed: mvn -q -ntp -Pwrite-api test")
                .isEqualTo(told);
    }

    /** The document with a line for every value, so that a change of one shows as such. */
    private static String lines(String json) {
        DefaultIndenter indenter = new DefaultIndenter(" ", "\n");
        Separators separators = Separators.createDefaultInstance()
                .withObjectNameValueSpacing(Separators.Spacing.AFTER)
                .withObjectEmptySeparator("")
                .withArrayEmptySeparator("");
        DefaultPrettyPrinter printer = new DefaultPrettyPrinter(separators)
                .withObjectIndenter(indenter)
                .withArrayIndenter(indenter);
        return MAPPER.writer().with(printer).writeValueAsString(MAPPER.readTree(json)) + "\n";
    }
}
