package pigmentbook.web;

import io.javalin.http.Context;
import java.time.LocalDate;
import java.util.List;
import java.util.Map;
import java.util.function.Function;
import org.jspecify.annotations.Nullable;
import pigmentbook.book.Book;
import pigmentbook.book.Item;
import pigmentbook.mix.MixRefusedException;
import pigmentbook.mix.MixRequest;
import pigmentbook.quantity.BadAmountException;
import pigmentbook.quantity.Length;
import pigmentbook.quantity.Mass;
import pigmentbook.quantity.Percent;
import pigmentbook.quantity.Temperature;
import pigmentbook.quantity.Volume;

/**
 * What the form of a mix says, as it was typed.
 *
 * @param lead which figure leads: {@code mold}, {@code volume}, {@code total}, {@code shelf}, {@code resin} or an
 *     item's id
 * @param amount the amount that leads, for the resin or an item
 */
record MixForm(
        String lead,
        String mold,
        String fill,
        String volume,
        String total,
        String amount,
        String layers,
        String allowance,
        String cup,
        String room) {

    private static final int MOST_TEXT = 100;

    /** A field of the page: what messages call it, and its id. */
    private enum Field {
        FILL("Fill", "s-fill"),
        ALLOWANCE("Allowance", "s-al"),
        CUP("Cup", "s-cup"),
        TEMPERATURE("Temperature", "s-room"),
        ROOM("Room", "f-v"),
        TOTAL("Total", "f-t"),
        LAYERS("Layers", "f-l");

        private final String name;
        private final String id;

        Field(String name, String id) {
            this.name = name;
            this.id = id;
        }
    }

    /** Thrown where a field can't be read; it is named. */
    static final class BadFieldException extends BadAmountException {
        private static final long serialVersionUID = 1L;
        private final String field;

        private BadFieldException(String name, String field, BadAmountException e) {
            super(name + ": " + e.getMessage(), e.isAmbiguous());
            this.field = field;
        }

        /** Returns the field's id on the page; empty for a cell of the sheet of all cups. */
        String field() {
            return field;
        }
    }

    static MixForm of(Context context, Book book, String usualMold) {
        // Where another figure leads no mold is chosen; the last one stays known, for the way back.
        String chosen = text(context, "mold", "");
        String mold = chosen.isEmpty() ? text(context, "last", usualMold) : chosen;
        String lead = lead(context, mold);
        boolean item = !List.of("mold", "volume", "total", "shelf").contains(lead);
        if (item && context.queryParam("size-" + lead) == null) {
            throw new NotThereException(
                    "A mix is led by its mold, its volume, its total, an item’s amount or the shelf.");
        }
        return new MixForm(
                lead,
                mold,
                text(context, "fill", ""),
                text(context, "volume", ""),
                text(context, "total", lead.equals("total") ? "500 g" : ""),
                item ? text(context, "size-" + lead, "") : "",
                text(context, "layers", ""),
                text(context, "allowance", book.settings().allowance().written()),
                text(
                        context,
                        "cup",
                        book.settings().cup() == null
                                ? ""
                                : book.settings().cup().written()),
                text(context, "room", book.settings().roomTemperature().written()));
    }

    /** Returns which figure leads; one that was emptied leads no longer where there is a mold to lead instead. */
    private static String lead(Context context, String mold) {
        String lead = text(context, "lead", mold.isEmpty() ? "total" : "mold");
        String field = List.of("volume", "total").contains(lead) ? lead : "size-" + lead;
        String typed = context.queryParam(field);
        return typed != null && typed.isBlank() && !mold.isEmpty() ? "mold" : lead;
    }

    private static String text(Context context, String name, String usual) {
        return Acts.asked(context, name, usual, MOST_TEXT);
    }

    /**
     * Returns the request.
     *
     * @throws BadFieldException if a field can't be read; it is named
     */
    MixRequest request(LocalDate on) {
        return new MixRequest(
                size(),
                count(),
                List.of(),
                typed(Field.ALLOWANCE, allowance, Percent::parse),
                typed(Field.CUP, cup, Mass::parse),
                null,
                null,
                null,
                typed(Field.TEMPERATURE, room, Temperature::parse),
                null,
                List.of(),
                on);
    }

    private MixRequest.Size size() {
        return switch (lead) {
            case "volume" -> new MixRequest.ForVolume(need(Field.ROOM, Formula.withUnit(volume, "mL"), Volume::parse));
            case "total" -> new MixRequest.ForTotal(need(Field.TOTAL, Formula.withUnit(total, "g"), Mass::parse));
            case "shelf" -> new MixRequest.ForShelf();
            case "resin" -> new MixRequest.ForResin(amount("Mixed resin"));
            case "mold" -> {
                if (mold.isEmpty()) {
                    throw new MixRefusedException("No mold is chosen. Choose one, or type a total.");
                }
                yield new MixRequest.ForMold(mold, typed(Field.FILL, fill, Length::parse));
            }
            default -> new MixRequest.ForItem(Item.of(lead), amount(lead));
        };
    }

    private @Nullable Integer count() {
        if (layers.isEmpty()) {
            return null;
        }
        try {
            return Integer.valueOf(layers);
        } catch (NumberFormatException e) {
            throw bad(
                    Field.LAYERS,
                    new BadAmountException(
                            "\"" + layers + "\" is no whole number; leave it empty for as few as the resin allows."));
        }
    }

    private Mass amount(String name) {
        try {
            return Mass.parse(Formula.withUnit(amount, "g"));
        } catch (BadAmountException e) {
            throw new BadFieldException(name, "", e);
        }
    }

    private static <T> @Nullable T typed(Field field, String text, Function<String, T> parse) {
        return text.isEmpty() ? null : need(field, text, parse);
    }

    private static <T> T need(Field field, String text, Function<String, T> parse) {
        try {
            return parse.apply(text);
        } catch (BadAmountException e) {
            throw bad(field, e);
        }
    }

    private static BadFieldException bad(Field field, BadAmountException e) {
        return new BadFieldException(field.name, field.id, e);
    }

    /** Returns the id of the field on the page that leads; empty where it is none of the form's own. */
    String leadingField() {
        return switch (lead) {
            case "mold" -> fill.isEmpty() ? "s-mold" : "s-fill";
            case "volume" -> "f-v";
            case "total" -> "f-t";
            default -> "";
        };
    }

    /** Returns the fields by name, to fill the page. */
    Map<String, Object> values() {
        return Map.of(
                "lead",
                lead,
                "leadsMold",
                lead.equals("mold"),
                "mold",
                mold,
                "fill",
                fill,
                "layers",
                layers,
                "allowance",
                allowance,
                "cup",
                cup,
                "room",
                room);
    }
}
