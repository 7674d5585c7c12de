import dev.splicebook.client.*;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;

/**
 * A shop's first hour: the spreadsheet of a van goes in, once the fault that the service finds in it is mended; the map is
 * found again by VIN, a device joins the catalogue, and a hookup of the two is checked. The keys make it the same van and
 * device if it is run again.
 */
public class FirstHour {

    public static void main(String[] arguments) throws IOException {
        Splicebook client = Splicebook.builder()
                .baseUrl(System.getenv().getOrDefault("SPLICEBOOK_URL", "http://127.0.0.1:8080"))
                .key(System.getenv().getOrDefault("SPLICEBOOK_KEY", "splicebook-demo-key"))
                .build();
        Path file = Path.of(arguments.length > 0 ? arguments[0] : "api-examples/spreadsheet/circuits.csv");
        VehicleDescription van = VehicleDescription.of("Vandry", "Hauler").modelYears(2021, 2024).vinPattern("S0VHL2");

        String sheet = Files.readString(file);
        try {
            client.spreadsheets().dryRunCreate(van, Source.text(sheet));
        } catch (BadRequestException refused) {
            for (Problem.Fault fault : refused.errors()) {
                System.out.println("line " + fault.line() + ", column " + fault.column() + ": " + fault.detail());
            }
            sheet = sheet.replace(",pink,", ",PK,");
        }
        once(client, "first-hour-van").spreadsheets().create(van, Source.text(sheet));

        VehicleSummary vehicle = client.vehicles().listByVin("S0VHL2AA9N1000123").vehicles().items().get(0);
        System.out.println(vehicle.maker() + " " + vehicle.model() + ", " + vehicle.circuits() + " circuits");
        for (CircuitEntry circuit : client.vehicles().listCircuits(vehicle.id(), CircuitQuery.all().function("power"))) {
            System.out.println("  " + circuit.terminal() + " " + circuit.colour().orElse("") + " " + circuit.circuit());
        }

        Device socket = once(client, "first-hour-socket").devices().create(Document.parse("""
                {"code": "FIRST-USB", "maker": "Ondrake", "name": "Charging socket", "kind": "usb-socket", "terminals": {
                  "power": {"electrical": {"kind": "load", "typicalAmps": 2, "maxAmps": 3, "needs": "switched"}},
                  "ground": {"electrical": {"kind": "ground"}}}}"""));

        Wire lead = Wire.of("18 AWG").insulated(105).withLength(Length.centimetres(60));
        Report report = client.checks().check(Hookup.builder()
                .vehicle(vehicle.id())
                .part("USB", socket.code())
                .connect("feed", "CAR.C1-10", "USB.power", lead)
                .connect("return", "CAR.C1-12", "USB.ground", lead)
                .build());
        System.out.println(report.verdict());
        report.findings().forEach(found -> System.out.println("  " + found.message() + "\n    " + found.help()));
        report.order().forEach(step -> System.out.println("  " + String.join(" to ", step.ends()) + ": " + step.why()));
        report.meterFirst().forEach(reading -> System.out.println("  meter " + reading.terminal() + " for " + reading.facts()));
    }

    private static Splicebook once(Splicebook client, String key) {
        return client.with(CallOptions.defaults().idempotencyKey(new IdempotencyKey(key)));
    }
}
