package dev.splicebook.hookup;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatExceptionOfType;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import dev.splicebook.guard.InvalidValueException;
import dev.splicebook.hookup.Face.Edge;
import dev.splicebook.hookup.Face.Numbering;
import dev.splicebook.hookup.Face.Place;
import dev.splicebook.hookup.Face.SeenFrom;
import dev.splicebook.web.JsonWriting;
import dev.splicebook.web.ProblemException;
import dev.splicebook.web.StrictReader;
import java.util.List;
import org.assertj.core.api.InstanceOfAssertFactories;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class FaceTest {

    @Test
    void numbersPinsAlongItsRows() {
        Face face = numbered(2, 3, Numbering.ALONG_ROWS, null);

        assertThat(face.grid()).containsExactly(List.of("1", "2", "3"), List.of("4", "5", "6"));
        assertThat(face.findPlace("4")).contains(new Place(2, 1));
        assertThat(face.cavities()).isEqualTo(6);
    }

    @Test
    void numbersPinsAlongItsColumns() {
        Face face = numbered(2, 3, Numbering.ALONG_COLUMNS, null);

        assertThat(face.grid()).containsExactly(List.of("1", "3", "5"), List.of("2", "4", "6"));
        assertThat(face.findPlace("4")).contains(new Place(2, 2));
    }

    @Test
    void leavesOutWhatIsNoCavity() {
        Face face = listed(List.of(List.of("A1", "", "A3"), List.of("", "B2", "")), null);

        assertThat(face.cavities()).isEqualTo(3);
        assertThat(face.findPlace("B2")).contains(new Place(2, 2));
        assertThat(face.findPlace("")).isEmpty();
        assertThat(face.findPlace("A2")).isEmpty();
    }

    @Test
    void exchangesLeftAndRightForWhoLooksFromTheOtherSide() {
        Face turned = numbered(2, 3, Numbering.ALONG_ROWS, Edge.LEFT).seenFrom(SeenFrom.MATING_SIDE);

        assertThat(turned.grid()).containsExactly(List.of("3", "2", "1"), List.of("6", "5", "4"));
        assertThat(turned.latch()).isEqualTo(Edge.RIGHT);
        assertThat(turned.seenFrom()).isEqualTo(SeenFrom.MATING_SIDE);
        assertThat(turned.seenFrom(SeenFrom.WIRE_SIDE).grid())
                .isEqualTo(numbered(2, 3, Numbering.ALONG_ROWS, Edge.LEFT).grid());
        assertThat(turned.seenFrom(SeenFrom.WIRE_SIDE).latch()).isEqualTo(Edge.LEFT);
    }

    @Test
    void staysAsItIsForWhoLooksFromTheSameSide() {
        Face face = numbered(1, 2, Numbering.ALONG_ROWS, null);

        assertThat(face.seenFrom(SeenFrom.WIRE_SIDE)).isSameAs(face);
    }

    @ParameterizedTest
    @CsvSource({"TOP, TOP", "BOTTOM, BOTTOM", "LEFT, RIGHT", "RIGHT, LEFT"})
    void keepsItsLatchAboveOrBelow(Edge latch, Edge seenFromTheOtherSide) {
        assertThat(numbered(1, 1, Numbering.ALONG_ROWS, latch)
                        .seenFrom(SeenFrom.MATING_SIDE)
                        .latch())
                .isEqualTo(seenFromTheOtherSide);
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            quoteCharacter = '`',
            value = {
                "{\"rows\": 0, \"columns\": 1, \"numbering\": \"along-rows\"} | /rows | out-of-range",
                "{\"rows\": 51, \"columns\": 1, \"numbering\": \"along-rows\"} | /rows | out-of-range",
                "{\"rows\": 1, \"columns\": 101, \"numbering\": \"along-columns\"} | /columns | out-of-range",
                "{\"rows\": 1, \"columns\": 1, \"numbering\": \"along-rows\", \"pins\": [[\"1\"]]} | /pins | inconsistent",
                "{\"rows\": 2, \"columns\": 1, \"numbering\": \"listed\", \"pins\": [[\"1\"]]} | /pins | inconsistent",
                "{\"rows\": 1, \"columns\": 1, \"numbering\": \"listed\"} | /pins | inconsistent",
                "{\"rows\": 1, \"columns\": 2, \"numbering\": \"listed\", \"pins\": [[\"1\"]]} | /pins/0 | inconsistent",
                "{\"rows\": 1, \"columns\": 2, \"numbering\": \"listed\", \"pins\": [[\"1\", \"a.b\"]]} | /pins/0/1 | bad-form",
                "{\"rows\": 1, \"columns\": 2, \"numbering\": \"listed\", \"pins\": [[\"1\", \"1\"]]} | /pins/0/1 | duplicate-pin",
                "{\"rows\": 1, \"columns\": 1, \"numbering\": \"along-rows\", \"keying\": \" \"} | /keying | bad-text",
            })
    void refusesWhatCannotBe(String json, String pointer, String code) {
        String withSide = json.replace("{\"rows\"", "{\"seenFrom\": \"wire-side\", \"rows\"");

        assertThatThrownBy(() -> StrictReader.read(withSide, Face.class))
                .asInstanceOf(InstanceOfAssertFactories.type(ProblemException.class))
                .satisfies(problem -> assertThat(problem.errors())
                        .extracting(error -> error.pointer() + " " + error.code())
                        .containsExactly(pointer + " " + code));
    }

    @Test
    void takesTheLargest() {
        assertThat(numbered(50, 100, Numbering.ALONG_ROWS, null).cavities()).isEqualTo(5000);
        assertThatExceptionOfType(InvalidValueException.class)
                .isThrownBy(() -> numbered(51, 101, Numbering.ALONG_ROWS, null))
                .satisfies(refused -> assertThat(refused.invalids()).hasSize(2));
    }

    @Test
    void isWrittenAsItIsRead() {
        Face face = listed(List.of(List.of("1", "")), Edge.TOP);

        assertThat(StrictReader.read(JsonWriting.mapper().writeValueAsString(face), Face.class))
                .isEqualTo(face);
    }

    private static Face numbered(int rows, int columns, Numbering numbering, @Nullable Edge latch) {
        return new Face(SeenFrom.WIRE_SIDE, rows, columns, numbering, List.of(), latch, null);
    }

    private static Face listed(List<List<String>> pins, @Nullable Edge latch) {
        return new Face(SeenFrom.WIRE_SIDE, pins.size(), pins.get(0).size(), Numbering.LISTED, pins, latch, null);
    }
}
