package pigmentbook.store;

import java.time.LocalDate;
import java.util.List;
import java.util.Locale;
import java.util.function.Function;
import org.jspecify.annotations.Nullable;
import pigmentbook.quantity.Density;
import pigmentbook.quantity.Mass;
import pigmentbook.quantity.Numbers;
import pigmentbook.quantity.Percent;

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
    DENSITY("density", "", text -> Density.parse(text).gramsPerMl(), "density"),
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

    static @Nullable Meaning ofWord(String word) {
        for (Meaning each : values()) {
            if (each.word.equalsIgnoreCase(word.strip())) {
                return each;
            }
        }
        return null;
    }

    static String words() {
        StringBuilder words = new StringBuilder();
        for (Meaning each : values()) {
            if (each != NOT_USED) {
                words.append(words.length() == 0 ? "" : ", ").append(each.word);
            }
        }
        return words + ", or - for none";
    }

    private static LocalDate day(String text) {
        return Days.parse(text);
    }
}
