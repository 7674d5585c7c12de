package dev.splicebook.calculation.trade;

import static dev.splicebook.calculation.Worksheet.given;

import com.google.auto.service.AutoService;
import dev.splicebook.calculation.AboutCalculation;
import dev.splicebook.calculation.Answer;
import dev.splicebook.calculation.Assumption;
import dev.splicebook.calculation.Calculation;
import dev.splicebook.calculation.Step;
import dev.splicebook.calculation.Worked;
import dev.splicebook.calculation.Worksheet;
import dev.splicebook.electrics.ArrivalDelay;
import dev.splicebook.electrics.Length;
import dev.splicebook.guard.Guard;
import dev.splicebook.web.Fact;
import java.util.ArrayList;
import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;

/** Delays that let all loudspeakers be heard at once. */
@AutoService(Calculation.class)
@AboutCalculation(
        name = "arrival-delay",
        purpose = "What to delay each speaker by so that the sound of all arrives at the listener with the farthest.",
        method =
                "Path difference by the speed of sound in dry air. Delays inside crossovers, drivers and amplifiers are left"
                        + " out: trim them by ear or with a measuring microphone.",
        sources = "Speed of sound 331.3 m/s at 0 °C, by the root of the absolute temperature; ideal gas, from memory")
public final class ArrivalDelayCalculation
        extends Worked<ArrivalDelayCalculation.ArrivalDelayQuestion, ArrivalDelayCalculation.ArrivalDelayAnswer> {

    private static final double MOST_METRES = 100;
    private static final int LONGEST_NAME = 100;

    public ArrivalDelayCalculation() {
        super(ArrivalDelayQuestion.class, ArrivalDelayAnswer.class);
    }

    /** How far each speaker is. */
    public record ArrivalDelayQuestion(
            @Fact(
                    value = "way from each speaker to the listener's head, at most 100 m, by the speaker's name",
                    leastEntries = 1,
                    mostEntries = 32)
            Map<String, Length> distances,

            @Fact(value = "temperature of the air in the vehicle", unit = "°C", least = -50, most = 90, usual = "20")
            @Nullable
            Double airCelsius,

            @Fact(value = "sample rate of the processor", unit = "Hz", least = 8000, most = 768_000, usual = "48000")
            @Nullable
            Double sampleHertz) {

        public ArrivalDelayQuestion {
            distances = Collections.unmodifiableMap(new LinkedHashMap<>(distances));
            Guard guard = new Guard();
            distances.forEach((name, distance) -> guard.refuseIf(
                            name.isBlank() || name.length() > LONGEST_NAME,
                            "distances",
                            "bad-text",
                            () -> "a speaker's name is blank or has above " + LONGEST_NAME + " characters")
                    .refuseIf(
                            distance.metres() > MOST_METRES,
                            "distances/" + name.replace("~", "~0").replace("/", "~1"),
                            "out-of-range",
                            () -> distance + " is above " + MOST_METRES + " m"));
            guard.check();
        }
    }

    /** Delays by speaker. */
    public record ArrivalDelayAnswer(
            @Fact("delays by the speaker's name") Map<String, ArrivalDelayOfSpeaker> delays,
            @Fact("the farthest speaker, which gets none") String farthest,
            @Fact(value = "speed of sound", unit = "m/s") double soundMetresPerSecond,
            List<Assumption> assumptions,
            List<Step> working,
            List<String> sources,
            List<String> cautions)
            implements Answer {}

    /** One speaker's. */
    public record ArrivalDelayOfSpeaker(
            @Fact(value = "way to the listener", unit = "m") double distanceMetres,
            @Fact(value = "delay", unit = "ms") double milliseconds,
            @Fact("delay in samples, with their fraction") double samples,
            @Fact("the nearest whole number of samples") long wholeSamples) {}

    @Override
    protected ArrivalDelayAnswer work(ArrivalDelayQuestion asked, Worksheet sheet) {
        double celsius = sheet.orAssume(asked.airCelsius(), "airCelsius", 20, "°C", "for the speed of sound");
        double hertz = sheet.orAssume(asked.sampleHertz(), "sampleHertz", 48_000, "Hz", "for delays in samples");
        double speed = sheet.step(
                "sound is faster in warm air",
                "c = 331.3 × sqrt(1 + T / 273.15)",
                ArrivalDelay.soundMetresPerSecond(celsius),
                "m/s",
                given("T", celsius, "°C"));
        List<String> names = new ArrayList<>(asked.distances().keySet());
        List<Double> metres =
                asked.distances().values().stream().map(Length::metres).toList();
        List<Double> delays = ArrivalDelay.delaysMilliseconds(metres, celsius);
        int farthest = metres.indexOf(Collections.max(metres));
        Map<String, ArrivalDelayOfSpeaker> answer = new LinkedHashMap<>();
        for (int each = 0; each < names.size(); each++) {
            double milliseconds = delays.get(each);
            double samples = ArrivalDelay.samples(milliseconds, hertz);
            if (each != farthest) {
                sheet.step(
                        names.get(each) + " waits while sound goes the rest of the longest way",
                        "t = (s1 − s2) / c × 1000",
                        milliseconds,
                        "ms",
                        given("s1", metres.get(farthest), "m"),
                        given("s2", metres.get(each), "m"),
                        given("c", speed, "m/s"));
                sheet.step(
                        "the same in samples",
                        "n = t / 1000 × f",
                        samples,
                        "samples",
                        given("t", milliseconds, "ms"),
                        given("f", hertz, "Hz"));
            }
            answer.put(
                    names.get(each),
                    new ArrivalDelayOfSpeaker(metres.get(each), milliseconds, samples, Math.round(samples)));
        }
        return new ArrivalDelayAnswer(
                Collections.unmodifiableMap(answer),
                names.get(farthest),
                speed,
                sheet.assumptions(),
                sheet.working(),
                sheet.sources(),
                sheet.cautions());
    }
}
