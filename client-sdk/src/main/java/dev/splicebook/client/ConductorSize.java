package dev.splicebook.client;

import com.fasterxml.jackson.annotation.JsonCreator;
import com.fasterxml.jackson.annotation.JsonValue;
import java.math.BigDecimal;

/**
 * The size of a conductor as the trade writes it: {@code "8 AWG"}, {@code "1/0 AWG"} or {@code "2.5 mm2"}. Which sizes
 * there are, the service knows.
 *
 * @param value as it stands in JSON
 */
public record ConductorSize(@JsonValue String value) {

    @JsonCreator(mode = JsonCreator.Mode.DELEGATING)
    public ConductorSize {
        Require.text("ConductorSize", value);
    }

    /** A size by gauge number, like 18. */
    public static ConductorSize awg(int gauge) {
        return new ConductorSize(gauge + " AWG");
    }

    /** A size of several noughts: 1 for 1/0, up to 4 for 4/0. */
    public static ConductorSize noughts(int noughts) {
        return new ConductorSize(noughts + "/0 AWG");
    }

    /** A size by area, like 2.5, in mm². */
    public static ConductorSize squareMillimetres(double area) {
        return new ConductorSize(BigDecimal.valueOf(area).stripTrailingZeros().toPlainString() + " mm2");
    }

    @Override
    public String toString() {
        return value;
    }
}
