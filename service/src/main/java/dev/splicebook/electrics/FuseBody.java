package dev.splicebook.electrics;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.NavigableSet;
import java.util.TreeSet;
import org.jspecify.annotations.Nullable;

/**
 * The bodies that fuses of vehicles come in, with their ratings and colours (blade fuses after ISO 8820-3). One colour is
 * another rating in another body.
 */
public enum FuseBody {
    MINI(blade(2, 3, 4, 5, 7.5, 10, 15, 20, 25, 30)),
    REGULAR(blade(1, 2, 3, 4, 5, 7.5, 10, 15, 20, 25, 30, 40)),
    /** Colours from memory. */
    MAXI(maxi()),
    /** Ratings are common practice, no source; no colours are known. */
    BOLT_DOWN(boltDown(30, 40, 50, 60, 70, 80, 100, 125, 150, 175, 200, 225, 250, 275, 300, 350, 400, 450, 500));

    private final Map<Double, String> colours;

    FuseBody(Map<Double, String> colours) {
        this.colours = colours;
    }

    /** Amperes, least first. */
    public List<Double> ratingsAmps() {
        return List.copyOf(colours.keySet());
    }

    /** Amperes of every rating that some body has, least first. */
    public static NavigableSet<Double> allRatingsAmps() {
        NavigableSet<Double> ratings = new TreeSet<>();
        for (FuseBody body : values()) {
            ratings.addAll(body.colours.keySet());
        }
        return ratings;
    }

    /** Colour of a rating, in lower case; null where the body does not have that rating or no colour is known. */
    public @Nullable String colour(double ratingAmps) {
        String colour = colours.get(ratingAmps);
        return colour == null || colour.isEmpty() ? null : colour;
    }

    @Override
    public String toString() {
        return name().toLowerCase(Locale.ROOT).replace('_', '-');
    }

    private static Map<Double, String> blade(double... ratings) {
        Map<Double, String> colours = new LinkedHashMap<>();
        for (double rating : ratings) {
            colours.put(rating, bladeColour(rating));
        }
        return colours;
    }

    private static String bladeColour(double ratingAmps) {
        if (ratingAmps == 7.5) {
            return "brown";
        }
        return switch ((int) ratingAmps) {
            case 1 -> "black";
            case 2 -> "grey";
            case 3 -> "violet";
            case 4 -> "pink";
            case 5 -> "tan";
            case 10 -> "red";
            case 15 -> "blue";
            case 20 -> "yellow";
            case 25 -> "clear";
            case 30 -> "green";
            // from memory
            case 40 -> "orange";
            default -> "";
        };
    }

    private static Map<Double, String> maxi() {
        Map<Double, String> colours = new LinkedHashMap<>();
        String[] names = {"yellow", "green", "orange", "red", "blue", "tan", "clear"};
        for (int step = 0; step < names.length; step++) {
            colours.put(20.0 + 10 * step, names[step]);
        }
        return colours;
    }

    private static Map<Double, String> boltDown(double... ratings) {
        Map<Double, String> colours = new LinkedHashMap<>();
        for (double rating : ratings) {
            colours.put(rating, "");
        }
        return colours;
    }
}
