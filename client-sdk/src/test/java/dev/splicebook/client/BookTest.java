package dev.splicebook.client;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatExceptionOfType;

import java.util.Map;
import java.util.UUID;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.Test;

/** Vehicles, devices and circuits: what is made of their answers. */
class BookTest {

    private static final UUID ID = UUID.fromString("5f0c6c1e-0d0e-4b6e-9a55-2a40cb1f3d10");
    private static final String VEHICLE = """
            {"id": "5f0c6c1e-0d0e-4b6e-9a55-2a40cb1f3d10", "revision": 4, "latestRevision": %d, "shared": false,
             "createdAt": "2026-11-25T10:00:00Z", "document": {"circuits": {}}, "newer": {"volts": 12.60}}""";
    private static final String DEVICE = """
            {"code": "REL", "revision": 4, "latestRevision": 4, "shared": false, "createdAt": "2026-11-25T10:00:00Z",
             "document": {"code": "REL"}}""";

    private final FakeService service = new FakeService();

    @AfterEach
    void closeService() {
        service.close();
    }

    @Test
    void givesBackTheVehicleThatIsHeldWhereThereIsNoLater() {
        service.answers(200, VEHICLE.formatted(4)).answers(304, "", Map.of("ETag", "\"4\""));
        Vehicles vehicles = service.client().build().vehicles();
        Vehicle held = vehicles.get(ID);

        assertThat(vehicles.refresh(held)).isSameAs(held);
        assertThat(service.requests().get(0).header("If-none-match")).isEmpty();
        assertThat(service.requests().get(1).header("If-none-match")).isEqualTo("\"4\"");
    }

    @Test
    void givesTheLaterVehicleWhereThereIsOne() {
        service.answers(200, VEHICLE.formatted(4))
                .answers(200, VEHICLE.formatted(4).replace(": 4", ": 5"));
        Vehicles vehicles = service.client().build().vehicles();

        assertThat(vehicles.refresh(vehicles.get(ID)).revision()).isEqualTo(5);
    }

    @Test
    void givesBackTheDeviceThatIsHeldWhereThereIsNoLater() {
        service.answers(200, DEVICE).answers(304, "");
        Devices devices = service.client().build().devices();
        Device held = devices.get("REL");

        assertThat(devices.refresh(held)).isSameAs(held);
        assertThat(service.requests().get(1).header("If-none-match")).isEqualTo("\"4\"");
    }

    @Test
    void takesNotModifiedForNoAnswerToWhatDidNotAsk() {
        service.answers(304, "");

        assertThatExceptionOfType(ApiException.class)
                .isThrownBy(() -> service.client().build().vehicles().get(ID))
                .satisfies(problem -> assertThat(problem.status()).isEqualTo(304));
    }

    @Test
    void changesWhatIsHeldOnly() {
        service.answers(200, VEHICLE.formatted(6))
                .answers(201, VEHICLE.formatted(4))
                .answers(201, VEHICLE.formatted(7));
        Vehicles vehicles = service.client().build().vehicles();
        Vehicle held = vehicles.getRevision(ID, 4);

        vehicles.addRevision(held, held.document());
        vehicles.restore(held, 4);

        assertThat(service.requests().get(1).header("If-match")).isEqualTo("\"4\"");
        assertThat(service.requests().get(2).header("If-match")).isEqualTo("\"6\"");
        assertThat(service.requests().get(2).body()).isEmpty();
        assertThat(service.requests().get(2).header("Content-length")).isEqualTo("0");
    }

    @Test
    void keepsWhatItDoesNotKnow() {
        service.answers(200, VEHICLE.formatted(4));

        Vehicle vehicle = service.client().build().vehicles().get(ID);

        assertThat(vehicle.more()).containsOnlyKeys("newer");
        assertThat(vehicle.more().get("newer")).hasToString("{\"volts\":12.60}");
    }

    @Test
    void readsWhatAVinSays() {
        service.answers(200, """
                {"items": [{"id": "5f0c6c1e-0d0e-4b6e-9a55-2a40cb1f3d10", "revision": 1, "shared": true,
                            "createdAt": "2026-11-25T10:00:00Z", "market": "NA", "equipment": ["navigation"],
                            "circuits": 25}],
                 "next": null,
                 "vin": {"vin": "1AB", "wmi": "1AB", "region": "North America", "modelYears": [2020],
                         "checkDigit": "right", "plant": "A"}}""");

        VinMatches matches = service.client().build().vehicles().listByVin("1ab");

        assertThat(matches.vin().region()).isEqualTo("North America");
        assertThat(matches.vin().modelYears()).containsExactly(2020);
        assertThat(matches.vin().checkDigit()).isEqualTo(CheckDigit.RIGHT);
        assertThat(matches.vin().more()).containsOnlyKeys("plant");
        assertThat(matches.vehicles().items()).hasSize(1).first().satisfies(vehicle -> {
            assertThat(vehicle.market()).isEqualTo("NA");
            assertThat(vehicle.equipment()).containsExactly("navigation");
            assertThat(vehicle.circuits()).isEqualTo(25);
        });
    }

    @Test
    void saysThatAnAnswerLacksWhatTheVinSays() {
        service.answers(200, "{\"items\": []}").answers(200, "{\"items\": [], \"vin\": {\"vin\": \"1AB\"}}");
        Vehicles vehicles = service.client().build().vehicles();

        assertThatExceptionOfType(SplicebookException.class)
                .isThrownBy(() -> vehicles.listByVin("1ab"))
                .withMessage("GET /v1/vehicles was answered with 200 and a body that cannot be read: vin is missing");
        assertThatExceptionOfType(SplicebookException.class)
                .isThrownBy(() -> vehicles.listByVin("1ab"))
                .withMessageContaining("wmi is missing");
    }

    @Test
    void readsCircuits() {
        service.answers(200, """
                {"items": [{"vehicle": "5f0c6c1e-0d0e-4b6e-9a55-2a40cb1f3d10", "revision": 2, "maker": "Corvane",
                            "model": "Tessick", "yearFrom": 2019, "yearTo": 2023, "name": "C1-7", "connector": "C1",
                            "pin": "7", "connectorName": "radio", "location": "behind the radio",
                            "circuit": {"function": "power.battery", "colour": "YE/RD", "electrical": {"volts": 12.60}}},
                           {"vehicle": "5f0c6c1e-0d0e-4b6e-9a55-2a40cb1f3d10", "revision": 2, "name": "chassis",
                            "circuit": {}, "newer": 1}]}""");

        Page<CircuitEntry> circuits = service.client().build().circuits().list(CircuitQuery.all());

        CircuitEntry first = circuits.items().get(0);
        assertThat(first.terminal()).isEqualTo("CAR.C1-7");
        assertThat(first.function()).hasValue("power.battery");
        assertThat(first.colour()).hasValue("YE/RD");
        assertThat(first.circuit())
                .hasToString("{\"function\":\"power.battery\",\"colour\":\"YE/RD\",\"electrical\":{\"volts\":12.60}}");
        CircuitEntry second = circuits.items().get(1);
        assertThat(second.terminal()).isEqualTo("CAR.chassis");
        assertThat(second.connector()).isNull();
        assertThat(second.function()).isEmpty();
        assertThat(second.more()).containsOnlyKeys("newer");
    }

    @Test
    void refusesWhatBelongsToOtherCircuits() {
        Splicebook client = service.client().build();

        assertThatExceptionOfType(IllegalArgumentException.class)
                .isThrownBy(() ->
                        client.vehicles().listCircuits(ID, CircuitQuery.all().maker("Cor")))
                .withMessage("maker is asked of circuits over all vehicles only");
        assertThatExceptionOfType(IllegalArgumentException.class)
                .isThrownBy(() -> client.circuits().list(CircuitQuery.all().revision(2)))
                .withMessage("revision is asked of the circuits of one vehicle only");
        assertThat(service.requests()).isEmpty();
    }

    @Test
    void readsWhatChanged() {
        service.answers(200, """
                {"from": 1, "to": 2, "changes": [
                  {"op": "changed", "pointer": "/circuits/C1-7/colour", "was": "YE", "is": "YE/RD"},
                  {"op": "added", "pointer": "/notes", "is": "n"},
                  {"op": "moved", "pointer": "/market", "was": null, "by": "x"}]}""");

        Changes changes = service.client().build().vehicles().compare(ID, 2);

        assertThat(changes.changes())
                .extracting(Changes.Change::op)
                .containsExactly(ChangeKind.CHANGED, ChangeKind.ADDED, new ChangeKind("moved"));
        assertThat(changes.changes().get(0).was()).hasToString("\"YE\"");
        assertThat(changes.changes().get(0).is()).hasToString("\"YE/RD\"");
        assertThat(changes.changes().get(1).was()).isNull();
        assertThat(changes.changes().get(2).more()).containsOnlyKeys("by");
    }

    @Test
    void readsADryRun() {
        service.answers(200, "{\"dryRun\": true, \"document\": {\"a\": 12.60}, \"circuits\": 25, \"connectors\": 2}");

        DryRun dryRun = service.client().build().vehicles().dryRunCreate(Document.parse("{}"));

        assertThat(dryRun.document()).isEqualTo(Document.parse("{\"a\": 12.6}"));
        assertThat(dryRun.circuits()).isEqualTo(25);
        assertThat(dryRun.connectors()).isEqualTo(2);
        assertThat(dryRun.more()).isEmpty();
    }
}
