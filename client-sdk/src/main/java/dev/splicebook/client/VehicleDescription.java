package dev.splicebook.client;

/** What is said of a vehicle beside its circuits, for a spreadsheet, which has only those. Each method gives a new one. */
public final class VehicleDescription {

    private final Filters parameters;

    private VehicleDescription(Filters parameters) {
        this.parameters = parameters;
    }

    /** A vehicle of a maker and a model. */
    public static VehicleDescription of(String maker, String model) {
        return new VehicleDescription(Filters.none().with("maker", maker).with("model", model));
    }

    /** The same of these model years, 1950 to 2100; the same year twice for one. */
    public VehicleDescription modelYears(int from, int to) {
        return new VehicleDescription(parameters.with("modelYearFrom", from).with("modelYearTo", to));
    }

    /** The same for a market, like {@code EU}. */
    public VehicleDescription market(String market) {
        return new VehicleDescription(parameters.with("market", market));
    }

    /** The same with the driver on the left, as seen facing forward. */
    public VehicleDescription leftHandDrive() {
        return new VehicleDescription(parameters.with("steeringSide", "left"));
    }

    /** The same with the driver on the right, as seen facing forward. */
    public VehicleDescription rightHandDrive() {
        return new VehicleDescription(parameters.with("steeringSide", "right"));
    }

    /** The same with one more piece of equipment that sets the variant apart, like {@code rear-entertainment}. */
    public VehicleDescription equipment(String name) {
        return new VehicleDescription(parameters.plus("equipment", name));
    }

    /** The same with one more pattern of how the identification numbers (VIN) of these vehicles begin. */
    public VehicleDescription vinPattern(String pattern) {
        return new VehicleDescription(parameters.plus("vinPattern", pattern));
    }

    Filters parameters() {
        return parameters;
    }
}
