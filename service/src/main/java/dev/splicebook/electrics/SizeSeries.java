package dev.splicebook.electrics;

import java.util.List;
import java.util.stream.Stream;

/** The sizes that wire for vehicles is sold in, thinnest first; that these are the usual ones is common practice, no source. */
public enum SizeSeries {
    AWG(" AWG", "22", "20", "18", "16", "14", "12", "10", "8", "6", "4", "3", "2", "1", "1/0", "2/0", "3/0", "4/0"),
    METRIC(" mm2", "0.35", "0.5", "0.75", "1", "1.5", "2.5", "4", "6", "10", "16", "25", "35", "50", "70", "95", "120");

    private final List<ConductorSize> sizes;

    SizeSeries(String unit, String... figures) {
        sizes = Stream.of(figures)
                .map(figure -> new ConductorSize(figure + unit))
                .toList();
    }

    /** Thinnest first. */
    public List<ConductorSize> sizes() {
        return sizes;
    }

    /** The series that a size is written in. */
    public static SizeSeries of(ConductorSize size) {
        return size.isGauge() ? AWG : METRIC;
    }
}
