package dev.splicebook.hookup;

import dev.splicebook.electrics.ConductorSize;
import dev.splicebook.electrics.Length;
import dev.splicebook.electrics.LengthUnit;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;

/** A resolved hookup with something of it changed. */
final class Edits {

    private final Hookup before;
    private final Map<String, Connection> connections;
    private Map<String, Unused> unused;
    private Map<String, Map<String, String>> settings;

    private Edits(Hookup before) {
        this.before = before;
        this.connections = new LinkedHashMap<>(before.document().connections());
        this.unused = new LinkedHashMap<>(before.document().unused());
        this.settings = before.document().settings();
    }

    static Edits of(Hookup before) {
        return new Edits(before);
    }

    static Connection connection(String from, String to, @Nullable String size) {
        return new Connection(
                List.of(from, to),
                size == null ? null : new Connection.Conductor(new ConductorSize(size), null, 105.0),
                new Length(1, LengthUnit.M),
                null);
    }

    static Connection withEnds(Connection connection, String from, String to) {
        return new Connection(List.of(from, to), connection.conductor(), connection.length(), connection.fuse());
    }

    Edits connection(String ref, Connection connection) {
        connections.put(ref, connection);
        return this;
    }

    Edits without(String ref) {
        connections.remove(ref);
        return this;
    }

    Edits unused(Map<String, Unused> all) {
        unused = new LinkedHashMap<>(all);
        return this;
    }

    Edits unused(String terminal, Unused.Fate fate) {
        unused.put(terminal, new Unused(fate, null));
        return this;
    }

    Edits settings(Map<String, Map<String, String>> all) {
        settings = all;
        return this;
    }

    String connectionBetween(String one, String other) {
        return connections.entrySet().stream()
                .filter(entry -> List.copyOf(entry.getValue().ends()).containsAll(List.of(one, other)))
                .map(Map.Entry::getKey)
                .findFirst()
                .orElseThrow();
    }

    Hookup hookup() {
        HookupDocument document = before.document();
        return Hookup.resolve(
                new HookupDocument(
                        document.vehicle(),
                        document.parts(),
                        connections,
                        document.plugs(),
                        unused,
                        settings,
                        document.wishes()),
                before.map(),
                before.devices(),
                new ArrayList<>());
    }
}
