package dev.splicebook;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import org.junit.jupiter.api.Test;
import org.springframework.modulith.core.ApplicationModules;
import org.springframework.modulith.docs.Documenter;

class ModularityTest {

    private static final ApplicationModules MODULES = ApplicationModules.of(SplicebookApplication.class);

    @Test
    void modulesUseOnlyWhatTheyMay() {
        assertThat(MODULES.stream()).as("modules found below dev.splicebook").isNotEmpty();

        MODULES.verify();
    }

    @Test
    void writesTheModuleDocumentation() {
        new Documenter(MODULES).writeDocumentation();

        assertThat(Path.of("target", "spring-modulith-docs", "components.puml")).isNotEmptyFile();
    }
}
