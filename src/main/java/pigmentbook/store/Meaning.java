package pigmentbook.store;

import java.time.LocalDate;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.function.Function;
import org.jspecify.annotations.Nullable;
import pigmentbook.quantity.Coverage;
import pigmentbook.quantity.Density;
import pigmentbook.quantity.Duration;
import pigmentbook.quantity.Length;
import pigmentbook.quantity.Mass;
import pigmentbook.quantity.Numbers;
import pigmentbook.quantity.Percent;
import pigmentbook.quantity.Temperature;

/** What a column of somebody's table may hold, and the plain words by which its head is known. */
@SuppressWarnings("ImmutableEnumChecker") // The functions keep nothing, and the lists are copies.
enum Meaning {
    ID("id", "", text -> text, "id"),
    RECIPE("recipe", "", text -> text, "recipe", "recipe name", "colour", "color", "colour name", "formula", "mix"),
    NAME("name", "", text -> text, "name"),
    RESIN("resin", "", text -> text, "resin", "epoxy", "resin name"),
    PIGMENT("pigment", "", text -> text, "pigment", "pigment name", "pigments", "colourant", "ingredient"),
    PERCENT("percent", "%", text -> Percent.parse(text).exactPercent(), "percent", "%", "loading", "share", "dose"),
    PHR(
            "percent of part A",
            "%",
            text -> Percent.parse(text).exactPercent(),
            "percent of part a",
            "% of part a",
            "phr"),
    GRAMS("grams", "g", text -> Mass.parse(text).grams(), "grams", "g", "gram", "pigment grams", "grams of pigment"),
    AMOUNT("amount", "", text -> text, "amount", "weight", "mass", "how much"),
    RESIN_GRAMS(
            "resin grams",
            "",
            text -> Mass.parse(text).grams(),
            "resin grams",
            "grams of resin",
            "resin weight",
            "resin mass",
            "weight of resin",
            "resin amount"),
    PERCENT_OF("percent of", "", text -> text, "percent of", "% of", "of what"),
    TAGS("tags", "", text -> text, "tags", "tag", "kinds", "look"),
    WHY("why", "", text -> text, "why", "reason"),
    DATE("date", "", Meaning::day, "date", "day", "made", "written"),
    KIND("kind", "", text -> text.toLowerCase(Locale.ROOT), "kind", "type", "form"),
    DENSITY("density", "", text -> Density.parse(text).gramsPerMl(), "density", "mixed density", "density mixed"),
    TOP_LOADING(
            "top loading",
            "%",
            text -> Percent.parse(text).exactPercent(),
            "top loading",
            "at most",
            "most",
            "highest loading"),
    DROP_MASS("drop mass", "", text -> Mass.parse(text).grams(), "drop mass", "drop weight", "one drop"),
    CARRIER("carrier", "", text -> text.toLowerCase(Locale.ROOT), "carrier", "carrier is"),
    CARRIER_SHARE(
            "carrier share", "%", text -> Percent.parse(text).exactPercent(), "carrier share", "share of carrier"),
    LOT("lot", "", text -> text, "lot", "lot id", "lot number", "container", "can"),
    PRODUCT("product", "", text -> text, "product", "of", "item", "material", "what"),
    PART("part", "", text -> text, "part", "component", "a or b"),
    CODE("code", "", text -> text, "code", "lot code", "supplier's lot", "label", "maker's lot"),
    RECEIVED("received", "", Meaning::day, "received", "came", "arrived", "bought", "delivered", "received on"),
    OPENED("opened", "", Meaning::day, "opened", "opened on"),
    EXPIRES("expires", "", Meaning::day, "expires", "good through", "use by", "expiry", "best before", "expires on"),
    QUANTITY("quantity", "", text -> Mass.parse(text).grams(), "quantity", "size", "received quantity", "net weight"),
    PRICE("price", "", Numbers::parse, "price", "cost", "paid"),
    CURRENCY("currency", "", text -> text, "currency"),
    STRENGTH("strength", "%", text -> Percent.parse(text).exactPercent(), "strength"),
    RATIO("ratio", "", text -> text, "ratio", "mix ratio", "mixing ratio"),
    RATIO_BY_WEIGHT("ratio by weight", "", text -> text, "ratio by weight", "mix ratio by weight", "parts by weight"),
    RATIO_BY_VOLUME("ratio by volume", "", text -> text, "ratio by volume", "mix ratio by volume", "parts by volume"),
    RATIO_BY("ratio by", "", text -> text.toLowerCase(Locale.ROOT), "ratio by", "ratio is by"),
    /** One side of a ratio: no column holds it alone. */
    RATIO_PART("ratio part", "", Numbers::parse),
    RATIO_LEAST("ratio at least", "", Meaning::quotient, "ratio at least", "least ratio", "a to b, at least"),
    RATIO_MOST("ratio at most", "", Meaning::quotient, "ratio at most", "highest ratio", "a to b, at most"),
    SECOND_RATIO("second ratio", "", text -> text, "second ratio", "other ratio", "ratio also"),
    DENSITY_A("density a", "", text -> Density.parse(text).gramsPerMl(), "density a", "density of part a"),
    DENSITY_B("density b", "", text -> Density.parse(text).gramsPerMl(), "density b", "density of part b"),
    LAYER_LEAST("layer at least", "", text -> Length.parse(text).mm(), "layer at least", "least layer"),
    LAYER_MOST(
            "layer at most",
            "",
            text -> Length.parse(text).mm(),
            "layer at most",
            "deepest layer",
            "most depth",
            "deepest pour"),
    BATCH_MOST("largest batch", "", text -> Mass.parse(text).grams(), "largest batch", "batch at most", "most batch"),
    WORKING_TIME("working time", "", Meaning::minutes, "working time", "pot life", "open time"),
    WORKING_TIME_AT("working time at", "", Meaning::celsius, "working time at"),
    WORKING_TIME_MASS("working time of", "", text -> Mass.parse(text).grams(), "working time of"),
    RECOAT_FROM("next layer from", "", Meaning::minutes, "next layer from", "recoat from", "next layer after"),
    RECOAT_TO("next layer until", "", Meaning::minutes, "next layer until", "recoat until", "recoat to"),
    DEMOLD("demold", "", Meaning::minutes, "demold", "demold after"),
    FULL_CURE("full cure", "", Meaning::minutes, "full cure", "full cure after", "cured after"),
    ROOM_LEAST("room at least", "", Meaning::celsius, "room at least", "coolest room", "temperature at least"),
    ROOM_MOST("room at most", "", Meaning::celsius, "room at most", "warmest room", "temperature at most"),
    HUMIDITY_MOST("humidity at most", "%", Meaning::percent, "humidity at most", "highest humidity"),
    SHRINKAGE("shrinkage", "%", Meaning::percent, "shrinkage", "shrinks by"),
    SOAK("soak", "", text -> Coverage.parse(text).gramsPerM2(), "soak", "bare wood takes"),
    NOTES("notes", "", text -> text, "notes", "note", "remarks", "remark", "comments", "comment"),
    /** It is passed over. */
    NOT_USED("-", "", text -> text);

    private final String word;
    private final String unit;
    private final Function<String, Object> value;
    private final List<String> heads;

    Meaning(String word, String unit, Function<String, Object> value, String... heads) {
        this.word = word;
        this.unit = unit;
        this.value = value;
        this.heads = List.of(heads);
    }

    /** Returns the word that stands for it. */
    String word() {
        return word;
    }

    /** Returns the unit of a bare number in such a column; empty where it has to be written. */
    String unit() {
        return unit;
    }

    /**
     * Returns what a text means, so that {@code 1.2 %} and {@code 1.20 %} are the same.
     *
     * @throws IllegalArgumentException if it means nothing here
     */
    Object value(String text) {
        return value.apply(text);
    }

    static @Nullable Meaning ofHead(String folded) {
        for (Meaning each : values()) {
            if (each.heads.contains(folded)) {
                return each;
            }
        }
        return null;
    }

    /** Returns what a person may say of a column. */
    static List<Meaning> ofColumns() {
        return Arrays.stream(values()).filter(each -> each != RATIO_PART).toList();
    }

    static @Nullable Meaning ofWord(String word) {
        for (Meaning each : ofColumns()) {
            if (each.word.equalsIgnoreCase(word.strip())) {
                return each;
            }
        }
        return null;
    }

    static String words() {
        StringBuilder words = new StringBuilder();
        for (Meaning each : ofColumns()) {
            if (each != NOT_USED) {
                words.append(words.length() == 0 ? "" : ", ").append(each.word);
            }
        }
        return words + ", or - for none";
    }

    private static Double minutes(String text) {
        return Duration.parse(text).minutes();
    }

    private static Double celsius(String text) {
        return Temperature.parse(text).celsius();
    }

    private static Object percent(String text) {
        return Percent.parse(text).exactPercent();
    }

    /** A quotient such as 1.94; a third is written with so many digits as there are, so the last ones don't count. */
    private static Double quotient(String text) {
        return Math.rint(Numbers.nearest(Numbers.parse(text)) * 1e9) / 1e9;
    }

    private static LocalDate day(String text) {
        return Days.parse(text);
    }
}
