package dev.splicebook.circuit;

import org.jspecify.annotations.Nullable;

/** How amps depend on volts where Ohm's law does not hold. */
sealed interface Law {

    double amps(double volts, Easing easing);

    /** Derivative of the amps by the volts, siemens. */
    double slope(double volts, Easing easing);

    /** Where to linearise next if that was done at {@code previous} volts and led to {@code proposed} volts. */
    double limited(double previous, double proposed, Easing easing);

    /** Whether it ties its two nodes together. */
    boolean conducts();

    /** The law of an element, or null where it is linear. */
    static @Nullable Law of(Element element) {
        if (element instanceof Element.Diode diode) {
            return new Junction(diode.saturationAmps(), diode.emission() * Junction.THERMAL_VOLTS);
        }
        if (element instanceof Element.ConstantPowerLoad load) {
            return new SteadyPower(load.watts());
        }
        if (element instanceof Element.ConstantCurrentLoad load) {
            return new SteadyCurrent(load.amps());
        }
        return null;
    }

    /**
     * Shockley's law.
     *
     * @param slopeVolts emission times thermal volts
     */
    record Junction(double saturationAmps, double slopeVolts) implements Law {

        /** kT/q at 300.15 K, with the constants that the SI of 2019 fixes. */
        static final double THERMAL_VOLTS = 1.380649e-23 * 300.15 / 1.602176634e-19;

        private static final double LEAK_SIEMENS = 1e-12;

        @Override
        public double amps(double volts, Easing easing) {
            return saturationAmps * Math.expm1(volts / slopeVolts) + LEAK_SIEMENS * volts;
        }

        @Override
        public double slope(double volts, Easing easing) {
            return saturationAmps / slopeVolts * Math.exp(volts / slopeVolts) + LEAK_SIEMENS;
        }

        /** Forward, amps go by the tangent rather than volts, as in L. W. Nagel's SPICE2 of 1975 (from memory). */
        @Override
        public double limited(double previous, double proposed, Easing easing) {
            double criticalVolts = slopeVolts * Math.log(slopeVolts / (Math.sqrt(2) * saturationAmps));
            if (proposed <= criticalVolts || Math.abs(proposed - previous) <= 2 * slopeVolts) {
                return proposed;
            }
            if (previous <= 0) {
                return slopeVolts * Math.max(1, Math.log(proposed / slopeVolts));
            }
            double growth = 1 + (proposed - previous) / slopeVolts;
            return growth > 0 ? previous + slopeVolts * Math.log(growth) : criticalVolts;
        }

        @Override
        public boolean conducts() {
            return true;
        }
    }

    record SteadyPower(double watts) implements Law {

        @Override
        public double amps(double volts, Easing easing) {
            double sharedWatts = easing.share() * watts;
            return sharedWatts == 0 ? 0 : sharedWatts / volts;
        }

        @Override
        public double slope(double volts, Easing easing) {
            double sharedWatts = easing.share() * watts;
            return sharedWatts == 0 ? 0 : -sharedWatts / (volts * volts);
        }

        /** Volts fall by half at most and keep their sign, or the step would leap over the pole at zero. */
        @Override
        public double limited(double previous, double proposed, Easing easing) {
            return proposed / previous < 0.5 ? previous / 2 : proposed;
        }

        /** It takes what it is given, and holds no node to another. */
        @Override
        public boolean conducts() {
            return false;
        }
    }

    record SteadyCurrent(double mostAmps) implements Law {

        /** Amps are within 1e-8 of the whole from ten times this. */
        private static final double KNEE_VOLTS = 0.01;

        @Override
        public double amps(double volts, Easing easing) {
            return mostAmps * Math.tanh(volts / KNEE_VOLTS);
        }

        @Override
        public double slope(double volts, Easing easing) {
            double cosh = Math.cosh(volts / KNEE_VOLTS);
            return mostAmps / KNEE_VOLTS / (cosh * cosh);
        }

        /** A tangent beyond the knee knows nothing of the other side, so that its way there ends at zero. */
        @Override
        public double limited(double previous, double proposed, Easing easing) {
            if (previous != 0 && proposed / previous < 0) {
                return 0;
            }
            double most = Math.max(KNEE_VOLTS, 2 * Math.abs(previous));
            return Math.max(-most, Math.min(most, proposed));
        }

        @Override
        public boolean conducts() {
            return mostAmps > 0;
        }
    }
}
