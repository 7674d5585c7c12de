package dev.splicebook.web;

import io.swagger.v3.oas.annotations.Operation;
import io.swagger.v3.oas.annotations.Parameter;
import io.swagger.v3.oas.annotations.tags.Tag;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.UUID;
import java.util.stream.IntStream;
import org.jspecify.annotations.Nullable;
import org.springframework.boot.autoconfigure.EnableAutoConfiguration;
import org.springframework.boot.context.TypeExcludeFilter;
import org.springframework.boot.flyway.autoconfigure.FlywayAutoConfiguration;
import org.springframework.boot.hibernate.autoconfigure.HibernateJpaAutoConfiguration;
import org.springframework.boot.jdbc.autoconfigure.DataSourceAutoConfiguration;
import org.springframework.boot.security.autoconfigure.UserDetailsServiceAutoConfiguration;
import org.springframework.boot.test.context.TestComponent;
import org.springframework.context.annotation.Bean;
import org.springframework.context.annotation.ComponentScan;
import org.springframework.context.annotation.FilterType;
import org.springframework.context.annotation.Import;
import org.springframework.http.HttpHeaders;
import org.springframework.http.ResponseEntity;
import org.springframework.security.config.annotation.web.builders.HttpSecurity;
import org.springframework.security.web.SecurityFilterChain;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.PathVariable;
import org.springframework.web.bind.annotation.PostMapping;
import org.springframework.web.bind.annotation.PutMapping;
import org.springframework.web.bind.annotation.RequestBody;
import org.springframework.web.bind.annotation.RequestHeader;
import org.springframework.web.bind.annotation.RequestParam;
import org.springframework.web.bind.annotation.RestController;

/**
 * A small service of samples, with all that this package gives to every endpoint and nothing else. It is no test
 * configuration, which would be added to the whole service, and no component, which the whole service would find.
 */
@EnableAutoConfiguration(
        exclude = {
            DataSourceAutoConfiguration.class,
            HibernateJpaAutoConfiguration.class,
            FlywayAutoConfiguration.class,
            UserDetailsServiceAutoConfiguration.class
        })
@ComponentScan(
        basePackages = "dev.splicebook.web",
        excludeFilters = @ComponentScan.Filter(type = FilterType.CUSTOM, classes = TypeExcludeFilter.class))
@Import(SampleService.Samples.class)
class SampleService {

    @Bean
    SecurityFilterChain open(HttpSecurity http) {
        return http.csrf(csrf -> csrf.disable())
                .authorizeHttpRequests(requests -> requests.anyRequest().permitAll())
                .build();
    }

    @Bean
    SchemaNote tints() {
        return SchemaNote.ofText(Sample.Tint.class, "A tint in two capital letters.", "[A-Z]{2}", "RD");
    }

    @Bean
    SchemaNote names() {
        return SchemaNote.ofGrowing(Sample.class, "name", List.of("left", "right"));
    }

    @TestComponent
    @RestController
    @Tag(name = "samples", description = "A shelf of lamps.")
    static class Samples {

        record Stored(UUID id, int revision, Sample document) {}

        record Line(int number, Sample.Tint tint) {}

        @Operation(operationId = "createSample", summary = "Takes a sample.")
        @ExampleBody("/dev/splicebook/web/sample.json")
        @MayFail(ProblemType.CONFLICT)
        @PostMapping("/v1/samples")
        Sample createSample(@RequestBody Sample sample) {
            return sample;
        }

        @Operation(operationId = "replaceSample", summary = "Replaces a sample.")
        @ExampleBody("/dev/splicebook/web/sample.json")
        @PutMapping("/v1/samples/{id}")
        Map<String, String> replaceSample(
                @PathVariable("id") UUID id,
                @RequestHeader(name = HttpHeaders.IF_MATCH, required = false) @Nullable String ifMatch,
                @RequestBody Sent<Sample> sent) {
            ETags.requireMatch(ifMatch, 3);
            return Map.of("name", sent.value().name(), "json", sent.json());
        }

        @Operation(operationId = "getSample", summary = "One sample.")
        @GetMapping("/v1/samples/{id}")
        ResponseEntity<Stored> getSample(
                @PathVariable("id") UUID id,
                @RequestHeader(name = HttpHeaders.IF_NONE_MATCH, required = false) @Nullable String ifNoneMatch) {
            if (id.getMostSignificantBits() == 0) {
                throw Problems.notFound("sample " + id);
            }
            return ETags.respond(
                    ifNoneMatch,
                    3,
                    () -> new Stored(
                            id,
                            3,
                            new Sample(
                                    "a", null, null, List.of(), Set.of(), Map.of(), Map.of(), List.of(), null, null,
                                    null)));
        }

        @Operation(operationId = "listLines", summary = "The lines of one tint.")
        @GetMapping("/v1/lines")
        PageOf<Line> listLines(
                @Parameter(description = "The tint of the lines.") @RequestParam("tint") Sample.Tint tint,
                PageQuery page) {
            int from =
                    page.after(1).isEmpty() ? 0 : Integer.parseInt(page.after().get(0));
            List<Line> fetched = IntStream.rangeClosed(from + 1, Math.min(from + page.limit() + 1, 120))
                    .mapToObj(number -> new Line(number, tint))
                    .toList();
            return PageOf.ofFetched(fetched, page.limit(), line -> List.of(Integer.toString(line.number())));
        }

        @Operation(operationId = "failSample", summary = "Fails.")
        @GetMapping("/v1/failures")
        Sample failSample() {
            throw new IllegalStateException("jdbc:secret");
        }
    }
}
