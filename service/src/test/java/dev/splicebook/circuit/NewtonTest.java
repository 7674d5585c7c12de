package dev.splicebook.circuit;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import dev.splicebook.circuit.RandomNetworks.Kind;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;

class NewtonTest {

    private static final int MOST_ITERATIONS = 10_000;

    private static Newton newton(Network network, boolean careful) {
        return new Newton(Equations.dc(network), careful, MOST_ITERATIONS);
    }

    @Test
    void stepsSourcesUpToWhereTheDirectWayLeads() {
        for (long seed = 0; seed < 50; seed++) {
            Network network = RandomNetworks.sample(Kind.DIODES, seed).network();
            Newton direct = newton(network, false);
            Newton stepped = newton(network, false);

            assertThat(direct.settleUnloaded()).as("settled directly, %s", seed).isTrue();
            assertThat(stepped.stepUp()).as("settled step by step, %s", seed).isTrue();

            assertThat(stepped.unknowns()).containsExactly(direct.unknowns(), within(1e-6));
            assertThat(stepped.iterations()).as("iterations").isGreaterThan(direct.iterations());
        }
    }

    @ParameterizedTest
    @EnumSource(names = {"RESISTIVE", "SOURCES", "DIODES", "TRANSFORMERS"})
    void settlesAtTheSameWithCareAndWithout(Kind kind) {
        for (long seed = 0; seed < 50; seed++) {
            Network network = RandomNetworks.sample(kind, seed).network();
            Newton quick = newton(network, false);
            Newton careful = newton(network, true);

            assertThat(quick.settleUnloaded())
                    .as("settled without care, %s", seed)
                    .isTrue();
            assertThat(careful.settleUnloaded())
                    .as("settled with care, %s", seed)
                    .isTrue();

            assertThat(careful.unknowns()).containsExactly(quick.unknowns(), within(1e-7));
        }
    }

    // followed rather than leapt to, the loads end at the same volts
    @Test
    void growsLoadsToWhereTheDirectWayLeads() {
        for (long seed = 0; seed < 50; seed++) {
            Network network = RandomNetworks.sample(Kind.LOADS, seed).network();
            Newton direct = newton(network, false);
            Newton grown = newton(network, false);

            assertThat(direct.settleUnloaded() && direct.settleLoaded())
                    .as("settled, %s", seed)
                    .isTrue();
            assertThat(grown.settleUnloaded() && grown.grow(0))
                    .as("grown, %s", seed)
                    .isTrue();

            assertThat(grown.unknowns()).containsExactly(direct.unknowns(), within(1e-7));
        }
    }
}
