package pigmentbook.mix;

import java.util.List;

/** What holds for every mix, whatever its figures. Each defers to the product's own sheets and to local rules. */
final class StandingCautions {

    private StandingCautions() {}

    static final List<Caution> ALL = List.of(
            note(
                    "skin",
                    "No resin or hardener on bare skin: an allergy, once there, stays; wear the glove that section 8 of the"
                            + " SDS names, change it early, and wash with soap and water, never with solvent.",
                    "NIOSH 76-152; HSE RR079"),
            note("eyes", "Wear goggles or safety glasses while mixing and pouring.", "NIOSH HETA 2007-0355-3102"),
            note(
                    "air",
                    "Keep the air moving away from your face; a dust mask does nothing against vapour.",
                    "CPSC pub. 5015"),
            note(
                    "heat",
                    "A full cup can run away: if it smokes or is too hot to hold, take it outside, away from anything that"
                            + " burns, and do not breathe it; spread leftovers thin in a watched tray and never bin a warm cup.",
                    "resin maker's page on uncontrolled cure"),
            note(
                    "hardener-and-sawdust",
                    "Never let hardener soak into sawdust, chips, paper or rags: they can heat up and catch fire by"
                            + " themselves; take up spills with mineral absorbent.",
                    "resin maker's page on uncontrolled cure"),
            note(
                    "dust",
                    "No sanding before full cure; then sand wet or with extraction, for resin dust can sensitise and wood"
                            + " dust harms the lungs.",
                    "HSE wood dust page; resin maker's page on shop hazards"),
            note(
                    "powder",
                    "Weigh powders and mica in still air, lid on again at once, and wipe up wet.",
                    "NIOSH Pocket Guide, mica"),
            note(
                    "food",
                    "Not for food, cutting or hot drinks, unless the maker's statement covers this mix with its pigments.",
                    "21 CFR 175.300"),
            note(
                    "sheets-first",
                    "The product's SDS and TDS, local rules and licensed practice come first.",
                    Caution.COMMON_PRACTICE));

    private static Caution note(String code, String text, String basis) {
        return new Caution("standing-" + code, Caution.Severity.NOTE, text, basis);
    }
}
