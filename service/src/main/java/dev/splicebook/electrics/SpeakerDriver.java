package dev.splicebook.electrics;

import dev.splicebook.guard.Guard;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;

/**
 * A loudspeaker driver with one or two voice coils.
 *
 * @param name letters, figures, - and _, at most 30
 * @param coils one or two
 */
public record SpeakerDriver(String name, List<Coil> coils) {

    /** Voice coils that one question may be about. */
    public static final int MOST_COILS = 8;

    private static final Pattern NAME = Pattern.compile("[A-Za-z0-9][A-Za-z0-9_-]{0,29}");

    public SpeakerDriver {
        coils = List.copyOf(coils);
        int count = coils.size();
        new Guard()
                .matches("name", name, NAME, "letters, figures, - and _, at most 30 of them")
                .refuseIf(count < 1 || count > 2, "coils", "out-of-range", () -> count + " coils, outside 1 to 2")
                .check();
    }

    /**
     * One voice coil.
     *
     * @param ohms rated impedance, 0.1 to 1000
     * @param ratedWatts what it bears continuously, above 0 to 100 000; absent where unknown
     */
    public record Coil(double ohms, @Nullable Double ratedWatts) {

        public Coil {
            new Guard()
                    .between("ohms", ohms, 0.1, 1000)
                    .positive("ratedWatts", ratedWatts, 100_000)
                    .check();
        }
    }

    /** Whether the other has coils of the same ohms and rating, in any order. */
    boolean hasTheCoilsOf(SpeakerDriver other) {
        List<Coil> left = new ArrayList<>(other.coils);
        return coils.stream().allMatch(left::remove) && left.isEmpty();
    }

    /** A coil by its full name: {@code SUB.1} and {@code SUB.2}, or {@code MID} where a driver has but one. */
    record Named(String name, String driver, Coil coil) {}

    /**
     * Refuses drivers that no question can be about.
     *
     * @throws dev.splicebook.guard.InvalidValueException if they have no coil, or more than {@link #MOST_COILS}, or two
     *     share a name
     */
    public static void check(List<SpeakerDriver> drivers) {
        Set<String> names = new HashSet<>();
        Guard guard = new Guard();
        for (int place = 0; place < drivers.size(); place++) {
            String name = drivers.get(place).name();
            guard.refuseIf(!names.add(name), place + "/name", "duplicate", () -> "two drivers are named " + name);
        }
        int coils = drivers.stream().mapToInt(each -> each.coils().size()).sum();
        guard.refuseIf(
                        coils < 1 || coils > MOST_COILS,
                        "",
                        "out-of-range",
                        () -> coils + " coils, outside 1 to " + MOST_COILS)
                .check();
    }

    /** All coils in order, of drivers that pass {@link #check}. */
    static List<Named> coilsOf(List<SpeakerDriver> drivers) {
        check(drivers);
        List<Named> named = new ArrayList<>();
        for (SpeakerDriver driver : drivers) {
            int count = driver.coils().size();
            for (int each = 0; each < count; each++) {
                String name = count == 1 ? driver.name() : driver.name() + "." + (each + 1);
                named.add(new Named(name, driver.name(), driver.coils().get(each)));
            }
        }
        return named;
    }
}
