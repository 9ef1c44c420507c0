package pigmentbook.web;

import com.fasterxml.jackson.databind.JsonNode;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import pigmentbook.book.Backing;
import pigmentbook.book.Book;
import pigmentbook.book.Pigment;
import pigmentbook.book.Pour;
import pigmentbook.book.Recipe;
import pigmentbook.colour.Ciede2000;
import pigmentbook.colour.Lab;
import pigmentbook.colour.Srgb;
import pigmentbook.quantity.Length;
import pigmentbook.quantity.Numbers;
import pigmentbook.store.Kind;
import pigmentbook.store.RecipeRecords;
import pigmentbook.store.SaveFailedException;
import pigmentbook.tint.Correction;
import pigmentbook.tint.Loadings;
import pigmentbook.tint.TintRefusedException;
import pigmentbook.tint.Tints;

/** From a sample's reading: what to change in a recipe that is to match a colour. */
public final class CorrectionView {

    /** A pigment that a correction leaves no more of than this is left out. */
    private static final double LEAST_PERCENT = 1e-4;

    private CorrectionView() {}

    /** A pigment's change. */
    public record Change(String name, String from, String to, String adding) {}

    /** The whole. */
    public record Shown(
            String wantedHex,
            String sampleHex,
            String away,
            String then,
            String thenAdding,
            boolean addingEnough,
            List<Change> changes) {}

    /** What a recipe is to look like, and where. */
    private record Wanted(Lab lab, double depthMm, String backing) {}

    private record Found(Wanted wanted, Lab sample, Correction correction) {}

    /** Returns what to change, or null where the recipe wants no colour, or the pour has no reading of that kind. */
    static @Nullable Shown of(LiveBook live, LiveTints tints, Pour pour) {
        Found found = find(live, tints, pour);
        if (found == null) {
            return null;
        }
        Book book = live.now().book();
        Correction correction = found.correction();
        List<Change> changes = new ArrayList<>();
        for (int i = 0; i < correction.changes().size(); i++) {
            Correction.Change each = correction.changes().get(i);
            Pigment pigment = book.pigments().get(each.pigmentId());
            changes.add(new Change(
                    pigment == null ? each.pigmentId() : pigment.name(),
                    Figures.plain(each.fromPercent(), 3),
                    Figures.plain(each.toPercent(), 3),
                    Figures.plain(correction.adding().get(i).toPercent(), 3)));
        }
        return new Shown(
                Srgb.hex(found.wanted().lab()),
                Srgb.hex(found.sample()),
                Numbers.fixed(Ciede2000.between(found.wanted().lab(), found.sample()), 1),
                Numbers.fixed(correction.dE00(), 1),
                Numbers.fixed(correction.dE00Adding(), 1),
                correction.isAddingEnough(),
                changes);
    }

    private static @Nullable Found find(LiveBook live, LiveTints tints, Pour pour) {
        Book book = live.now().book();
        Recipe recipe = book.recipes().get(pour.recipeId());
        Wanted wanted = recipe == null ? null : wanted(live, recipe);
        if (recipe == null || wanted == null) {
            return null;
        }
        for (int i = pour.readings().size() - 1; i >= 0; i--) {
            Pour.Reading reading = pour.readings().get(i);
            Backing backing = reading.backing();
            boolean alike = reading.depth() != null
                    && Math.abs(reading.depth().mm() - wanted.depthMm()) < 0.05 * wanted.depthMm()
                    && backing != null
                    && wanted.backing().equals(backing.name())
                    && !reading.glossIncluded();
            Tints fitted = alike ? tints.of(book) : null;
            if (fitted != null && backing != null) {
                try {
                    return new Found(
                            wanted,
                            reading.lab(),
                            Correction.of(
                                    fitted,
                                    recipe.current().resinId(),
                                    Loadings.of(book, pour),
                                    wanted.depthMm(),
                                    backing,
                                    reading.lab(),
                                    wanted.lab()));
                } catch (TintRefusedException e) {
                    return null;
                }
            }
        }
        return null;
    }

    private static @Nullable Wanted wanted(LiveBook live, Recipe recipe) {
        try {
            JsonNode wanted =
                    live.writer().read(Kind.RECIPE, recipe.id()).record().path("wanted");
            JsonNode lab = wanted.path("lab");
            return lab.size() != 3
                    ? null
                    : new Wanted(
                            new Lab(
                                    lab.get(0).asDouble(),
                                    lab.get(1).asDouble(),
                                    lab.get(2).asDouble()),
                            Length.parse(wanted.path("depth").asText()).mm(),
                            wanted.path("backing").asText());
        } catch (SaveFailedException | IllegalArgumentException e) {
            return null;
        }
    }

    /** Keeps the correction as a new revision of the recipe. */
    static void keep(LiveBook live, LiveTints tints, Pour pour, boolean adding, LocalDate today)
            throws SaveFailedException {
        Found found = find(live, tints, pour);
        if (found == null) {
            throw new SaveFailedException(
                    "There is nothing to correct here: a reading at the wanted depth is missing.");
        }
        List<Correction.Change> changes =
                adding ? found.correction().adding() : found.correction().changes();
        Map<String, String> percents = new LinkedHashMap<>();
        for (Correction.Change each : changes) {
            if (each.toPercent() > LEAST_PERCENT) {
                percents.put(each.pigmentId(), Figures.plain(each.toPercent(), 5) + " %");
            }
        }
        live.writer().change(Kind.RECIPE, pour.recipeId(), record -> {
            JsonNode revisions = record.path("revisions");
            String resin = revisions.path(revisions.size() - 1).path("resin").asText();
            RecipeRecords.revise(
                    record,
                    today,
                    resin,
                    Recipe.PercentOf.MIXED_RESIN,
                    percents,
                    "corrected from the reading of " + pour.id());
            return record;
        });
    }
}
