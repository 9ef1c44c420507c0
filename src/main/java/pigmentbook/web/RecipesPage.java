package pigmentbook.web;

import io.javalin.config.JavalinConfig;
import io.javalin.http.Context;
import java.net.URLEncoder;
import java.nio.charset.StandardCharsets;
import java.time.Clock;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import pigmentbook.book.Book;
import pigmentbook.colour.ColourText;
import pigmentbook.colour.Lab;
import pigmentbook.colour.Srgb;
import pigmentbook.quantity.BadAmountException;
import pigmentbook.store.Opened;
import pigmentbook.web.ColourCards.Card;

/** The colours of the book: found by word, tag, what is on the shelf, or nearness to another colour. */
public final class RecipesPage {

    /** How many colours are drawn at first, and how many more each time. */
    private static final int AT_ONCE = 120;

    private static final int MOST_TEXT = 200;

    private RecipesPage() {}

    /** A tag and how many recipes carry it. */
    public record Tag(String name, int count, boolean chosen) {}

    /** An order to list in. */
    public record Sort(String name, boolean chosen) {}

    /** A resin that a new recipe may take. */
    public record ResinChoice(String id, String name) {}

    /** What is asked of the list. */
    private record Asked(
            String find, List<String> tags, boolean canMake, String near, String sort, int show, String query) {

        static Asked of(Context context) {
            String show = text(context, "show");
            return new Asked(
                    text(context, "find"),
                    context.queryParams("tag"),
                    context.queryParam("canmake") != null,
                    text(context, "near"),
                    text(context, "sort"),
                    show.matches("\\d{1,6}") ? Math.max(AT_ONCE, Integer.parseInt(show)) : AT_ONCE,
                    context.queryString() == null ? "" : context.queryString());
        }
    }

    /** The cards of the book as it is now, kept until it changes. */
    private static final class Kept {
        private @Nullable ColourCards cards;

        synchronized ColourCards of(Book book, LocalDate today) {
            if (cards == null || !cards.isOf(book, today)) {
                cards = ColourCards.of(book, today);
            }
            return cards;
        }
    }

    static void addTo(JavalinConfig config, LiveBook book, LiveTints tints, Clock clock) {
        Kept kept = new Kept();
        UnreadLooks unread = new UnreadLooks(tints);
        config.routes.get("/recipes", context -> {
            Opened opened = book.now();
            Pages.show(
                    context,
                    "recipes.jte",
                    values(opened, kept.of(opened.book(), LocalDate.now(clock)), unread, Asked.of(context)));
        });
        // With thousands of recipes the cards take a second to make, so they are begun before the first visitor asks.
        book.whenOpened(opened -> kept.of(opened.book(), LocalDate.now(clock)));
    }

    private static Map<String, Object> values(Opened opened, ColourCards all, UnreadLooks unread, Asked asked) {
        Book book = opened.book();
        Lab near = null;
        String wrong = "";
        try {
            near = asked.near().isEmpty() ? null : ColourText.parse(asked.near());
        } catch (BadAmountException e) {
            wrong = String.valueOf(e.getMessage());
        }
        List<Card> found = all.found(asked.find(), asked.tags(), asked.canMake(), near, asked.sort());
        Map<String, Object> values = new HashMap<>();
        List<Card> cards = found.subList(0, Math.min(asked.show(), found.size()));
        values.put("cards", cards);
        values.put("workedOut", unread.of(book, cards));
        values.put("found", found.size());
        values.put("all", all.inSight());
        values.put("more", found.size() > asked.show() ? asked.show() + AT_ONCE : 0);
        values.put("tags", tags(all, asked.tags()));
        values.put("find", asked.find());
        values.put("canMake", asked.canMake());
        values.put("sorts", sorts(asked.sort(), near != null));
        values.put(
                "resins",
                book.resins().values().stream()
                        .map(resin -> new ResinChoice(resin.id(), resin.name()))
                        .toList());
        values.put("makeable", all.makeable());
        values.put("near", asked.near());
        values.put("match", near == null ? "" : URLEncoder.encode(asked.near(), StandardCharsets.UTF_8));
        values.put("wrong", wrong);
        values.put("pick", near == null ? "#a8541c" : Srgb.hex(near));
        values.put("problems", opened.problems().size());
        values.put("demo", book.settings().name().contains("made up"));
        values.put("query", asked.query());
        return values;
    }

    private static String text(Context context, String name) {
        return Acts.asked(context, name, "", MOST_TEXT);
    }

    private static List<Tag> tags(ColourCards all, List<String> chosen) {
        return all.tags().entrySet().stream()
                .map(e -> new Tag(e.getKey(), e.getValue(), chosen.contains(e.getKey())))
                .toList();
    }

    private static List<Sort> sorts(String chosen, boolean near) {
        List<String> names = new ArrayList<>(List.of("last made", "name", "how it came out", "light to dark"));
        if (near) {
            names.add(0, "nearest first");
        }
        return names.stream().map(name -> new Sort(name, name.equals(chosen))).toList();
    }
}
