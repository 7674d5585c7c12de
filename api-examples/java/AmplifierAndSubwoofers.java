import dev.splicebook.client.Fate;
import dev.splicebook.client.Hookup;
import dev.splicebook.client.Length;
import dev.splicebook.client.Report;
import dev.splicebook.client.Splicebook;
import dev.splicebook.client.VehicleSummary;
import dev.splicebook.client.Wire;
import java.util.List;

/**
 * An amplifier and two subwoofers go into a coupé whose factory amplifier drives the doors with floating outputs. The
 * first draft makes five mistakes, and the check names each; the second takes the doors through a converter that turns on
 * with the signal, and the power through a fused wire kit.
 *
 * <p>{@code SPLICEBOOK_URL} and {@code SPLICEBOOK_KEY} say where the service is and who asks; without them it is the demo
 * on this machine. How to run it stands in the README of the examples.
 */
public class AmplifierAndSubwoofers {

    /** How the identification number of the coupé on the lift reads; it is invented, as the coupé is. */
    private static final String VIN = "30LSC2P50NA000417";

    private static final Wire POWER = Wire.of("4 AWG").insulated(105);
    private static final Wire SPEAKER = Wire.of("12 AWG").insulated(105).withLength(Length.feet(5));
    private static final Wire LEAD = Wire.of("18 AWG").insulated(105).withLength(Length.metres(1));

    public static void main(String[] arguments) {
        Splicebook client = Splicebook.builder()
                .baseUrl(System.getenv().getOrDefault("SPLICEBOOK_URL", "http://127.0.0.1:8080"))
                .key(System.getenv().getOrDefault("SPLICEBOOK_KEY", "splicebook-demo-key"))
                .build();
        VehicleSummary coupe = client.vehicles().listByVin(VIN).vehicles().stream()
                .findFirst()
                .orElseThrow(() -> new IllegalStateException("the demo book is not loaded"));

        print("first draft", client.checks().check(firstDraft(coupe)));
        Report ready = client.checks().check(corrected(coupe));
        print("corrected", ready);
        for (Report.Step step : ready.order()) {
            System.out.println("  " + String.join(" to ", step.ends()) + ": " + step.why());
        }
        if (!ready.isReady()) {
            System.exit(1);
        }
    }

    /** What both have: the loudspeakers, the converter's feed and the bass knob. */
    private static Hookup.Builder common(VehicleSummary coupe) {
        Hookup.Builder hookup = Hookup.builder()
                .vehicle(coupe.id(), coupe.revision())
                .part("AMP", "AMP-1")
                .part("LOC", "LOC-2")
                .part("SUB1", "SUB-D4")
                .part("SUB2", "SUB-D4")
                .part("BASS", "BASS-1")
                .set("AMP", "low-pass", "80")
                .set("LOC", "turn-on", "signal")
                .add("audio.speaker.subwoofer")
                .add("control.bass-level")
                .connect("converter-feed", "CAR.FB-1", "LOC.power", LEAD.fused(3, Length.centimetres(10)))
                .connect("converter-ground", "LOC.ground", "CAR.FB-4", LEAD)
                .connect("bass-knob", "BASS.knob", "AMP.bass-knob")
                .connect("left", "LOC.out-left", "AMP.in-left")
                .connect("left-return", "LOC.out-left-return", "AMP.in-left-return");
        // the two coils of each driver in series, the two drivers in parallel
        for (String driver : List.of("SUB1", "SUB2")) {
            hookup.connect(driver + "-plus", "AMP.out-plus", driver + ".coil-1-plus", SPEAKER)
                    .connect(driver + "-series", driver + ".coil-1-minus", driver + ".coil-2-plus", SPEAKER)
                    .connect(driver + "-minus", driver + ".coil-2-minus", "AMP.out-minus", SPEAKER);
        }
        return hookup;
    }

    private static Hookup firstDraft(VehicleSummary coupe) {
        Hookup.Builder hookup = common(coupe)
                // no fuse at the battery
                .connect("power", "CAR.battery-plus", "AMP.power", POWER.withLength(Length.metres(2.5)))
                .connect("ground", "AMP.ground", "CAR.chassis", POWER.withLength(Length.centimetres(50)))
                // a constant feed on the turn-on
                .connect("turn-on", "CAR.FB-5", "AMP.remote", LEAD.fused(1, Length.centimetres(10)))
                // a reversed pair
                .connect("door-left-plus", "CAR.A2-1", "LOC.in-left-minus", LEAD)
                .connect("door-left-minus", "CAR.A2-2", "LOC.in-left-plus", LEAD)
                // speaker level straight into a line input
                .connect("door-right-plus", "CAR.A2-3", "AMP.in-right", LEAD)
                .connect("door-right-minus", "CAR.A2-4", "AMP.in-right-return", LEAD)
                // a floating minus on ground
                .connect("door-right-ground", "CAR.A2-4", "CAR.chassis", LEAD)
                .unused("LOC.turn-on", Fate.CAPPED, "the amplifier is turned on from the fuse box");
        for (String lead : List.of("in-right-plus", "in-right-minus", "out-right", "out-right-return")) {
            hookup.unused("LOC." + lead, Fate.CAPPED, "the right side goes to the amplifier");
        }
        return hookup.build();
    }

    private static Hookup corrected(VehicleSummary coupe) {
        return common(coupe)
                .part("KIT", "KIT-4")
                .connect("power", "CAR.battery-plus", "KIT.battery", POWER.withLength(Length.centimetres(30)))
                .connect("power-on", "KIT.feed", "AMP.power", POWER.withLength(Length.metres(2.5)))
                .connect("ground", "AMP.ground", "KIT.ground-lead", POWER.withLength(Length.centimetres(20)))
                .connect("ground-ring", "KIT.ground-ring", "CAR.chassis", POWER.withLength(Length.centimetres(30)))
                .connect("turn-on", "LOC.turn-on", "AMP.remote", LEAD)
                .connect("door-left-plus", "CAR.A2-1", "LOC.in-left-plus", LEAD)
                .connect("door-left-minus", "CAR.A2-2", "LOC.in-left-minus", LEAD)
                .connect("door-right-plus", "CAR.A2-3", "LOC.in-right-plus", LEAD)
                .connect("door-right-minus", "CAR.A2-4", "LOC.in-right-minus", LEAD)
                .connect("right", "LOC.out-right", "AMP.in-right")
                .connect("right-return", "LOC.out-right-return", "AMP.in-right-return")
                .build();
    }

    private static void print(String what, Report report) {
        System.out.println(what + ": " + report.verdict());
        for (Report.Finding finding : report.findings()) {
            System.out.println("  " + finding.severity() + " " + finding.rule() + ": " + finding.message());
            System.out.println("    " + finding.help());
        }
    }
}
