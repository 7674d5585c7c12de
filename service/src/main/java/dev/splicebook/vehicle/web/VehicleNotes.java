package dev.splicebook.vehicle.web;

import dev.splicebook.hookup.AccessStep;
import dev.splicebook.hookup.Face;
import dev.splicebook.hookup.PanelSize;
import dev.splicebook.hookup.VinPattern;
import dev.splicebook.vehicle.Vin;
import dev.splicebook.vehicle.web.VehicleController.VinReading;
import dev.splicebook.web.QueryText;
import dev.splicebook.web.SchemaNote;
import dev.splicebook.web.SearchWords;
import java.util.List;
import org.springframework.context.annotation.Bean;
import org.springframework.context.annotation.Configuration;

/** What the written API says of the book's types. */
@Configuration(proxyBeanMethods = false)
class VehicleNotes {

    @Bean
    SchemaNote vinNote() {
        return SchemaNote.ofText(
                Vin.class,
                "A vehicle identification number: 17 digits and letters but I, O and Q. In North America its check digit must be"
                        + " right.",
                "^[0-9A-HJ-NPR-Za-hj-npr-z]{17}$",
                "5ZZAA1KA7L0000017");
    }

    @Bean
    SchemaNote vinReadingNote() {
        return SchemaNote.of(
                VinReading.class,
                "What a VIN tells by itself. Outside North America its model year's code comes round every thirty years, so"
                        + " that modelYears has two, or none where the maker puts no code.");
    }

    @Bean
    SchemaNote regionNote() {
        return SchemaNote.ofGrowing(
                VinReading.class,
                "region",
                List.of("Africa", "Asia", "Europe", "North America", "Oceania", "South America"));
    }

    @Bean
    SchemaNote vinPatternNote() {
        return SchemaNote.ofText(
                VinPattern.class,
                "How VINs begin: 3 to 17 of their characters, at least 3 of them given and ? for any other.",
                "^[0-9A-HJ-NPR-Z?]{3,17}$",
                "5ZZAA1?A?L");
    }

    @Bean
    SchemaNote queryTextNote() {
        return SchemaNote.ofText(QueryText.class, "A text to look for, at most 200 characters.", null, "Corv");
    }

    @Bean
    SchemaNote searchWordsNote() {
        return SchemaNote.ofText(
                SearchWords.class, "Words to look for, at most 200 characters.", null, "amplifier nav");
    }

    @Bean
    SchemaNote faceNote() {
        return SchemaNote.of(
                Face.class,
                "The face of a connector. Pins are numbered from the upper left corner as seen from the side that seenFrom names,"
                        + " or as pins lists them.");
    }

    @Bean
    SchemaNote accessStepNote() {
        return SchemaNote.of(AccessStep.class, "One step on the way to a connector.");
    }

    @Bean
    SchemaNote panelSizeNote() {
        return SchemaNote.of(
                PanelSize.class,
                "The opening for a radio, or a chassis that goes into one. Only measured has a width and height; no standard"
                        + " fixes the depth.");
    }
}
