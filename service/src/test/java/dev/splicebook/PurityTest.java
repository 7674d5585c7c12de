package dev.splicebook;

import static com.tngtech.archunit.lang.syntax.ArchRuleDefinition.classes;

import com.tngtech.archunit.core.domain.JavaClasses;
import com.tngtech.archunit.core.importer.ClassFileImporter;
import com.tngtech.archunit.core.importer.ImportOption;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/** What is pure stays pure: it can be read, run and tested without a framework, a database or a mapper. */
class PurityTest {

    private static final JavaClasses CLASSES = new ClassFileImporter()
            .withImportOption(new ImportOption.DoNotIncludeTests())
            .importPackages("dev.splicebook");

    private static final List<String> EVERY_PURE_PACKAGE_MAY_USE = List.of("java..", "org.jspecify..");

    static List<Pure> purePackages() {
        return List.of(
                Pure.using("dev.splicebook.guard.."),
                Pure.using("dev.splicebook.function..", "dev.splicebook.guard.."),
                Pure.using("dev.splicebook.electrics..", "dev.splicebook.guard.."),
                Pure.using("dev.splicebook.circuit..", "dev.splicebook.guard.."),
                Pure.using(
                        "dev.splicebook.hookup..",
                        "dev.splicebook.guard..",
                        "dev.splicebook.function..",
                        "dev.splicebook.electrics..",
                        "dev.splicebook.circuit..",
                        "com.fasterxml.jackson.annotation..",
                        "com.google.auto.service..",
                        "org.jgrapht.."));
    }

    /** A package, itself and below, and the other packages that it may use. */
    record Pure(String name, List<String> uses) {

        static Pure using(String name, String... uses) {
            return new Pure(name, List.of(uses));
        }

        String[] allowed() {
            return Stream.of(EVERY_PURE_PACKAGE_MAY_USE, List.of(name), uses)
                    .flatMap(List::stream)
                    .toArray(String[]::new);
        }
    }

    @ParameterizedTest
    @MethodSource("purePackages")
    void usesNothingElse(Pure pure) {
        // fails on a package without classes too, which is what a misspelt one would be
        classes()
                .that()
                .resideInAPackage(pure.name())
                .should()
                .onlyDependOnClassesThat()
                .resideInAnyPackage(pure.allowed())
                .allowEmptyShould(false)
                .check(CLASSES);
    }
}
