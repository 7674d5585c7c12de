package dev.splicebook.client;

/**
 * The vehicles that a vehicle identification number may be one of.
 *
 * @param vin what the number says by itself
 * @param vehicles those whose patterns it matches, and whose model years it may be of
 */
public record VinMatches(Vin vin, Page<VehicleSummary> vehicles) {

    public VinMatches {
        Require.present("vin", vin);
        Require.present("vehicles", vehicles);
    }
}
