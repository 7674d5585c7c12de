package dev.splicebook.exchange;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatExceptionOfType;

import dev.splicebook.hookup.Circuit;
import dev.splicebook.hookup.Electrical;
import dev.splicebook.hookup.FunctionMap;
import dev.splicebook.hookup.State;
import dev.splicebook.vehicle.StoredMap;
import dev.splicebook.web.Fault;
import dev.splicebook.web.ProblemException;
import java.nio.charset.Charset;
import java.nio.charset.StandardCharsets;
import java.time.Instant;
import java.util.Arrays;
import java.util.List;
import java.util.Objects;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

class SpreadsheetsTest {

    private static final VehicleHead NOTHING =
            new VehicleHead(null, null, null, null, null, null, List.of(), List.of());

    private static FunctionMap read(String sheet) {
        return read(sheet.getBytes(StandardCharsets.UTF_8));
    }

    private static FunctionMap read(byte[] sheet) {
        return Spreadsheets.read(NOTHING, sheet).value();
    }

    private static List<Fault> faults(String sheet) {
        return faults(sheet.getBytes(StandardCharsets.UTF_8));
    }

    private static List<Fault> faults(byte[] sheet) {
        return problem(sheet).errors();
    }

    private static ProblemException problem(byte[] sheet) {
        try {
            read(sheet);
        } catch (ProblemException problem) {
            return problem;
        }
        throw new AssertionError("the sheet has no fault");
    }

    private static Fault onlyFault(String sheet) {
        List<Fault> faults = faults(sheet);
        assertThat(faults).hasSize(1);
        return faults.get(0);
    }

    private static void assertFault(
            Fault fault, @Nullable Integer line, @Nullable Integer column, @Nullable String name, String code) {
        assertThat(Arrays.asList(fault.line(), fault.column(), fault.columnName(), fault.code()))
                .as(fault.detail())
                .containsExactly(line, column, name, code);
    }

    private static Circuit circuit(FunctionMap map, String name) {
        return Objects.requireNonNull(map.circuits().get(name), name);
    }

    private static StoredMap stored(String document) {
        return new StoredMap(new UUID(0, 1), 1, 1, false, Instant.EPOCH, document);
    }

    @Test
    void readsEveryFormOfCell() {
        FunctionMap map = read("""
                connector,pin,function,colour,source,carries,electrical.kind,electrical.volts,electrical.live,electrical.when,electrical.limited,whenPlugged.kind,whenPlugged.return,connectorName,connectorPinCount
                C1,7,power.battery,YE/RD,F12,door chime; parking aid,supply,12.60,asleep running,parking-brake,TRUE,,,radio,16
                C1,8,,,,,,,,,,line-out,driven,,
                battery,plus,,RD,,,,,,,,,,,
                ,chassis,ground.chassis,,,,,,,,,,,,
                """);

        assertThat(map.circuits().keySet()).containsExactly("C1-7", "C1-8", "battery-plus", "chassis");
        Electrical facts = circuit(map, "C1-7").factsWhen(true);
        assertThat(facts).isInstanceOfSatisfying(Electrical.Supply.class, supply -> {
            assertThat(supply.volts()).isEqualTo(12.6);
            assertThat(supply.live()).containsExactly(State.ASLEEP, State.RUNNING);
            assertThat(supply.limited()).isTrue();
        });
        assertThat(circuit(map, "C1-7").carries()).containsExactly("door chime", "parking aid");
        assertThat(Objects.requireNonNull(map.connectors().get("C1")).pinCount())
                .isEqualTo(16);
    }

    @ParameterizedTest
    @ValueSource(strings = {",", ";", "\t"})
    void takesEachSeparator(String separator) {
        String sheet = "\ufeff\"connector\",pin,note\r\n\r\nC1,7,\"a\r\nb\"\r\n".replace(",", separator);

        FunctionMap map = read(sheet);

        assertThat(circuit(map, "C1-7").note()).isEqualTo("a\r\nb");
    }

    @ParameterizedTest
    @ValueSource(strings = {"\n", "\r\n", "\r"})
    void countsLinesAsAnEditorDoes(String end) {
        String sheet = String.join(
                end,
                "connector,pin,note,colour",
                "",
                "C1,1,\"two",
                "lines, and \"\"quotes\"\"\",RD",
                "C1,2,\"three",
                "",
                "lines\",red",
                "C1,3,,blue");

        List<Fault> faults = faults(sheet);

        assertThat(faults).hasSize(2);
        assertFault(faults.get(0), 7, 4, "colour", "unknown-colour");
        assertFault(faults.get(1), 8, 4, "colour", "unknown-colour");
    }

    @Test
    void saysWhichCodeAColourWordStandsFor() {
        Fault fault = onlyFault("connector,pin,colour\nC1,7,yellow\n");

        assertFault(fault, 2, 3, "colour", "unknown-colour");
        assertThat(fault.pointer()).isEqualTo("/circuits/C1-7/colour");
        assertThat(fault.detail())
                .startsWith("line 2, column 3 (colour): colour \"yellow\" is no letter code of IEC 60757, YE stands for"
                        + " yellow");
    }

    @Test
    void namesTheNearestFunctions() {
        Fault fault = onlyFault("connector,pin,function\nC1,7,power.batery\n");

        assertFault(fault, 2, 3, "function", "unknown-function");
        assertThat(fault.detail()).contains("power.batery", "nearest: power.battery");
    }

    @Test
    void namesTheNearestColumns() {
        Fault fault = onlyFault("connector,pin,color,note\nC1,7,RD,\n");

        assertFault(fault, 1, 3, "color", "unknown-column");
        assertThat(fault.detail())
                .startsWith("line 1, column 3 (color): there is no column \"color\"; the nearest are colour, ");
    }

    @Test
    void tellsColumnsThatAreMissingOrStandTwice() {
        List<Fault> faults = faults("note,pin,note\nx,7,y\n");

        assertThat(faults).hasSize(2);
        assertFault(faults.get(0), 1, null, null, "missing-column");
        assertThat(faults.get(0).detail()).isEqualTo("line 1: the header has no column connector");
        assertFault(faults.get(1), 1, 3, "note", "duplicate-column");
        assertThat(faults.get(1).detail()).endsWith("the column note stands in column 1 already");
    }

    @Test
    void judgesCellsEvenWhereTheHeaderIsWrong() {
        List<Fault> faults = faults("conector,pin,colour\nC1,7,red\n");

        assertThat(faults).hasSize(3);
        assertFault(faults.get(0), 1, null, null, "missing-column");
        assertFault(faults.get(1), 1, 1, "conector", "unknown-column");
        assertFault(faults.get(2), 2, 3, "colour", "unknown-colour");
        assertThat(faults.get(2).pointer()).isEmpty();
    }

    @Test
    void namesTheFirstLineOfAPinThatStandsTwice() {
        List<Fault> faults = faults("connector,pin,colour\nC1,7,RD\nC1,8,\nC1,07,BK\nC1,8,pink\n");

        assertThat(faults).hasSize(3);
        assertFault(faults.get(0), 4, 2, "pin", "duplicate-pin");
        assertThat(faults.get(0).detail()).isEqualTo("line 4, column 2 (pin): C1-07 is a pin that line 2 has already");
        assertFault(faults.get(1), 5, 2, "pin", "duplicate-pin");
        assertThat(faults.get(1).detail()).contains("line 3 has already");
        assertFault(faults.get(2), 5, 3, "colour", "unknown-colour");
    }

    @Test
    void tellsPinsBeyondTheCountTogetherWithFaultsOfCells() {
        List<Fault> faults = faults("""
                connector,pin,connectorPinCount,colour,electrical.kind,electrical.maxAmps
                C1,7,,,,
                C1,9,8,,,
                C1,3,,red,supply,0
                """);

        assertThat(faults).hasSize(3);
        assertFault(faults.get(0), 3, 2, "pin", "beyond-pin-count");
        assertThat(faults.get(0).detail()).contains("C1-9 is pin 9 of a connector with 8 pins");
        assertThat(faults.get(0).pointer()).isEqualTo("/circuits/C1-9");
        assertFault(faults.get(1), 4, 4, "colour", "unknown-colour");
        assertFault(faults.get(2), 4, 6, "electrical.maxAmps", "out-of-range");
        assertThat(faults.get(2).detail()).contains("maxAmps is 0, outside above 0 to 2000");
    }

    @Test
    void tellsRowsThatDisagreeAboutTheirConnector() {
        Fault fault = onlyFault("connector,pin,connectorName\nC1,1,radio\nC2,1,amp\nC1,2,\nC1,3,tuner\n");

        assertFault(fault, 5, 3, "connectorName", "inconsistent");
        assertThat(fault.detail()).contains("connectorName of C1 is \"tuner\", and line 2 says \"radio\"");
        assertThat(fault.pointer()).isEqualTo("/connectors/C1/name");
    }

    @Test
    void tellsAFactThatTheKindDoesNotHave() {
        Fault fault = onlyFault("connector,pin,whenPlugged.kind,whenPlugged.ohms\nC1,1,supply,4\n");

        assertFault(fault, 2, 4, "whenPlugged.ohms", "not-of-kind");
        assertThat(fault.detail())
                .contains("whenPlugged.ohms is \"4\", and the kind supply has no ohms; it has volts, maxAmps, live");
        assertThat(fault.pointer()).isEqualTo("/circuits/C1-1/whenPlugged/ohms");
    }

    @ParameterizedTest
    @CsvSource(delimiter = '|', quoteCharacter = '`', textBlock = """
            electrical.kind,electrical.volts                      | suply,12               | 3 | electrical.kind    | unknown-value   | speaker-in
            electrical.kind,electrical.volts                      | ,12                    | 4 | electrical.volts   | missing-value   | electrical.kind is empty
            electrical.kind,electrical.volts                      | supply,"12,6"          | 4 | electrical.volts   | wrong-type      | the decimal sign is a point
            electrical.kind,electrical.volts                      | supply,12 V            | 4 | electrical.volts   | wrong-type      | where a number belongs
            electrical.kind,electrical.volts                      | supply,1e400           | 4 | electrical.volts   | number-out-of-range | 1.8e308
            electrical.kind,electrical.volts                      | supply,-1              | 4 | electrical.volts   | out-of-range    | outside above 0
            electrical.kind,electrical.volts                      | supply,=6*2            | 4 | electrical.volts   | formula-like    | =6*2
            electrical.kind,electrical.limited                    | supply,yes             | 4 | electrical.limited | wrong-type      | true or false
            electrical.kind,electrical.live                       | supply,runing asleep   | 4 | electrical.live    | unknown-value   | runing
            electrical.kind,electrical.side                       | line-out,plus          | 4 | electrical.side    | unknown-value   | signal or return
            electrical.kind,electrical.minVolts,electrical.maxVolts | line-in,3,2          | 4 | electrical.minVolts | inconsistent   | above maxVolts
            electrical.kind,whenPlugged.kind                      | load,load              | 3 | electrical.kind    | inconsistent    | cannot stand beside it
            note                                                  | @SUM(A1)               | 3 | note               | formula-like    | behind a leading '
            note                                                  | +1 555                 | 3 | note               | formula-like    | behind a leading '
            note                                                  | -5                     | 3 | note               | formula-like    | behind a leading '
            note                                                  | "\tx"                  | 3 | note               | formula-like    | spreadsheet programs
            note                                                  | a\u0000b               | 3 | note               | bad-character   | U+0000
            connectorPinCount                                     | 16.5                   | 3 | connectorPinCount  | wrong-type      | whole number
            connectorPinCount                                     | 501                    | 3 | connectorPinCount  | out-of-range    | 1 to 500
            connectorColour                                       | grey                   | 3 | connectorColour    | unknown-colour  | GY stands for grey
            """)
    void tellsAFaultOfACell(String header, String cells, int column, String name, String code, String said) {
        String row = cells.replace("\\t", "\t").replace("\\u0000", "\0");

        Fault fault = onlyFault("connector,pin," + header + "\nC1,1," + row + "\n");

        assertFault(fault, 2, column, name, code);
        assertThat(fault.detail())
                .startsWith("line 2, column " + column + " (" + name + "): ")
                .contains(said);
    }

    @ParameterizedTest
    @CsvSource(delimiter = '|', textBlock = """
            C1,     | 2 | pin       | missing-value | the pin is empty
            ,7      | 1 | connector | missing-value | only the pin chassis belongs to none
            C1,7-8  | 2 | pin       | bad-form      | not a pin of letters
            C 1,7   | 1 | connector | bad-form      | not a name of at most 64
            =C1,7   | 1 | connector | formula-like  | formula
            """)
    void tellsANameThatIsNone(String names, int column, String name, String code, String said) {
        Fault fault = onlyFault("connector,pin,colour\n" + names + ",RD\n");

        assertFault(fault, 2, column, name, code);
        assertThat(fault.detail()).contains(said);
    }

    @Test
    void tellsConnectorsThatNoMapHas() {
        List<Fault> faults = faults("connector,pin,connectorName\nbattery,plus,post\n,chassis,frame\n");

        assertThat(faults).hasSize(2);
        assertFault(faults.get(0), 2, 3, "connectorName", "reserved");
        assertFault(faults.get(1), 3, 3, "connectorName", "inconsistent");
    }

    @Test
    void tellsCellsBeyondTheHeader() {
        Fault fault = onlyFault("connector,pin,note\nC1,1,white, with black\nC1,2,,,,\n");

        assertFault(fault, 2, 4, null, "too-many-cells");
        assertThat(fault.detail())
                .isEqualTo(
                        "line 2, column 4: the row has 4 cells, and the header 3; \" with black\" belongs to no column");
    }

    @Test
    void tellsAColumnWithoutANameOnce() {
        Fault fault = onlyFault("connector,,pin,\nC1,x,1,\nC1,y,2,\n");

        assertFault(fault, 2, 2, null, "unnamed-column");
    }

    @Test
    void tellsBytesThatAreNotUtf8ByLineAndByte() {
        byte[] sheet = "connector,pin,note,colour\nC1,1,ok,red\nC1,2,gr\u00fcn,\nC1,3,\u00fc\u00fc,RD\n"
                .getBytes(StandardCharsets.ISO_8859_1);

        List<Fault> faults = faults(sheet);

        assertThat(faults).hasSize(3);
        assertFault(faults.get(0), 2, 4, "colour", "unknown-colour");
        assertFault(faults.get(1), 3, null, null, "bad-encoding");
        assertThat(faults.get(1).detail()).isEqualTo("line 3: byte 8 of the line is 0xFC, which is not UTF-8 there");
        assertFault(faults.get(2), 4, null, null, "bad-encoding");
        assertThat(faults.get(2).detail()).contains("byte 6 of the line is 0xFC");
    }

    @Test
    void saysNothingMoreOfAHeaderOrNameThatIsNotUtf8() {
        byte[] sheet = "connector,pin,no\u00fcte\nC\u00fc,1,x\n".getBytes(StandardCharsets.ISO_8859_1);

        assertThat(faults(sheet))
                .extracting(Fault::line, Fault::code)
                .containsExactly(
                        org.assertj.core.groups.Tuple.tuple(1, "bad-encoding"),
                        org.assertj.core.groups.Tuple.tuple(2, "bad-encoding"));
    }

    @ParameterizedTest
    @ValueSource(strings = {"UTF-16", "UTF-16LE", "windows-1252"})
    void readsNoOtherEncoding(String charset) {
        String sheet = (charset.equals("UTF-16LE") ? "\ufeff" : "") + "connector,pin\nC1,1\n\u20ac\n";

        assertThat(faults(sheet.getBytes(Charset.forName(charset))).get(0).code())
                .isEqualTo("bad-encoding");
    }

    @Test
    void tellsQuotesThatAreNeverClosedAndWhatStoodBefore() {
        List<Fault> faults = faults("connector,pin,colour,note\nC1,1,red,\"a\nb\"\nC1,2,,\"never closed\nC1,3,red,\n");

        assertThat(faults).hasSize(2);
        assertFault(faults.get(0), 2, 3, "colour", "unknown-colour");
        assertFault(faults.get(1), 4, 4, null, "bad-quoting");
        assertThat(faults.get(1).detail()).contains("never closed");
    }

    @Test
    void tellsTextBehindClosedQuotes() {
        Fault fault = onlyFault("connector,pin,note\nC1,1,\"a \"quoted\" word\"\n");

        assertFault(fault, 2, 3, null, "bad-quoting");
        assertThat(fault.detail()).contains("quotes within quotes are doubled");
    }

    @Test
    void tellsAFileWithNothingInIt() {
        assertThat(onlyFault("").code()).isEqualTo("empty-body");
        assertThat(onlyFault("\n\r\n , \n").code()).isEqualTo("empty-body");
        assertFault(onlyFault("\nconnector,pin\n\n"), 2, null, null, "no-rows");
    }

    @Test
    void listsTheFirstHundredFaultsAndCountsAll() {
        StringBuilder sheet = new StringBuilder("connector,pin,colour\n");
        for (int pin = 1; pin <= 150; pin++) {
            sheet.append("C1,").append(pin).append(",red\n");
        }

        ProblemException problem = problem(sheet.toString().getBytes(StandardCharsets.UTF_8));

        assertThat(problem.errors()).hasSize(100);
        assertThat(problem.errors().get(99).line()).isEqualTo(101);
        assertThat(problem.detail())
                .isEqualTo("the body has 150 faults, of which the first 100 are listed; 50 more are not");
    }

    @Test
    void stopsReadingWhereNoMapGoesOn() {
        StringBuilder sheet = new StringBuilder("connector,pin\n");
        for (int row = 1; row <= 7000; row++) {
            sheet.append('C').append(row / 400).append(',').append(row).append('\n');
        }

        assertThat(faults(sheet.toString()))
                .extracting(Fault::code)
                .containsExactlyInAnyOrder("too-many", "too-many-rows");
        assertThat(onlyFault("connector,pin\n" + ",".repeat(700_000)).code()).isEqualTo("too-many-values");
    }

    @Test
    void takesTextThatIsMarkedAsText() {
        FunctionMap map = read("connector,pin,note,source,test\nC1,1,'=A1,'' , 'x'\n");

        assertThat(circuit(map, "C1-1").note()).isEqualTo("=A1");
        assertThat(circuit(map, "C1-1").source()).isEqualTo("' ");
        assertThat(circuit(map, "C1-1").test()).isEqualTo("'x'");
    }

    @Test
    void writesNumbersAsTheDocumentHasThem() {
        StoredMap map = stored("""
                {"circuits": {"C1-7": {"colour": "RD", "note": "=x, \\"y\\"", "electrical":
                  {"kind": "supply", "volts": 12.60, "maxAmps": 15, "live": [], "when": "lamps"}}},
                 "connectors": {"C1": {"pinCount": 8}, "C2": {"name": "amp"}, "C3": {}}}
                """);

        String sheet = Spreadsheets.write(map);

        assertThat(sheet)
                .isEqualTo(
                        "connector,pin,colour,note,electrical.kind,electrical.volts,electrical.maxAmps,electrical.live,"
                                + "electrical.when,connectorName,connectorPinCount\r\n"
                                + "C1,7,RD,\"'=x, \"\"y\"\"\",supply,12.60,15,none,lamps,,8\r\n"
                                + "C2,,,,,,,,,amp,\r\n");
        assertThat(Spreadsheets.read(NOTHING, sheet.getBytes(StandardCharsets.UTF_8))
                        .json())
                .isEqualTo("{\"connectors\":{\"C1\":{\"pinCount\":8},\"C2\":{\"name\":\"amp\"}},\"circuits\":{\"C1-7\":"
                        + "{\"colour\":\"RD\",\"note\":\"=x, \\\"y\\\"\",\"electrical\":{\"kind\":\"supply\",\"volts\":12.60,"
                        + "\"maxAmps\":15,\"live\":[],\"when\":[\"lamps\"]}}}}");
    }

    @Test
    void takesNoneForAListWithoutEntries() {
        FunctionMap map = read(
                "connector,pin,electrical.kind,electrical.live,electrical.when\nC1,1,supply,none,none\nC1,2,supply,,\n");

        assertThat(circuit(map, "C1-1").electrical())
                .isEqualTo(new Electrical.Supply(null, null, List.of(), List.of(), null, null, null));
        assertThat(circuit(map, "C1-2").electrical())
                .isEqualTo(new Electrical.Supply(null, null, null, List.of(), null, null, null));
    }

    @Test
    void keepsWhatASheetDoesNotSpeakOf() {
        StoredMap map = stored("""
                {"maker": "Ondrake", "runningVolts": {"min": 13.60, "max": 14.8}, "notes": "kept",
                 "connectors": {"C1": {"name": "radio", "pinCount": 8, "mates": ["X1"]}, "C2": {"name": "amp"}},
                 "circuits": {"C1-1": {"colour": "RD"}}}
                """);

        String document = Spreadsheets.read(
                        map, "connector,pin,connectorName\nC1,2,\n".getBytes(StandardCharsets.UTF_8))
                .json();

        assertThat(document)
                .isEqualTo("{\"maker\":\"Ondrake\",\"runningVolts\":{\"min\":13.60,\"max\":14.8},\"notes\":\"kept\","
                        + "\"connectors\":{\"C1\":{\"pinCount\":8,\"mates\":[\"X1\"]},\"C2\":{\"name\":\"amp\"}},"
                        + "\"circuits\":{\"C1-2\":{}}}");
    }

    @Test
    void judgesASheetByWhatTheMapSaysOfItsConnectors() {
        StoredMap map = stored("""
                {"connectors": {"C1": {"pinCount": 8}}, "circuits": {}}
                """);

        assertThatExceptionOfType(ProblemException.class)
                .isThrownBy(
                        () -> Spreadsheets.read(map, "connector,pin\nC1,1\nC1,9\n".getBytes(StandardCharsets.UTF_8)))
                .satisfies(problem -> assertFault(problem.errors().get(0), 3, 2, "pin", "beyond-pin-count"));
    }

    @Test
    void tellsEveryParameterAtFault() {
        VehicleHead head = new VehicleHead("", null, null, 2020, null, null, List.of("rear entertainment"), List.of());

        assertThatExceptionOfType(ProblemException.class)
                .isThrownBy(() -> Spreadsheets.read(head, "connector,pin\nC1,1\n".getBytes(StandardCharsets.UTF_8)))
                .satisfies(problem -> assertThat(problem.errors())
                        .extracting(Fault::parameter)
                        .containsExactlyInAnyOrder("maker", "modelYearTo", "equipment"));
    }

    @Test
    void describesEveryColumn() {
        String described = SheetColumns.describe();

        assertThat(SheetColumns.all())
                .hasSizeGreaterThan(80)
                .contains("whenUnplugged.commonModeVolts", "electrical.return", "connectorLocation")
                .filteredOn(column -> !column.endsWith(".kind"))
                .allSatisfy(column ->
                        assertThat(described).contains("`" + column.substring(column.lastIndexOf('.') + 1) + "`"));
        assertThat(described)
                .contains("`electrical.kind`", "`whenPlugged.`", "`whenUnplugged.`", "`speaker-out`: `channel`");
    }

    @Test
    void takesColumnsInAnyCase() {
        FunctionMap map = read("Connector,PIN,Colour,CONNECTORPINCOUNT\nC1,7,RD,16\n");

        assertThat(String.valueOf(circuit(map, "C1-7").colour())).isEqualTo("RD");
        assertFault(onlyFault("connector,pin,note,NOTE\nC1,7,a,b\n"), 1, 4, "note", "duplicate-column");
    }

    @Test
    void passesOverALineThatNamesTheSeparator() {
        assertThat(circuit(read("sep=;\r\nconnector;pin;note\r\nC1;7;a,b\r\n"), "C1-7")
                        .note())
                .isEqualTo("a,b");
        assertFault(onlyFault("sep=;\nconnector;pin;colour\nC1;7;red\n"), 3, 3, "colour", "unknown-colour");
    }

    @Test
    void saysOnceThatThereIsNoHeader() {
        Fault fault = onlyFault("connector|pin|colour\nC1|7|RD\nC1|8|RD\n");

        assertFault(fault, 1, null, null, "missing-header");
        assertThat(fault.detail()).contains("connector and pin among them", "comma, semicolon or tab");
        assertFault(onlyFault("C1,7,RD\nC1,8,RD\n"), 1, null, null, "missing-header");
    }

    @Test
    void knowsUtf16WithoutItsMark() {
        for (Charset charset : List.of(StandardCharsets.UTF_16LE, StandardCharsets.UTF_16BE)) {
            List<Fault> faults = faults("connector,pin\nC1,7\n".getBytes(charset));

            assertThat(faults).hasSize(1);
            assertFault(faults.get(0), 1, null, null, "bad-encoding");
            assertThat(faults.get(0).detail()).contains("UTF-16");
        }
    }

    @Test
    void readsNoFurtherWhereAThousandLinesAreBroken() {
        byte[] sheet = ("connector,pin,note\n" + "C1,1,\u00e9\n".repeat(3000)).getBytes(StandardCharsets.ISO_8859_1);
        ProblemException problem = problem(sheet);

        assertThat(problem.faultCount()).isEqualTo(1002);
        assertFault(problem.errors().get(0), 2, null, null, "bad-encoding");
        assertThat(problem.detail()).startsWith("the body has 1002 faults");
    }

    @Test
    void refusesConnectorsThatDifferInCaseAlone() {
        Fault fault = onlyFault("connector,pin,colour\nC1,7,RD\nc1,8,RD\n");

        assertFault(fault, 3, 1, "connector", "inconsistent");
        assertThat(fault.detail()).endsWith("connector is \"c1\", and line 2 says \"C1\", which differs in case alone");
    }

    @Test
    void saysThatANumberStandsWithoutAPlus() {
        Fault fault = onlyFault("connector,pin,electrical.kind,electrical.maxAmps\nC1,7,supply,+5\n");

        assertFault(fault, 2, 4, "electrical.maxAmps", "wrong-type");
        assertThat(fault.detail()).endsWith("is \"+5\", where a number belongs; it stands without a plus");
    }

    @Test
    void namesNearColumnsForTheFirstHundredAlone() {
        StringBuilder header = new StringBuilder("connector,pin");
        for (int at = 0; at < 150; at++) {
            header.append(",note").append(at);
        }
        ProblemException problem = problem((header + "\nC1,7\n").getBytes(StandardCharsets.UTF_8));

        assertThat(problem.faultCount()).isEqualTo(150);
        assertThat(problem.errors())
                .hasSize(100)
                .allSatisfy(fault -> assertThat(fault.detail()).contains("; the nearest are "));
    }
}
