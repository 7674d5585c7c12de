import dev.splicebook.client.Fate;
import dev.splicebook.client.Hookup;
import dev.splicebook.client.Length;
import dev.splicebook.client.Report;
import dev.splicebook.client.Splicebook;
import dev.splicebook.client.VehicleQuery;
import dev.splicebook.client.VehicleSummary;
import dev.splicebook.client.Wire;
import java.util.List;

/**
 * A head unit with one audio-video input goes into a vehicle with rear entertainment, whose left and right sound each
 * keep a driven return. The adapter of the first draft ties the two in one sleeve; an isolator behind the sleeve comes too
 * late, and one before it makes the hookup ready.
 *
 * <p>{@code SPLICEBOOK_URL} and {@code SPLICEBOOK_KEY} say where the service is and who asks; without them it is the demo
 * on this machine. How to run it stands in the README of the examples.
 */
public class RearEntertainment {

    private static final Wire FEED = Wire.of("16 AWG").insulated(105).withLength(Length.centimetres(20));
    private static final Wire LEAD = Wire.of("18 AWG").insulated(105).withLength(Length.centimetres(25));

    public static void main(String[] arguments) {
        Splicebook client = Splicebook.builder()
                .baseUrl(System.getenv().getOrDefault("SPLICEBOOK_URL", "http://127.0.0.1:8080"))
                .key(System.getenv().getOrDefault("SPLICEBOOK_KEY", "splicebook-demo-key"))
                .build();
        VehicleSummary vehicle = client.vehicles()
                .list(VehicleQuery.all().maker("Corvane").model("Tessick"))
                .stream()
                .findFirst()
                .orElseThrow(() -> new IllegalStateException("the demo book is not loaded"));

        Hookup draft = firstDraft(vehicle);
        print("first draft", client.checks().check(draft));
        print("isolator behind the sleeve", client.checks().check(isolatorBehindTheSleeve(draft)));

        Report ready = client.checks().check(isolatorBeforeTheSleeve(draft));
        print("isolator before the sleeve", ready);
        for (Report.Step step : ready.order()) {
            System.out.println("  " + String.join(" to ", step.ends()) + ": " + step.why());
        }
        for (String caution : ready.cautions()) {
            System.out.println("  ! " + caution);
        }
        if (!ready.isReady()) {
            System.exit(1);
        }
    }

    private static Hookup firstDraft(VehicleSummary vehicle) {
        Hookup.Builder hookup = Hookup.builder()
                .vehicle(vehicle.id(), vehicle.revision())
                .unplug("C1", "C2", "C11")
                .part("HU", "HU-A")
                .part("IFC", "IFC-T7")
                .part("HAR", "HAR-T1")
                .part("AVA", "AVA-35")
                .part("REL", "REL-30D")
                .part("USB", "USB-2")
                .plug("CAR.C1", "HAR.C1")
                .plug("CAR.C2", "IFC.C2")
                .set("IFC", "head-unit-maker", "1")
                .set("HU", "steering-keys", "wired")
                .keep("audio.line.rear-entertainment")
                .keep("control.steering-wheel")
                .keep("antenna.radio")
                .add("data.usb");

        hookup.connect("memory", "HAR.memory", "HU.memory", FEED)
                .connect("ground", "HAR.ground", "HU.ground", FEED)
                .connect("interface-memory", "HAR.memory", "IFC.memory", LEAD)
                .connect("interface-ground", "HAR.ground", "IFC.ground", LEAD)
                .connect("accessory", "IFC.accessory", "HU.accessory", LEAD)
                .connect("reverse", "IFC.reverse", "HU.reverse", LEAD)
                .connect("parking-brake", "HAR.ground", "HU.parking-brake", LEAD)
                .connect("wired-remote", "IFC.wired-remote", "HU.wired-remote")
                .connect("wired-remote-return", "IFC.wired-remote-return", "HU.wired-remote-return")
                .connect("antenna", "CAR.C11-1", "HU.antenna");
        for (String lead : List.of("illumination", "antenna-on", "mute")) {
            hookup.connect(lead, "HAR." + lead, "HU." + lead, LEAD);
        }
        for (String corner : List.of("front-left", "front-right", "rear-left", "rear-right")) {
            for (String side : List.of("plus", "minus")) {
                String lead = corner + "-" + side;
                hookup.connect(lead, "HAR." + lead, "HU." + lead, LEAD);
            }
        }

        // the interface's accessory output gives 1 A, and the USB socket draws more: a relay feeds it
        hookup.connect(
                        "relay-feed",
                        "CAR.C6-1",
                        "REL.30",
                        Wire.of("14 AWG")
                                .insulated(105)
                                .withLength(Length.centimetres(60))
                                .fused(7.5, Length.centimetres(10)))
                .connect("relay-coil", "IFC.accessory", "REL.86", LEAD)
                .connect("relay-coil-ground", "REL.85", "CAR.chassis", LEAD)
                .connect("usb-power", "REL.87", "USB.power", FEED.withLength(Length.metres(1.2)))
                .connect("usb-ground", "USB.ground", "CAR.C10-2", FEED)
                .connect("usb", "USB.usb", "HU.usb", Wire.of(Length.metres(1.5)));

        for (String side : List.of("left", "right")) {
            hookup.connect(side, "IFC.re-" + side, "AVA." + side)
                    .connect(side + "-return", "IFC.re-" + side + "-return", "AVA." + side + "-return")
                    .connect("plug-" + side, "AVA.plug-" + side, "HU.av-" + side);
        }
        hookup.connect("plug-sleeve", "AVA.plug-sleeve", "HU.av-sleeve");

        for (String lead : List.of("amplifier-on", "av-video", "camera-signal", "camera-return", "subwoofer-1",
                "subwoofer-1-return", "subwoofer-2", "subwoofer-2-return")) {
            hookup.unused("HU." + lead, Fate.CAPPED, "nothing fitted that it is for");
        }
        for (String lead : List.of("microphone", "microphone-return", "speed")) {
            hookup.unused("IFC." + lead, Fate.CAPPED, "the head unit has no input for it");
        }
        for (String lead : List.of("aux-left", "aux-right", "aux-return")) {
            hookup.unused("IFC." + lead, Fate.TAPED_BACK, "the one input takes the rear entertainment");
        }
        return hookup.unused("REL.87a", Fate.CAPPED, "the closed contact is not needed")
                .build();
    }

    private static Hookup isolatorBehindTheSleeve(Hookup draft) {
        Hookup.Builder hookup = withParkingBrakeAndIsolator(draft).disconnect("plug-sleeve");
        for (String side : List.of("left", "right")) {
            hookup.disconnect("plug-" + side)
                    .connect("plug-" + side, "AVA.plug-" + side, "ISO." + side + "-in")
                    .connect("plug-" + side + "-return", "AVA.plug-sleeve", "ISO." + side + "-in-return")
                    .connect("isolated-" + side, "ISO." + side + "-out", "HU.av-" + side)
                    .connect("isolated-" + side + "-return", "ISO." + side + "-out-return", "HU.av-sleeve");
        }
        return hookup.build();
    }

    private static Hookup isolatorBeforeTheSleeve(Hookup draft) {
        Hookup.Builder hookup = withParkingBrakeAndIsolator(draft);
        for (String side : List.of("left", "right")) {
            hookup.disconnect(side)
                    .disconnect(side + "-return")
                    .connect(side, "IFC.re-" + side, "ISO." + side + "-in")
                    .connect(side + "-return", "IFC.re-" + side + "-return", "ISO." + side + "-in-return")
                    .connect("isolated-" + side, "ISO." + side + "-out", "AVA." + side)
                    .connect("isolated-" + side + "-return", "ISO." + side + "-out-return", "AVA." + side + "-return");
        }
        return hookup.build();
    }

    /** The parking-brake input goes to the circuit that it is for, and the isolator joins the parts. */
    private static Hookup.Builder withParkingBrakeAndIsolator(Hookup draft) {
        return draft.toBuilder()
                .disconnect("parking-brake")
                .connect("parking-brake", "CAR.C6-4", "HU.parking-brake", LEAD.withLength(Length.metres(1.5)))
                .part("ISO", "ISO-2");
    }

    private static void print(String what, Report report) {
        System.out.println(what + ": " + report.verdict());
        for (Report.Finding finding : report.findings()) {
            System.out.println("  " + finding.severity() + " " + finding.rule() + ": " + finding.message());
            System.out.println("    " + finding.help());
        }
    }
}
