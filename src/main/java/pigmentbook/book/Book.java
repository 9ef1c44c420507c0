package pigmentbook.book;

import java.util.ArrayList;
import java.util.BitSet;
import java.util.Collections;
import java.util.Comparator;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import java.util.function.Function;
import org.jspecify.annotations.Nullable;
import pigmentbook.quantity.Density;

/** The indexed whole: every record by its id, and what can be derived from the pours. Immutable. */
public final class Book {

    private final Settings settings;
    private final Map<String, Resin> resins;
    private final Map<String, Pigment> pigments;
    private final Map<String, Lot> lots;
    private final Map<String, Mold> molds;
    private final Map<String, Recipe> recipes;
    private final Map<String, Pour> pours;
    private final Map<String, List<Pour>> poursByRecipe = new LinkedHashMap<>();
    private final Map<Item, List<Lot>> pigmentLots = new LinkedHashMap<>();
    private final Map<String, List<Lot>> resinLots = new LinkedHashMap<>();
    private final Map<String, LotUse> uses = new LinkedHashMap<>();
    /** The lots that hold some of a lot, by its id. */
    private final Map<String, List<String>> holders = new HashMap<>();

    private final List<String> poured;

    /** Makes a book of its records; later records of the same id win. */
    public Book(
            Settings settings,
            List<Resin> resins,
            List<Pigment> pigments,
            List<Lot> lots,
            List<Mold> molds,
            List<Recipe> recipes,
            List<Pour> pours) {
        this.settings = settings;
        this.resins = byId(resins, Resin::id);
        this.pigments = byId(pigments, Pigment::id);
        this.lots = byId(lots, Lot::id);
        this.molds = byId(molds, Mold::id);
        this.recipes = byId(recipes, Recipe::id);
        this.pours = byId(pours, Pour::id);
        for (Lot lot : this.lots.values()) {
            for (Lot.Share share : lot.shares()) {
                holders.computeIfAbsent(share.lotId(), id -> new ArrayList<>()).add(lot.id());
            }
            if (lot.part() == null) {
                pigmentLots
                        .computeIfAbsent(Item.of(lot.of()), item -> new ArrayList<>())
                        .add(lot);
            } else {
                resinLots
                        .computeIfAbsent(lot.of() + "/" + lot.part(), key -> new ArrayList<>())
                        .add(lot);
            }
        }
        for (Pour pour : this.pours.values()) {
            poursByRecipe
                    .computeIfAbsent(pour.recipeId(), id -> new ArrayList<>())
                    .add(pour);
        }
        poured = poursByRecipe.keySet().stream().sorted().toList();
        Map<String, Integer> places = new HashMap<>(poured.size() * 2);
        poured.forEach(recipe -> places.put(recipe, places.size()));
        for (Pour pour : this.pours.values()) {
            int place = places.getOrDefault(pour.recipeId(), 0);
            for (Pour.Layer layer : pour.layers()) {
                for (Pour.Cup cup : layer.cups()) {
                    cup.weighed().forEach(weighed -> use(pour, place, weighed));
                }
            }
            pour.thrown().forEach(weighed -> use(pour, place, weighed));
        }
    }

    private void use(Pour pour, int recipe, Pour.Weighed weighed) {
        String lot = weighed.lot();
        if (lot != null && lots.containsKey(lot)) {
            uses.computeIfAbsent(lot, id -> new LotUse()).add(pour, recipe, weighed.grams());
        }
    }

    private static <T> Map<String, T> byId(List<T> records, Function<T, String> id) {
        List<T> sorted = new ArrayList<>(records);
        sorted.sort(Comparator.comparing(id));
        Map<String, T> map = new LinkedHashMap<>(sorted.size() * 2);
        for (T each : sorted) {
            map.put(id.apply(each), each);
        }
        return Collections.unmodifiableMap(map);
    }

    /** Returns what the whole book agrees on. */
    public Settings settings() {
        return settings;
    }

    /** Returns the resins by id. */
    public Map<String, Resin> resins() {
        return resins;
    }

    /** Returns the pigments by id. */
    public Map<String, Pigment> pigments() {
        return pigments;
    }

    /** Returns the lots by id. */
    public Map<String, Lot> lots() {
        return lots;
    }

    /** Returns the molds by id. */
    public Map<String, Mold> molds() {
        return molds;
    }

    /** Returns the recipes by id. */
    public Map<String, Recipe> recipes() {
        return recipes;
    }

    /** Returns the pours by id. */
    public Map<String, Pour> pours() {
        return pours;
    }

    /** Returns the pours of a recipe, by id. */
    public List<Pour> poursOf(String recipeId) {
        return Collections.unmodifiableList(poursByRecipe.getOrDefault(recipeId, List.of()));
    }

    /** Returns the pours of a recipe that are more than begun, by id. */
    public List<Pour> madeOf(String recipeId) {
        return poursOf(recipeId).stream().filter(pour -> !pour.isBlank()).toList();
    }

    /** Returns the pour that was read back from a mix sheet, or null; it looks through all pours. */
    public @Nullable Pour pourOfSheet(String sheetId) {
        return pours.values().stream()
                .filter(pour -> sheetId.equals(pour.sheetId()))
                .findFirst()
                .orElse(null);
    }

    /** Returns the lots of a resin's part or of a pigment, by id. */
    public List<Lot> lotsOf(String resinId, Item item) {
        List<Lot> found = item.isPigment()
                ? pigmentLots.get(item)
                : resinLots.get(resinId + "/" + (item.equals(Item.PART_A) ? Lot.Part.A : Lot.Part.B));
        return found == null ? List.of() : Collections.unmodifiableList(found);
    }

    /** Returns the density that a product states, for an item of a resin; null where it states none. */
    public @Nullable Density productDensity(String resinId, Item item) {
        if (item.isPigment()) {
            Pigment pigment = pigments.get(item.id());
            return pigment == null ? null : pigment.density();
        }
        Resin resin = resins.get(resinId);
        return resin == null ? null : item.equals(Item.PART_A) ? resin.densityA() : resin.densityB();
    }

    /** Returns what should be left of a lot, in g: received − poured + corrected. It may be below zero. */
    public double leftGrams(Lot lot) {
        return lot.quantity().grams() - pouredGrams(lot) + correctedGrams(lot);
    }

    /** Returns how a lot's stock comes about. */
    public Stock stockOf(Lot lot) {
        LotUse use = uses.get(lot.id());
        return new Stock(
                lot,
                leftGrams(lot),
                lot.quantity().grams(),
                pouredGrams(lot),
                correctedGrams(lot),
                use == null ? List.of() : Collections.unmodifiableList(use.pourIds));
    }

    private double pouredGrams(Lot lot) {
        LotUse use = uses.get(lot.id());
        return use == null ? 0 : use.grams;
    }

    private static double correctedGrams(Lot lot) {
        double corrected = 0;
        for (Lot.Correction correction : lot.corrections()) {
            corrected += correction.change().grams();
        }
        return corrected;
    }

    /** Returns where a lot went, by itself and as a share of lots put together. */
    public Whereabouts whereUsed(Lot lot) {
        Set<String> holding = new LinkedHashSet<>();
        follow(lot.id(), holding);
        List<LotUse> used =
                holding.stream().map(uses::get).filter(Objects::nonNull).toList();
        holding.remove(lot.id());
        BitSet recipes = new BitSet();
        used.forEach(use -> recipes.or(use.recipes));
        return new Whereabouts(
                used.size() == 1
                        ? Collections.unmodifiableList(used.get(0).pourIds)
                        : used.stream()
                                .flatMap(use -> use.pourIds.stream())
                                .distinct()
                                .sorted()
                                .toList(),
                recipes.stream().mapToObj(poured::get).toList(),
                List.copyOf(holding));
    }

    private void follow(String lotId, Set<String> holding) {
        if (holding.add(lotId)) {
            holders.getOrDefault(lotId, List.of()).forEach(holder -> follow(holder, holding));
        }
    }

    /**
     * Where a lot went.
     *
     * @param pourIds the pours that took from it, or from a lot that holds some of it, in order
     * @param recipeIds those pours' recipes, in order
     * @param lotIds the lots it was put into
     */
    public record Whereabouts(List<String> pourIds, List<String> recipeIds, List<String> lotIds) {}

    /**
     * How a lot's stock comes about, in g: left = received − poured + corrected.
     *
     * @param lot the lot
     * @param leftGrams what should be left
     * @param receivedGrams what came
     * @param pouredGrams what pours took
     * @param correctedGrams what corrections changed
     * @param pourIds the pours that took from it
     */
    public record Stock(
            Lot lot,
            double leftGrams,
            double receivedGrams,
            double pouredGrams,
            double correctedGrams,
            List<String> pourIds) {}

    private static final class LotUse {
        private double grams;
        private final List<String> pourIds = new ArrayList<>();
        /** Places in the sorted list of recipes, so that they never need sorting again. */
        private final BitSet recipes = new BitSet();

        private void add(Pour pour, int recipe, double more) {
            grams += more;
            // Pours come in the order of their ids, so one that took twice follows itself.
            if (pourIds.isEmpty() || !pourIds.get(pourIds.size() - 1).equals(pour.id())) {
                pourIds.add(pour.id());
                recipes.set(recipe);
            }
        }
    }
}
