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
                    Decided decided =
                            given.getOrDefault(part, Map.of()).containsKey(name) ? null : decide(part, setting, bare);
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
                        Decided decided = decide(part, setting, bare);
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

    private static @Nullable Decided decide(String part, Device.Setting setting, Hookup bare) {
        if (!Boolean.TRUE.equals(setting.required())) {
            return null;
        }
        if (setting.choices().size() == 1) {
            return new Decided(setting.choices().keySet().iterator().next(), "it is the only choice");
        }
        Set<String> makers = new TreeSet<>();
        bare.devices().forEach((other, device) -> {
            if (!other.equals(part) && device.maker() != null) {
                makers.add(device.maker());
            }
        });
        List<String> naming = setting.choices().entrySet().stream()
                .filter(choice -> makers.contains(choice.getValue()))
                .map(Map.Entry::getKey)
                .toList();
        return naming.size() == 1
                ? new Decided(
                        naming.get(0),
                        setting.choices().get(naming.get(0))
                                + " is the only maker among its choices that a part here has")
                : null;
    }
}
