import dev.splicebook.client.*;
import java.util.List;
import java.util.Map;

/**
 * The feed of an amplifier, worked out before it is sold: what it draws, the conductor that brings it, the fuse that
 * protects the conductor; then a question that has no answer, and every calculation there is with its own example.
 */
public class PowerRun {

    public static void main(String[] arguments) {
        Splicebook client = Splicebook.builder()
                .baseUrl(System.getenv().getOrDefault("SPLICEBOOK_URL", "http://127.0.0.1:8080"))
                .key(System.getenv().getOrDefault("SPLICEBOOK_KEY", "splicebook-demo-key"))
                .build();
        Calculations calculations = client.calculations();

        Answer draw = calculations.calculate(Question.of("amplifier-draw")
                .with("channels", List.of(Map.of("count", 2, "watts", 300)))
                .with("class", "d")
                .with("supplyVolts", 14.4)
                .with("programme", "sine"));
        double amps = draw.number("currentAmps");
        System.out.printf("draws %.1f A%n", amps);
        draw.working().forEach(step -> System.out.println("  " + step));

        Question run = Question.of("wire-size")
                .with("currentAmps", amps)
                .with("length", Length.feet(18))
                .with("returnPath", "chassis")
                .with("supplyVolts", 14.4)
                .with("series", "awg");
        Answer wire = calculations.calculate(run.with("maxDropVolts", 0.5));
        System.out.println("takes " + wire.text("size") + ", governed by " + wire.text("governedBy"));

        Answer fuse = calculations.calculate(Question.of("fuse")
                .with("continuousAmps", amps / 3)
                .with("peakAmps", amps)
                .with("conductor", Wire.of(wire.text("size")))
                .with("body", "bolt-down"));
        System.out.printf("fused at %.0f A%n", fuse.number("ratingAmps"));
        fuse.cautions().forEach(caution -> System.out.println("  " + caution));

        try {
            calculations.calculate(run.with("maxDropVolts", 0.01));
        } catch (ApiException none) {
            System.out.println(none.status() + ": " + none.errors().get(0).detail());
        }

        for (CalculationSummary each : calculations.list()) {
            Calculation page = calculations.get(each.name());
            Answer answer = calculations.calculate(Question.of(page.name(), page.example()));
            System.out.println(page.name() + ": " + answer.working().get(0));
        }
    }
}
