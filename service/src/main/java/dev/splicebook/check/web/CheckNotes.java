package dev.splicebook.check.web;

import dev.splicebook.check.Checks;
import dev.splicebook.electrics.ConductorSize;
import dev.splicebook.electrics.Length;
import dev.splicebook.function.Colour;
import dev.splicebook.function.FunctionId;
import dev.splicebook.hookup.Circuit;
import dev.splicebook.hookup.Connection;
import dev.splicebook.hookup.Device;
import dev.splicebook.hookup.Electrical;
import dev.splicebook.hookup.Finding;
import dev.splicebook.hookup.FunctionMap;
import dev.splicebook.hookup.HookupDocument;
import dev.splicebook.hookup.Remedy;
import dev.splicebook.hookup.Report;
import dev.splicebook.hookup.RulePage;
import dev.splicebook.hookup.Unused;
import dev.splicebook.hookup.Wish;
import dev.splicebook.web.SchemaNote;
import java.util.List;
import org.springframework.context.annotation.Bean;
import org.springframework.context.annotation.Configuration;

/** What the written API says of the model's types, which carry no words of an API themselves. */
@Configuration(proxyBeanMethods = false)
class CheckNotes {

    @Bean
    SchemaNote hookupNote() {
        return SchemaNote.of(
                HookupDocument.class,
                "A proposed installation. A terminal is a part, a dot and a name, like HU.memory; the vehicle is the part CAR,"
                        + " and CAR.battery-plus, CAR.battery-minus and CAR.chassis always exist.");
    }

    @Bean
    SchemaNote vehicleNote() {
        return SchemaNote.of(
                HookupDocument.VehicleUse.class,
                "A vehicle by id or inline. unplugged lists connectors taken off the factory unit; a circuit in cuts has the"
                        + " two ends CAR.C2-4/unit and CAR.C2-4/harness instead of one.");
    }

    @Bean
    SchemaNote partNote() {
        return SchemaNote.of(
                HookupDocument.PartUse.class, "A part by the code of a device or inline, and the mode it is used in.");
    }

    @Bean
    SchemaNote connectionNote() {
        return SchemaNote.of(
                Connection.class,
                "One conductor between two terminals, with its fuse where it has one. Without a material it is copper, without"
                        + " a rating its insulation is taken for 105 °C.");
    }

    @Bean
    SchemaNote unusedNote() {
        return SchemaNote.of(Unused.class, "What becomes of a lead that is not connected, and why.");
    }

    @Bean
    SchemaNote wishNote() {
        return SchemaNote.of(Wish.class, "What the customer wants kept or added: a function and all below it.");
    }

    @Bean
    SchemaNote mapNote() {
        return SchemaNote.of(
                FunctionMap.class, "All that is known of one vehicle's circuits, by connector and pin, like C1-7.");
    }

    @Bean
    SchemaNote circuitNote() {
        return SchemaNote.of(
                Circuit.class,
                "A wire at a pin of a connector. electrical holds whether or not the connector is plugged into the factory"
                        + " unit; else whenPlugged and whenUnplugged tell the two apart.");
    }

    @Bean
    SchemaNote deviceNote() {
        return SchemaNote.of(
                Device.class,
                "A product with its terminals and what is inside it. A name used inside and not declared is a passive"
                        + " terminal.");
    }

    @Bean
    SchemaNote electricalNote() {
        return SchemaNote.of(
                Electrical.class, "The electrical facts of a terminal, by kind. A fact that is absent is unknown.");
    }

    @Bean
    SchemaNote functionNote() {
        return SchemaNote.ofText(
                FunctionId.class,
                "What a wire is for: an id of the vocabulary at /v1/functions, or a group of them.",
                "^[a-z0-9]+(-[a-z0-9]+)*(\\.[a-z0-9]+(-[a-z0-9]+)*)*$",
                "power.battery");
    }

    @Bean
    SchemaNote colourNote() {
        return SchemaNote.ofText(
                Colour.class,
                "What a wire wears, in IEC 60757 letters: base, or base and stripe.",
                "^[A-Z]{2,4}(/[A-Z]{2,4})?$",
                "WH/BK");
    }

    @Bean
    SchemaNote sizeNote() {
        return SchemaNote.ofText(
                ConductorSize.class,
                "A conductor size: AWG 40 to 4/0, or an area of 0.01 to 200 mm2.",
                "^(([0-9]{1,2}|[1-4]/0) AWG|[0-9]{1,3}(\\.[0-9]{1,3})? mm2)$",
                "8 AWG");
    }

    @Bean
    SchemaNote lengthNote() {
        return SchemaNote.of(Length.class, "A length as it was measured, above 0 and at most 1000 m.");
    }

    @Bean
    SchemaNote findingNote() {
        return SchemaNote.of(
                Finding.class,
                "One violation of a rule. The message stands alone; only help says what to do. The fingerprint is of the rule"
                        + " and the facts, the same whatever the names are.");
    }

    @Bean
    SchemaNote remedyNote() {
        return SchemaNote.of(
                Remedy.class,
                "A change that mends a finding, already applied and checked again: its finding is gone, and no new error or"
                        + " danger is there. removes holds the fingerprints of all findings that vanish with it.");
    }

    @Bean
    SchemaNote operationNote() {
        return SchemaNote.of(
                Remedy.Operation.class,
                "One operation of a JSON Patch (RFC 6902) of the hookup: add, remove or replace.");
    }

    @Bean
    SchemaNote addedNote() {
        return SchemaNote.of(
                Remedy.Added.class,
                "Something to be bought or taken from the shelf: a part, by its ref and by its device where the catalogue has"
                        + " one, or a fuse in a connection.");
    }

    @Bean
    SchemaNote findingRuleNote(Checks checks) {
        return SchemaNote.ofGrowing(Finding.class, "rule", codes(checks));
    }

    @Bean
    SchemaNote outcomeRuleNote(Checks checks) {
        return SchemaNote.ofGrowing(Report.Outcome.class, "rule", codes(checks));
    }

    @Bean
    SchemaNote outcomeNote() {
        return SchemaNote.of(
                Report.Outcome.class,
                "How one rule ended. missing names the facts it lacked, meterFirst the few of them worth metering first.");
    }

    @Bean
    SchemaNote meteringNote() {
        return SchemaNote.of(
                Report.Metering.class,
                "A terminal whose missing facts hold up most, what is missing, which rules wait for it, and how to meter it.");
    }

    @Bean
    SchemaNote speakerLoadNote() {
        return SchemaNote.of(
                Report.SpeakerLoad.class,
                "What one speaker output drives, solved as one network of voice coils at their rated impedance, resistors and"
                        + " wires; ohms is absent where nothing closes the circuit.");
    }

    @Bean
    SchemaNote drivenCoilNote() {
        return SchemaNote.of(
                Report.DrivenCoil.class,
                "What a voice coil, between its plus and its minus, gets while its output gives its maxVolts, and how its cone"
                        + " moves against the signal where that begins.");
    }

    private static List<String> codes(Checks checks) {
        return checks.listRules().stream().map(RulePage::code).toList();
    }
}
