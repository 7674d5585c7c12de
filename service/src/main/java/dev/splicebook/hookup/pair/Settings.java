package dev.splicebook.hookup.pair;

import dev.splicebook.hookup.Device;
import dev.splicebook.hookup.Hookup;
import dev.splicebook.hookup.Proposal.SettingToMake;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import java.util.function.Predicate;
import org.jspecify.annotations.Nullable;

/** Settings that follow from the parts: a single choice, or the one that names the maker of another part. */
final class Settings {

    private final Map<String, Map<String, String>> given;

    Settings(Map<String, Map<String, String>> given) {
        this.given = given;
    }

    /** A value, and why. */
    private record Decided(String value, String why) {}

    /** All that are given or follow, by part. */
    Map<String, Map<String, String>> values(Hookup bare) {
        Map<String, Map<String, String>> values = new LinkedHashMap<>();
        given.forEach((part, settings) -> values.put(part, new LinkedHashMap<>(settings)));
        bare.devices()
                .forEach((part, device) -> device.settings().forEach((name, setting) -> {
                    Decided decided = given.getOrDefault(part, Map.of()).containsKey(name)
                            ? null
                            : decide(part, name, setting, bare);
                    if (decided != null) {
                        values.computeIfAbsent(part, key -> new LinkedHashMap<>())
                                .put(name, decided.value());
                    }
                }));
        return values;
    }

    /** Those that are not given, with the value where it follows from the parts. */
    List<SettingToMake> toMake(Hookup bare) {
        List<SettingToMake> all = new ArrayList<>();
        bare.devices()
                .forEach((part, device) -> device.settings().forEach((name, setting) -> {
                    if (!given.getOrDefault(part, Map.of()).containsKey(name)) {
                        Decided decided = decide(part, name, setting, bare);
                        all.add(new SettingToMake(
                                part,
                                name,
                                setting.what(),
                                setting.choices(),
                                Boolean.TRUE.equals(setting.required()),
                                decided == null ? null : decided.value(),
                                decided == null ? null : decided.why()));
                    }
                }));
        return all;
    }

    private static @Nullable Decided decide(String part, String name, Device.Setting setting, Hookup bare) {
        if (!Boolean.TRUE.equals(setting.required())) {
            return null;
        }
        if (setting.choices().size() == 1) {
            return new Decided(setting.choices().keySet().iterator().next(), "it is the only choice");
        }
        // a setting that is named for a kind of part, like head-unit-maker, asks for the maker of that
        boolean forKind = bare.devices().values().stream().anyMatch(device -> isNamedFor(name, device));
        Set<String> makers = new TreeSet<>();
        boolean unstated = false;
        for (Map.Entry<String, Device> other : bare.devices().entrySet()) {
            Device device = other.getValue();
            if (!other.getKey().equals(part) && (!forKind || isNamedFor(name, device))) {
                unstated |= device.maker() == null;
                makers.addAll(device.maker() == null ? Set.of() : Set.of(device.maker()));
            }
        }
        List<String> naming = choices(setting, makers::contains);
        if (naming.size() == 1) {
            return new Decided(
                    naming.get(0),
                    setting.choices().get(naming.get(0)) + " is the only maker among its choices that a part here has");
        }
        List<String> others = choices(setting, meaning -> meaning.startsWith("other"));
        return forKind && !unstated && naming.isEmpty() && others.size() == 1
                ? new Decided(others.get(0), "no other choice names " + String.join(" or ", makers))
                : null;
    }

    private static boolean isNamedFor(String setting, Device device) {
        return device.kind() != null && setting.startsWith(device.kind() + "-");
    }

    private static List<String> choices(Device.Setting setting, Predicate<String> meaning) {
        return setting.choices().entrySet().stream()
                .filter(choice -> meaning.test(choice.getValue()))
                .map(Map.Entry::getKey)
                .toList();
    }
}
