package dev.splicebook.exchange;

/** What an export holds. */
public enum ExportOf {
    ALL,
    VEHICLES,
    DEVICES;

    boolean hasVehicles() {
        return this != DEVICES;
    }

    boolean hasDevices() {
        return this != VEHICLES;
    }
}
