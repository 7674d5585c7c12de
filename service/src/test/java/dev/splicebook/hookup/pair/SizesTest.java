package dev.splicebook.hookup.pair;

import static org.assertj.core.api.Assertions.assertThat;

import dev.splicebook.electrics.ConductorSize;
import dev.splicebook.hookup.Connection;
import dev.splicebook.hookup.Hookup;
import dev.splicebook.hookup.Hookups;
import dev.splicebook.hookup.PairingQuestion.Preferences;
import dev.splicebook.hookup.net.Network;
import dev.splicebook.hookup.net.Node;
import java.util.Objects;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class SizesTest {

    private static final Hookup HOOKUP = Hookups.hookup("""
            {"vehicle": {"inline": {"circuits": {"P-1": {"electrical": {"kind": "supply"}}}}, "unplugged": ["P"]},
             "parts": {"A": {"inline": {"terminals": {"x": {"electrical": {"kind": "load"}}}}}}}""");
    private static final Network NETWORK = new Network(HOOKUP);

    private final Sizes sizes = new Sizes(Preferences.none());

    /** Ratings of blade and bolt-down fuses; a fuse carries 75 % of its rating for long, as fuse makers publish. */
    @ParameterizedTest
    @CsvSource({"0.1, 0.2, 2", "1.2, 2.4, 3", "7.5, 7.5, 10", "7.6, 7.6, 15", "8, 42, 50", "3, 10, 10"})
    void fusesAtTheLeastRatingThatCarriesTheLoad(double typicalAmps, double maxAmps, double ratingAmps) {
        assertThat(Sizes.fuseAmps(typicalAmps, maxAmps)).isEqualTo(ratingAmps);
    }

    /** 18 AWG with 105 °C insulation takes 20 A (33 CFR 183.425 table 5). */
    @ParameterizedTest
    @CsvSource({"20, ", "21, 2", "Infinity, 2", "NaN, 2", "0, "})
    void fusesWhatItsSourceDoesNotProtect(double guardAmps, Double ratingAmps) {
        Connection drawn = sizes.connection(join("CAR.P-1", Join.Run.POWER, 0.1, 0.3, guardAmps, false));

        assertThat(Objects.requireNonNull(drawn.conductor()).size()).isEqualTo(new ConductorSize("18 AWG"));
        assertThat(drawn.fuse() == null ? null : Double.valueOf(drawn.fuse().ratingAmps()))
                .isEqualTo(ratingAmps);
    }

    /** 8 AWG with 105 °C insulation takes 80 A, 10 AWG 60 A (33 CFR 183.425 table 5). */
    @Test
    void isAsThickAsThePartsFuseAsksFor() {
        Connection drawn = sizes.connection(join("CAR.battery-plus", Join.Run.POWER, 0.1, 0.3, 80, true));

        assertThat(Objects.requireNonNull(drawn.conductor()).size()).isEqualTo(new ConductorSize("8 AWG"));
        assertThat(drawn.fuse()).isNull();
    }

    /**
     * 42 A over 5 m may lose 0.189 V, which asks for 0.9 mΩ/m at most: 4 AWG has 0.815 and 6 AWG 1.296 (0.2485 and 0.3951
     * ohms per 1000 ft at 20 °C, solid copper, Floyd's table after NBS Handbook 100).
     */
    @Test
    void isAsThickAsTheDropAsksFor() {
        Connection drawn =
                sizes.connection(join("CAR.battery-plus", Join.Run.POWER, 8, 42, Double.POSITIVE_INFINITY, false));

        assertThat(Objects.requireNonNull(drawn.conductor()).size()).isEqualTo(new ConductorSize("4 AWG"));
        assertThat(Objects.requireNonNull(drawn.fuse()).ratingAmps()).isEqualTo(50);
        assertThat(Objects.requireNonNull(drawn.fuse().fromSource()).metres()).isLessThanOrEqualTo(0.1778);
        assertThat(Objects.requireNonNull(drawn.length()).metres()).isEqualTo(5);
    }

    @Test
    void saysNothingOfTheConductorOfASignal() {
        Connection drawn = sizes.connection(join("CAR.P-1", Join.Run.SIGNAL, 0, 0, 0, false));

        assertThat(drawn.conductor()).isNull();
        assertThat(drawn.length()).isNotNull();
    }

    private static Join join(
            String from, Join.Run run, double typicalAmps, double maxAmps, double guardAmps, boolean fused) {
        return new Join(node(from), node("A.x"), typicalAmps, maxAmps, run, guardAmps, fused);
    }

    private static Node node(String ref) {
        Node node = NETWORK.findNode(ref);
        if (node == null) {
            throw new IllegalArgumentException("no " + ref);
        }
        return node;
    }
}
