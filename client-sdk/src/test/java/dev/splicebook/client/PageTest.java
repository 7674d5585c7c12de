package dev.splicebook.client;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatExceptionOfType;

import java.util.Arrays;
import java.util.Iterator;
import java.util.Map;
import java.util.NoSuchElementException;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.Test;

class PageTest {

    private final FakeService service = new FakeService();

    @AfterEach
    void closeService() {
        service.close();
    }

    private Page<DeviceSummary> devices() {
        return service.client()
                .build()
                .devices()
                .list(DeviceQuery.all()
                        .kind("amplifier")
                        .maker("Här & Co")
                        .paging(Paging.start().limit(2)));
    }

    private FakeService answersPage(String next, String... codes) {
        String items = String.join(
                ",", Arrays.stream(codes).map(code -> """
                                {"code": "%s", "revision": 1, "shared": true, "createdAt": "2026-11-25T10:00:00Z"}""".formatted(code)).toList());
        return service.answers(200, "{\"items\": [" + items + "], \"next\": " + next + "}");
    }

    @Test
    void goesThroughEveryPageWithTheSameQuery() {
        answersPage("\"c/1\"", "A", "B");
        answersPage("\"c2\"");
        answersPage("null", "C");

        assertThat(devices().stream().map(DeviceSummary::code)).containsExactly("A", "B", "C");

        assertThat(service.requests())
                .extracting(FakeService.Request::path)
                .containsExactly(
                        "/v1/devices?kind=amplifier&maker=H%C3%A4r%20%26%20Co&limit=2",
                        "/v1/devices?kind=amplifier&maker=H%C3%A4r%20%26%20Co&limit=2&cursor=c%2F1",
                        "/v1/devices?kind=amplifier&maker=H%C3%A4r%20%26%20Co&limit=2&cursor=c2");
    }

    @Test
    void fetchesNoPageBeforeItIsReached() {
        answersPage("\"c1\"", "A", "B");

        assertThat(devices().stream().limit(2).map(DeviceSummary::code)).containsExactly("A", "B");

        assertThat(service.requests()).hasSize(1);
    }

    @Test
    void isWalkedByHand() {
        answersPage("\"c1\"", "A");
        answersPage("null", "B");

        Page<DeviceSummary> first = devices();

        assertThat(first.items()).extracting(DeviceSummary::code).containsExactly("A");
        assertThat(first.nextCursor()).hasValue("c1");
        Page<DeviceSummary> second = first.findNext().orElseThrow();
        assertThat(second.items()).extracting(DeviceSummary::code).containsExactly("B");
        assertThat(second.nextCursor()).isEmpty();
        assertThat(second.findNext()).isEmpty();
    }

    @Test
    void goesOnFromACursorThatWasKept() {
        answersPage("null", "B");

        service.client().build().devices().listRevisions("B", Paging.from("kept"));

        assertThat(service.requests().get(0).path()).isEqualTo("/v1/devices/B/revisions?cursor=kept");
    }

    @Test
    void endsWhereTheListEnds() {
        answersPage("null", "A");

        Iterator<DeviceSummary> walk = devices().iterator();
        walk.next();

        assertThat(walk.hasNext()).isFalse();
        assertThatExceptionOfType(NoSuchElementException.class).isThrownBy(walk::next);
    }

    @Test
    void passesOnWhatAFetchEndsWith() {
        answersPage("\"c1\"", "A").answersProblem(400, "bad-parameter", Map.of());

        Iterator<DeviceSummary> walk = devices().iterator();
        walk.next();

        assertThatExceptionOfType(BadRequestException.class).isThrownBy(walk::hasNext);
    }
}
