package dev.splicebook.hookup.mend;

import com.google.auto.service.AutoService;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Set;

/** A required setting is given where there is but one choice. */
@AutoService(Change.class)
public final class GiveSetting implements Change {

    @Override
    public Set<String> rules() {
        return Set.of("setting-missing");
    }

    @Override
    public List<Proposal> propose(Defect defect) {
        List<Proposal> proposals = new ArrayList<>();
        defect.hookup()
                .devices()
                .forEach((part, device) -> device.settings().forEach((name, setting) -> {
                    Map<String, String> given =
                            defect.hookup().document().settings().getOrDefault(part, Map.of());
                    if (Boolean.TRUE.equals(setting.required())
                            && given.getOrDefault(name, "").isBlank()
                            && setting.choices().size() == 1) {
                        String only = setting.choices().keySet().iterator().next();
                        proposals.add(new Proposal(
                                "Set " + name + " of " + part + " to " + only + ", its only choice.",
                                1,
                                defect.edit().setting(part, name, only)));
                    }
                }));
        return proposals;
    }
}
