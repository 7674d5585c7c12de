package dev.splicebook.hookup.rule;

import com.google.auto.service.AutoService;
import dev.splicebook.hookup.Device;
import dev.splicebook.hookup.Severity;
import dev.splicebook.hookup.net.Node;
import java.util.List;
import java.util.Map;

/** A setting that a device requires is not given. */
@AutoService(Rule.class)
@About(
        code = "setting-missing",
        severity = Severity.WARNING,
        since = "0.1",
        condition = "A setting that a device requires is not given.",
        checks = "Every required setting of every part.",
        why = "An interface module that is not told whose head unit it talks to keeps silent, and looks broken.",
        mend = "Set it before the dash is closed, and write it into the hookup.",
        source = "Common practice, no source.",
        fails = """
                {"parts": {"IFC": {"inline": {"settings": {"head-unit-maker": {"choices": {"1": "first", "2": "second"}, "required": true}}}}}}
                """,
        passes = """
                {"parts": {"IFC": {"inline": {"settings": {"head-unit-maker": {"choices": {"1": "first", "2": "second"}, "required": true}}}}},
                 "settings": {"IFC": {"head-unit-maker": "2"}}}
                """)
public final class SettingMissing implements Rule {

    @Override
    public void check(Examination examination) {
        examination
                .network()
                .hookup()
                .devices()
                .forEach((part, device) -> device.settings().forEach((name, setting) -> {
                    if (Boolean.TRUE.equals(setting.required())) {
                        examination.applies();
                        Map<String, String> given = examination
                                .network()
                                .hookup()
                                .document()
                                .settings()
                                .getOrDefault(part, Map.of());
                        if (given.getOrDefault(name, "").isBlank()) {
                            examination
                                    .report(
                                            part + " requires the setting " + name + ", and none is given"
                                                    + choices(setting),
                                            "choose " + name + " for " + part + ".")
                                    .about(name)
                                    .at(about(part, examination));
                        }
                    }
                }));
    }

    private static List<Node> about(String part, Examination examination) {
        return examination.network().nodesOf(part).stream()
                .filter(node -> examination.network().isConnected(node))
                .min(Say.BY_FACTS)
                .stream()
                .toList();
    }

    private static String choices(Device.Setting setting) {
        return setting.choices().isEmpty()
                ? ""
                : "; its choices are "
                        + Say.list(setting.choices().entrySet().stream()
                                .map(choice -> choice.getKey() + " (" + choice.getValue() + ")")
                                .toList());
    }
}
