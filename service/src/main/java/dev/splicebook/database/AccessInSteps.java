package dev.splicebook.database;

import java.sql.Connection;
import java.sql.PreparedStatement;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Statement;
import java.util.ArrayList;
import java.util.List;
import java.util.UUID;
import org.flywaydb.core.api.MigrationVersion;
import org.flywaydb.core.api.migration.Context;
import org.flywaydb.core.api.migration.JavaMigration;
import org.springframework.stereotype.Component;
import tools.jackson.core.JsonParser;
import tools.jackson.core.JsonToken;
import tools.jackson.core.TokenStreamContext;
import tools.jackson.databind.json.JsonMapper;

/**
 * How a connector is reached was one text, and is a list of steps: rewrites the documents that still have the text, and
 * nothing in them but that. Frozen once released, whatever becomes of the model.
 */
@Component
class AccessInSteps implements JavaMigration {

    private static final JsonMapper MAPPER = JsonMapper.builder().build();
    private static final int LONGEST_PANEL = 200;
    private static final int LONGEST_HOW = 1000;
    private static final int FETCHED_AT_ONCE = 20;

    @Override
    public MigrationVersion getVersion() {
        return MigrationVersion.fromVersion("3.1");
    }

    @Override
    public String getDescription() {
        return "access in steps";
    }

    @Override
    public Integer getChecksum() {
        return 1;
    }

    @Override
    public boolean canExecuteInTransaction() {
        return true;
    }

    @Override
    public void migrate(Context context) throws SQLException {
        rewrite(context.getConnection(), "vehicle_revisions", "vehicle_id");
        rewrite(context.getConnection(), "device_revisions", "device_id");
    }

    private static void rewrite(Connection connection, String table, String id) throws SQLException {
        String select = "select " + id + ", revision, document from " + table + " where exists (select"
                + " from json_each(document::json -> 'connectors') each"
                + " where json_typeof(each.value -> 'access') = 'string')";
        String update = "update " + table + " set document = ? where " + id + " = ? and revision = ?";
        try (Statement reading = connection.createStatement();
                PreparedStatement writing = connection.prepareStatement(update)) {
            // with a cursor, so that a large book is not in memory at once
            reading.setFetchSize(FETCHED_AT_ONCE);
            try (ResultSet rows = reading.executeQuery(select)) {
                while (rows.next()) {
                    writing.setString(1, inSteps(rows.getString(3)));
                    writing.setObject(2, rows.getObject(1, UUID.class));
                    writing.setInt(3, rows.getInt(2));
                    writing.executeUpdate();
                }
            }
        }
    }

    /** The document with each connector's text as a list of steps, and otherwise letter for letter the same. */
    static String inSteps(String document) {
        StringBuilder rewritten = new StringBuilder(document.length() + 100);
        int copied = 0;
        try (JsonParser parser = MAPPER.createParser(document)) {
            for (JsonToken token = parser.nextToken(); token != null; token = parser.nextToken()) {
                if (token == JsonToken.VALUE_STRING && isAccess(parser.streamReadContext())) {
                    int start = Math.toIntExact(parser.currentTokenLocation().getCharOffset());
                    String text = parser.getString();
                    // the text has been read to its end, and so the parser stands behind its closing quote
                    int end = Math.toIntExact(parser.currentLocation().getCharOffset());
                    rewritten.append(document, copied, start).append(steps(document.substring(start, end), text));
                    copied = end;
                }
            }
        }
        return rewritten.append(document, copied, document.length()).toString();
    }

    private static boolean isAccess(TokenStreamContext place) {
        TokenStreamContext connector = place.getParent();
        TokenStreamContext document = connector == null ? null : connector.getParent();
        TokenStreamContext outside = document == null ? null : document.getParent();
        return place.inObject()
                && "access".equals(place.currentName())
                && document != null
                && "connectors".equals(document.currentName())
                && outside != null
                && outside.inRoot();
    }

    private static String steps(String written, String text) {
        if (text.length() <= LONGEST_PANEL) {
            return "[{\"panel\":" + written + "}]";
        }
        if (text.length() <= LONGEST_HOW) {
            return "[{\"panel\":\"see how\",\"how\":" + written + "}]";
        }
        List<String> steps = new ArrayList<>();
        for (String piece : pieces(text)) {
            steps.add("{\"panel\":\"see how\",\"how\":" + MAPPER.writeValueAsString(piece) + "}");
        }
        return "[" + String.join(",", steps) + "]";
    }

    /** Parts of a long text, none blank, split between words where there is room. */
    private static List<String> pieces(String text) {
        List<String> pieces = new ArrayList<>();
        String rest = text;
        while (rest.length() > LONGEST_HOW) {
            int end = LONGEST_HOW;
            while (end > LONGEST_HOW / 2 && !Character.isWhitespace(rest.charAt(end))) {
                end--;
            }
            if (!Character.isWhitespace(rest.charAt(end))) {
                end = Character.isLowSurrogate(rest.charAt(LONGEST_HOW)) ? LONGEST_HOW - 1 : LONGEST_HOW;
            }
            add(pieces, rest.substring(0, end));
            rest = rest.substring(end);
        }
        add(pieces, rest);
        return pieces;
    }

    private static void add(List<String> pieces, String piece) {
        if (!piece.isBlank()) {
            pieces.add(piece.strip());
        }
    }
}
