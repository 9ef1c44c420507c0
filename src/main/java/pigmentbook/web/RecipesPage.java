package pigmentbook.web;

import io.javalin.config.JavalinConfig;
import io.javalin.http.Context;
import java.time.Clock;
import java.time.LocalDate;
import java.time.format.DateTimeFormatter;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.TreeMap;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;
import pigmentbook.book.Book;
import pigmentbook.book.Item;
import pigmentbook.book.Lot;
import pigmentbook.book.Pour;
import pigmentbook.book.Recipe;
import pigmentbook.book.Resin;
import pigmentbook.colour.Ciede2000;
import pigmentbook.colour.Lab;
import pigmentbook.colour.Srgb;
import pigmentbook.quantity.BadAmountException;
import pigmentbook.store.Opened;

/** The colours of the book: found by word, tag, or nearness to another colour. */
public final class RecipesPage {

    private static final DateTimeFormatter DAY = DateTimeFormatter.ofPattern("d MMM yyyy", Locale.ENGLISH);
    private static final Pattern HEX = Pattern.compile("#?([0-9a-fA-F]{6})");

    private RecipesPage() {}

    /** One colour of the list, ready to be drawn. */
    public record Card(
            String id,
            String name,
            String words,
            String tags,
            String white,
            String black,
            boolean read,
            double lightness,
            String made,
            String madeIso,
            int rating,
            List<String> lacks,
            @Nullable Double near) {

        /** Returns what the colour's drawing shows, in words. */
        public String label() {
            return !read
                    ? name + ", not read yet"
                    : black.isEmpty() ? name + " as read" : name + " as read, and over black";
        }

        /** Returns whether it is kept out of sight. */
        public boolean away() {
            return List.of(tags.split(", ", -1)).contains(RecipeActs.PUT_AWAY);
        }

        /** Returns how far it is from the colour that was asked for. */
        public String nearText() {
            return near == null ? "" : "ΔE00 " + Figures.plain(near, 1);
        }
    }

    /** A tag and how many recipes carry it. */
    public record Tag(String name, int count) {}

    /** A resin that a new recipe may take. */
    public record ResinChoice(String id, String name) {}

    static void addTo(JavalinConfig config, LiveBook book, Clock clock) {
        config.routes.get("/recipes", context -> show(context, book.now(), LocalDate.now(clock)));
    }

    private static void show(Context context, Opened opened, LocalDate today) {
        Book book = opened.book();
        String asked = context.queryParam("near") == null
                ? ""
                : String.valueOf(context.queryParam("near")).strip();
        Lab near = asked.isEmpty() ? null : colour(asked);
        Map<Item, Map<String, Boolean>> stock = new HashMap<>();
        List<Card> cards = new ArrayList<>();
        Map<String, Integer> tags = new TreeMap<>();
        int makeable = 0;
        for (Recipe recipe : book.recipes().values()) {
            Card card = card(book, recipe, today, near, stock);
            cards.add(card);
            makeable += card.lacks().isEmpty() ? 1 : 0;
            recipe.tags().forEach(tag -> tags.merge(tag, 1, Integer::sum));
        }
        cards.sort(
                near == null
                        ? Comparator.comparing(Card::madeIso).reversed().thenComparing(Card::name)
                        : Comparator.comparingDouble(
                                (Card card) -> card.near() == null ? Double.MAX_VALUE : card.near()));
        Map<String, Object> values = new HashMap<>();
        values.put("cards", cards);
        values.put(
                "tags",
                tags.entrySet().stream()
                        .map(e -> new Tag(e.getKey(), e.getValue()))
                        .toList());
        values.put(
                "resins",
                book.resins().values().stream()
                        .map(resin -> new ResinChoice(resin.id(), resin.name()))
                        .toList());
        values.put("inSight", (int) cards.stream().filter(card -> !card.away()).count());
        values.put("makeable", makeable);
        values.put("near", asked);
        values.put("pick", near == null ? "#a8541c" : Srgb.hex(near));
        values.put("problems", opened.problems().size());
        values.put("demo", book.settings().name().contains("made up"));
        Pages.show(context, "recipes.jte", values);
    }

    static Lab colour(String text) {
        java.util.regex.Matcher hex = HEX.matcher(text);
        if (hex.matches()) {
            int rgb = Integer.parseInt(hex.group(1), 16);
            return Srgb.lab(rgb >> 16 & 255, rgb >> 8 & 255, rgb & 255);
        }
        String[] parts = text.split(",", -1);
        try {
            if (parts.length == 3) {
                return new Lab(
                        Double.parseDouble(parts[0].strip()),
                        Double.parseDouble(parts[1].strip()),
                        Double.parseDouble(parts[2].strip()));
            }
        } catch (IllegalArgumentException e) {
            throw new BadAmountException(
                    "\"" + text + "\" is no colour; L* goes from 0 to 100, a* and b* from -200 to 200.");
        }
        throw new BadAmountException("\"" + text + "\" is no colour; write it like #a8541c or 45,30,40 (L*, a*, b*).");
    }

    private static Card card(
            Book book, Recipe recipe, LocalDate today, @Nullable Lab near, Map<Item, Map<String, Boolean>> stock) {
        Pour.Reading white = shown(book, recipe);
        Pour.Reading black = Figures.reading(book, recipe.id(), "black");
        String face = white == null ? "" : Figures.hex(white.lab());
        List<String> lacks = lacks(book, recipe, today, stock);
        LocalDate made = null;
        int rating = 0;
        List<String> faults = new ArrayList<>();
        for (Pour pour : book.poursOf(recipe.id())) {
            if (pour.started() != null
                    && (made == null || !pour.started().toLocalDate().isBefore(made))) {
                made = pour.started().toLocalDate();
                rating = pour.result() != null && pour.result().rating() != null
                        ? pour.result().rating()
                        : rating;
            }
            if (pour.result() != null) {
                faults.addAll(pour.result().faults());
            }
        }
        String tags = String.join(",", recipe.tags());
        StringBuilder words = new StringBuilder(tags)
                .append('|')
                .append(recipe.id())
                .append(' ')
                .append(recipe.name())
                .append(' ')
                .append(recipe.current().resinId())
                .append(' ')
                .append(String.join(" ", faults));
        for (Recipe.PigmentLoading loading : recipe.current().pigments()) {
            words.append(' ').append(loading.pigmentId());
        }
        return new Card(
                recipe.id(),
                recipe.name(),
                words.toString().toLowerCase(Locale.ROOT),
                String.join(", ", recipe.tags()),
                face,
                black == null ? "" : Figures.hex(black.lab()),
                white != null,
                white == null ? 0 : white.lab().l(),
                made == null ? "never made" : "made " + made.format(DAY),
                made == null ? "" : made.toString(),
                rating,
                lacks,
                near == null || white == null
                        ? null
                        : (Double) Ciede2000.between(near, nearest(book, recipe, near, white)));
    }

    /** Returns the reading a recipe is known by: its look, else the latest over white, else any. */
    private static Pour.@Nullable Reading shown(Book book, Recipe recipe) {
        Recipe.LookAt look = recipe.look();
        Pour pour = look == null ? null : book.pours().get(look.pourId());
        if (look != null
                && pour != null
                && look.reading() >= 0
                && look.reading() < pour.readings().size()) {
            return pour.readings().get(look.reading());
        }
        Pour.Reading white = Figures.reading(book, recipe.id(), "white");
        return white != null ? white : Figures.reading(book, recipe.id(), "wood");
    }

    private static Lab nearest(Book book, Recipe recipe, Lab near, Pour.Reading shown) {
        Lab best = shown.lab();
        for (Pour pour : book.poursOf(recipe.id())) {
            for (Pour.Reading reading : pour.readings()) {
                if (Ciede2000.between(near, reading.lab()) < Ciede2000.between(near, best)) {
                    best = reading.lab();
                }
            }
        }
        return best;
    }

    /** Returns what no good lot on the shelf holds any more. */
    private static List<String> lacks(
            Book book, Recipe recipe, LocalDate today, Map<Item, Map<String, Boolean>> stock) {
        List<String> lacks = new ArrayList<>();
        Resin resin = book.resins().get(recipe.current().resinId());
        if (resin == null) {
            return List.of(recipe.current().resinId());
        }
        List<Item> items = new ArrayList<>(List.of(Item.PART_A, Item.PART_B));
        recipe.current().pigments().forEach(loading -> items.add(Item.of(loading.pigmentId())));
        for (Item item : items) {
            boolean there = stock.computeIfAbsent(item, each -> new HashMap<>())
                    .computeIfAbsent(
                            resin.id(),
                            id -> book.lotsOf(id, item).stream()
                                    .anyMatch((Lot lot) -> lot.isGoodOn(today) && book.leftGrams(lot) > 0));
            if (!there) {
                lacks.add(item.id());
            }
        }
        return lacks;
    }
}
