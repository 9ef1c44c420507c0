package pigmentbook.store;

import com.fasterxml.jackson.databind.JsonNode;
import java.time.DateTimeException;
import java.time.LocalDate;
import java.time.LocalDateTime;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.function.Function;
import org.jspecify.annotations.Nullable;
import pigmentbook.colour.Lab;
import pigmentbook.mold.Shape;
import pigmentbook.quantity.Length;

/** The fields of one JSON object, each taken with what is expected of it. */
final class Fields {

    private static final int MOST_NAME = 200;
    private static final Seen<LocalDate> DAYS = new Seen<>(LocalDate::parse);
    private static final Seen<LocalDateTime> MOMENTS =
            new Seen<>(text -> text.length() == 10 ? LocalDate.parse(text).atStartOfDay() : LocalDateTime.parse(text));
    private final JsonNode node;
    private final @Nullable Fields within;
    private final String name;
    private final int index;

    /** The fields of a whole record. */
    Fields(JsonNode node) {
        this(node, null, "", -1);
    }

    private Fields(JsonNode node, @Nullable Fields within, String name, int index) {
        this.node = node;
        this.within = within;
        this.name = name;
        this.index = index;
    }

    /** Returns the way to this object: worked out only where a problem is to be told. */
    String path() {
        return within == null ? "" : within.path() + "/" + name + (index < 0 ? "" : "/" + index);
    }

    private RefusedException refused(String name, String code, String message) {
        return new RefusedException(path() + "/" + name, code, message);
    }

    private @Nullable JsonNode there(String name) {
        JsonNode value = node.get(name);
        return value == null || value.isNull() ? null : value;
    }

    boolean has(String name) {
        return there(name) != null;
    }

    /** Returns how a value looks to the person who wrote it, cut where it is long. */
    private static String quoted(JsonNode value) {
        String text = value.isTextual()
                ? "\"" + value.textValue() + "\""
                : value.isObject() ? "{…}" : value.isArray() ? "[…]" : value.asText();
        return Records.shown(text);
    }

    /** Returns a text, or null where there is none. */
    @Nullable
    String text(String name) throws RefusedException {
        JsonNode value = there(name);
        if (value == null) {
            return null;
        }
        if (!value.isTextual()) {
            throw refused(
                    name,
                    "wrong-type",
                    name + " is " + quoted(value) + "; a text in quotes was expected, such as \""
                            + (value.isNumber() ? value.asText() : "…") + "\".");
        }
        return value.textValue();
    }

    /** Returns a true or false, or null where there is none. */
    @Nullable
    Boolean yesOrNo(String name) throws RefusedException {
        JsonNode value = there(name);
        if (value == null) {
            return null;
        }
        if (!value.isBoolean()) {
            throw refused(
                    name, "wrong-type", name + " is " + quoted(value) + "; true or false without quotes was expected.");
        }
        return value.booleanValue();
    }

    String textOrEmpty(String name) throws RefusedException {
        String text = text(name);
        return text == null ? "" : text;
    }

    String needText(String name) throws RefusedException {
        String text = text(name);
        if (text == null) {
            throw missing(name);
        }
        return text;
    }

    private RefusedException missing(String name) {
        return RefusedException.missing(path(), name);
    }

    /** Returns a name to show: one line, without marks that turn the direction of the text. */
    String name(String name, String otherwise) throws RefusedException {
        String text = text(name);
        if (text == null || text.isBlank()) {
            return otherwise;
        }
        if (text.length() > MOST_NAME) {
            throw refused(
                    name,
                    "bad-name",
                    name + " has " + text.length() + " characters; at most " + MOST_NAME + " were expected.");
        }
        for (int i = 0; i < text.length(); i++) {
            char each = text.charAt(i);
            if (Character.isISOControl(each) || isDirectionMark(each)) {
                throw refused(
                        name,
                        "bad-name",
                        name + " holds an invisible character at place " + (i + 1)
                                + "; a plain name on one line was expected. Type it anew.");
            }
        }
        return text;
    }

    private static boolean isDirectionMark(char each) {
        return each == '\u200e'
                || each == '\u200f'
                || (each >= '\u202a' && each <= '\u202e')
                || (each >= '\u2066' && each <= '\u2069');
    }

    /** Returns what a text means, or null where there is none. */
    <T> @Nullable T amount(String name, Function<String, T> parse) throws RefusedException {
        JsonNode value = there(name);
        if (value == null) {
            return null;
        }
        if (!value.isTextual()) {
            throw refused(
                    name,
                    "wrong-type",
                    name + " is " + quoted(value) + "; an amount with its unit in quotes was expected.");
        }
        return parsed(name, value.textValue(), parse);
    }

    private <T> T parsed(String name, String text, Function<String, T> parse) throws RefusedException {
        try {
            return parse.apply(text);
        } catch (IllegalArgumentException e) {
            throw refused(name, "bad-amount", name + ": " + e.getMessage());
        }
    }

    <T> T needAmount(String name, Function<String, T> parse) throws RefusedException {
        T amount = amount(name, parse);
        if (amount == null) {
            throw missing(name);
        }
        return amount;
    }

    /** Makes something of this object, turning what the maker refuses into a problem here. */
    <T> T made(Maker<T> maker) throws RefusedException {
        try {
            return maker.make();
        } catch (IllegalArgumentException e) {
            throw new RefusedException(path(), "bad-value", e.getMessage() == null ? "This can't be." : e.getMessage());
        }
    }

    /** Makes something. */
    interface Maker<T> {
        T make() throws RefusedException;
    }

    @Nullable
    Fields child(String name) throws RefusedException {
        JsonNode value = there(name);
        if (value == null) {
            return null;
        }
        if (!value.isObject()) {
            throw refused(name, "wrong-type", name + " is " + quoted(value) + "; { … } was expected.");
        }
        return new Fields(value, this, name, -1);
    }

    Fields needChild(String name) throws RefusedException {
        Fields child = child(name);
        if (child == null) {
            throw missing(name);
        }
        return child;
    }

    /** Returns the objects of a list; none where there is no list. */
    List<Fields> children(String name) throws RefusedException {
        JsonNode list = list(name);
        if (list == null) {
            return List.of();
        }
        List<Fields> children = new ArrayList<>(list.size());
        for (int i = 0; i < list.size(); i++) {
            if (!list.get(i).isObject()) {
                throw refused(
                        name + "/" + i, "wrong-type", name + " holds " + quoted(list.get(i)) + "; { … } was expected.");
            }
            children.add(new Fields(list.get(i), this, name, i));
        }
        return children;
    }

    private @Nullable JsonNode list(String name) throws RefusedException {
        JsonNode value = there(name);
        if (value == null) {
            return null;
        }
        if (!value.isArray()) {
            throw refused(name, "wrong-type", name + " is " + quoted(value) + "; a list [ … ] was expected.");
        }
        return value;
    }

    /** Returns what the texts of a list mean; none where there is no list. */
    <T> List<T> amounts(String name, Function<String, T> parse) throws RefusedException {
        JsonNode list = list(name);
        if (list == null) {
            return List.of();
        }
        List<T> amounts = new ArrayList<>(list.size());
        for (int i = 0; i < list.size(); i++) {
            if (!list.get(i).isTextual()) {
                throw refused(
                        name + "/" + i,
                        "wrong-type",
                        name + " holds " + quoted(list.get(i)) + "; a text in quotes was expected.");
            }
            amounts.add(parsed(name + "/" + i, list.get(i).textValue(), parse));
        }
        return amounts;
    }

    /** Returns the corners of an outline: a list of pairs of lengths. */
    List<Shape.Point> points(String name) throws RefusedException {
        JsonNode list = list(name);
        return list == null ? List.of() : points(name, list);
    }

    /** Returns the outlines of a list of outlines; none where there is no list. */
    List<List<Shape.Point>> outlines(String name) throws RefusedException {
        JsonNode list = list(name);
        if (list == null) {
            return List.of();
        }
        List<List<Shape.Point>> outlines = new ArrayList<>(list.size());
        for (int i = 0; i < list.size(); i++) {
            if (!list.get(i).isArray()) {
                throw refused(
                        name + "/" + i,
                        "wrong-type",
                        "An outline is " + quoted(list.get(i))
                                + "; a list of corners [[\"0 mm\", \"0 mm\"], …] was expected.");
            }
            outlines.add(points(name + "/" + i, list.get(i)));
        }
        return outlines;
    }

    private List<Shape.Point> points(String name, JsonNode list) throws RefusedException {
        List<Shape.Point> points = new ArrayList<>(list.size());
        for (int i = 0; i < list.size(); i++) {
            JsonNode pair = list.get(i);
            String here = name + "/" + i;
            if (!pair.isArray()
                    || pair.size() != 2
                    || !pair.path(0).isTextual()
                    || !pair.path(1).isTextual()) {
                throw refused(
                        here,
                        "wrong-type",
                        "A corner is " + quoted(pair) + "; two lengths [\"0 mm\", \"0 mm\"] were expected.");
            }
            points.add(new Shape.Point(
                    parsed(here + "/0", pair.get(0).textValue(), Length::parseCoordinate),
                    parsed(here + "/1", pair.get(1).textValue(), Length::parseCoordinate)));
        }
        return points;
    }

    @Nullable
    Integer integer(String name) throws RefusedException {
        JsonNode value = there(name);
        if (value == null) {
            return null;
        }
        if (!value.isInt()) {
            throw refused(
                    name,
                    "wrong-type",
                    name + " is " + quoted(value) + "; a whole number without quotes was expected.");
        }
        return value.intValue();
    }

    int needInteger(String name) throws RefusedException {
        Integer integer = integer(name);
        if (integer == null) {
            throw missing(name);
        }
        return integer;
    }

    @Nullable
    LocalDate date(String name) throws RefusedException {
        String text = text(name);
        if (text == null || text.isEmpty()) {
            return null;
        }
        try {
            return DAYS.apply(text);
        } catch (DateTimeException e) {
            throw refused(
                    name,
                    "bad-date",
                    name + " is \"" + Records.shown(text) + "\"; a day such as \"2026-03-31\" was expected.");
        }
    }

    @Nullable
    LocalDateTime moment(String name) throws RefusedException {
        String text = text(name);
        if (text == null || text.isEmpty()) {
            return null;
        }
        try {
            return MOMENTS.apply(text);
        } catch (DateTimeException e) {
            throw refused(
                    name,
                    "bad-date",
                    name + " is \"" + Records.shown(text)
                            + "\"; a day and time such as \"2026-03-31T10:15\" was expected.");
        }
    }

    /** Returns one of a few words, without regard to case; {@code otherwise} where there is none. */
    <E extends Enum<E>> E word(String name, Class<E> words, @Nullable E otherwise) throws RefusedException {
        String text = text(name);
        if (text == null) {
            if (otherwise == null) {
                throw missing(name);
            }
            return otherwise;
        }
        for (E each : words.getEnumConstants()) {
            if (spelled(each).equalsIgnoreCase(text)) {
                return each;
            }
        }
        StringBuilder all = new StringBuilder();
        for (E each : words.getEnumConstants()) {
            all.append(all.length() == 0 ? "" : ", ").append(spelled(each));
        }
        throw refused(
                name, "unknown-word", name + " is \"" + Records.shown(text) + "\"; one of " + all + " was expected.");
    }

    private static String spelled(Enum<?> word) {
        return word.name().toLowerCase(Locale.ROOT).replace('_', ' ');
    }

    @Nullable
    Lab lab(String name) throws RefusedException {
        JsonNode list = list(name);
        if (list == null) {
            return null;
        }
        boolean numbers = list.size() == 3;
        for (JsonNode each : list) {
            numbers &= each.isNumber();
        }
        if (!numbers) {
            throw refused(
                    name,
                    "wrong-type",
                    name + " is no colour; three numbers [L, a, b] were expected, such as [41.2, 22.8, 36.1].");
        }
        try {
            return new Lab(
                    list.get(0).doubleValue(),
                    list.get(1).doubleValue(),
                    list.get(2).doubleValue());
        } catch (IllegalArgumentException e) {
            throw refused(name, "bad-value", name + ": " + e.getMessage());
        }
    }

    boolean isText(String name) {
        JsonNode value = there(name);
        return value != null && value.isTextual();
    }
}
