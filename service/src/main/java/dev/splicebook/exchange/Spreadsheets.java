package dev.splicebook.exchange;

import dev.splicebook.hookup.FunctionMap;
import dev.splicebook.vehicle.StoredMap;
import dev.splicebook.web.Sent;
import org.jspecify.annotations.Nullable;

/** Function maps as spreadsheets of circuits, as {@link SheetColumns} describes them. */
public final class Spreadsheets {

    private Spreadsheets() {}

    /**
     * The map of a new vehicle.
     *
     * @param sheet absent for an empty file
     * @throws dev.splicebook.web.ProblemException 400 with every parameter at fault, or with every fault of the sheet by
     *     line and column
     */
    public static Sent<FunctionMap> read(VehicleHead head, byte @Nullable [] sheet) {
        return SheetReader.read(orEmpty(sheet), head.document());
    }

    /**
     * A map with the circuits of a sheet in place of its own, and with what the sheet says of their connectors; all else
     * stays.
     *
     * @param sheet absent for an empty file
     * @throws dev.splicebook.web.ProblemException 400 with every fault of the sheet by line and column
     */
    public static Sent<FunctionMap> read(StoredMap map, byte @Nullable [] sheet) {
        return SheetReader.read(orEmpty(sheet), Documents.read(map.document()));
    }

    /** The circuits of a map, and what is known of their connectors; read again it gives the same. */
    public static String write(StoredMap map) {
        return SheetWriter.write(Documents.read(map.document()));
    }

    private static byte[] orEmpty(byte @Nullable [] sheet) {
        return sheet == null ? new byte[0] : sheet;
    }
}
