package dev.splicebook.calculation.trade;

import dev.splicebook.calculation.Worksheet;
import dev.splicebook.electrics.ConductorMaterial;
import dev.splicebook.electrics.ConductorSize;
import dev.splicebook.electrics.WireConductor;
import dev.splicebook.electrics.WireConductor.Basis;
import dev.splicebook.web.Fact;
import org.jspecify.annotations.Nullable;

/** A conductor as questions give it. */
public record ConductorInput(
        @Fact("size, like 8 AWG, 1/0 AWG or 2.5 mm2") ConductorSize size,

        @Fact(value = "what it is made of", usual = "copper") @Nullable
        ConductorMaterial material,

        @Fact(
                value = "resistivity at 20 °C, where the maker states it",
                unit = "Ω·mm²/m",
                least = 0.01,
                most = 1,
                usual = "that of the material")
        @Nullable
        Double resistivityOhmMm2PerMetre,

        @Fact(
                value = "what the lay of the strands adds to the resistance of a size that goes by area",
                unit = "%",
                least = 0,
                most = 10,
                usual = "0, solid wire; stranded wire is about 2 above")
        @Nullable
        Double strandingPercent) {

    /** With the defaults that its resistance needs, each noted. */
    WireConductor resolve(Worksheet sheet) {
        WireConductor conductor = resolveForAmpacity(sheet);
        ConductorMaterial made = conductor.madeOf();
        if (conductor.basis() != Basis.IEC_60228) {
            sheet.orAssume(
                    resistivityOhmMm2PerMetre,
                    "resistivityOhmMm2PerMetre",
                    made.resistivityOhmMm2PerMetre(),
                    "Ω·mm²/m",
                    "resistivity of " + made + " at 20 °C");
            sheet.orAssume(
                    strandingPercent,
                    "strandingPercent",
                    0,
                    "%",
                    "solid wire; stranded wire is about 2 % above (NEC chapter 9 table 8)");
        }
        return conductor;
    }

    /** With the default that its ampacity needs, noted. */
    WireConductor resolveForAmpacity(Worksheet sheet) {
        ConductorMaterial made =
                sheet.orAssume(material, "material", ConductorMaterial.COPPER, "what the conductor is");
        return new WireConductor(size, made, resistivityOhmMm2PerMetre, strandingPercent);
    }
}
