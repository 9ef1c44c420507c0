package pigmentbook.web;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.TreeMap;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;
import pigmentbook.book.Book;
import pigmentbook.book.Item;
import pigmentbook.book.Pigment;
import pigmentbook.book.Pour;
import pigmentbook.book.Recipe;
import pigmentbook.colour.Ciede2000;
import pigmentbook.colour.Lab;
import pigmentbook.mix.Mix;
import pigmentbook.mix.MixRefusedException;
import pigmentbook.mix.MixRequest;
import pigmentbook.mix.Mixer;
import pigmentbook.mix.WasAndWill;
import pigmentbook.quantity.Mass;

/**
 * Every colour of a book as a card, made once for a state of the book and a day, and searched while somebody types.
 * What a recipe lacks is what the shelf lacks to make it again as big as it was last poured, or 500 g of it.
 */
public final class ColourCards {

    /** The tag of recipes that are sample chips of a pigment: found by it, and out of sight else. */
    static final String CHIPS = "chips";

    private static final Pattern WORD = Pattern.compile("\"([^\"]*)\"|([^\\s,\"]+)");

    private final Book book;
    private final LocalDate day;
    private final List<Card> cards;
    private final Map<String, Integer> tags;
    private final int makeable;
    private final int inSight;

    private ColourCards(Book book, LocalDate day, List<Card> cards, Map<String, Integer> tags) {
        this.book = book;
        this.day = day;
        this.cards = cards;
        this.tags = tags;
        this.makeable = (int) cards.stream()
                .filter(card -> card.lacks().isEmpty() && !card.away())
                .count();
        this.inSight = (int) cards.stream().filter(card -> !card.away()).count();
    }

    /** One colour of the list, ready to be drawn; {@code over} says where its face was read, empty for over white. */
    public record Card(
            String id,
            String name,
            String words,
            List<String> tags,
            String face,
            String black,
            boolean read,
            double lightness,
            String made,
            String madeIso,
            int rating,
            List<String> lacks,
            List<Pour.Reading> readings,
            String over,
            @Nullable Double near) {

        /** Returns what the colour's drawing shows, in words. */
        public String label() {
            return !read
                    ? name + ", not read yet"
                    : name + " as read" + (over.isEmpty() ? "" : " " + over)
                            + (black.isEmpty() ? "" : ", and over black");
        }

        /** Returns whether it is kept out of sight. */
        public boolean away() {
            return tags.contains(RecipeActs.PUT_AWAY) || tags.contains(CHIPS);
        }

        /** Returns the same colour as its nearest reading to another one shows it, with how far that is. */
        Card near(Lab colour) {
            double least = Double.POSITIVE_INFINITY;
            Pour.Reading nearest = null;
            for (Pour.Reading reading : readings) {
                double away = Ciede2000.between(colour, reading.lab());
                if (away < least) {
                    least = away;
                    nearest = reading;
                }
            }
            if (nearest == null) {
                return this;
            }
            return new Card(
                    id,
                    name,
                    words,
                    tags,
                    Figures.hex(nearest.lab()),
                    "",
                    true,
                    lightness,
                    made,
                    madeIso,
                    rating,
                    lacks,
                    readings,
                    Figures.where(nearest),
                    least);
        }

        /** Returns how far it is from the colour that was asked for. */
        public String nearText() {
            return near == null ? "" : "ΔE00 " + Figures.plain(near, 1);
        }
    }

    /** Makes the cards of a book, the last made first. */
    static ColourCards of(Book book, LocalDate day) {
        Map<String, Integer> tags = new TreeMap<>();
        book.recipes().values().forEach(recipe -> recipe.tags().forEach(tag -> tags.merge(tag, 1, Integer::sum)));
        List<Card> cards = book.recipes().values().parallelStream()
                .map(recipe -> card(book, recipe, day))
                .sorted(Comparator.comparing(Card::madeIso).reversed().thenComparing(Card::name))
                .toList();
        return new ColourCards(book, day, cards, tags);
    }

    boolean isOf(Book book, LocalDate day) {
        return this.book == book && this.day.equals(day);
    }

    Map<String, Integer> tags() {
        return tags;
    }

    int makeable() {
        return makeable;
    }

    int inSight() {
        return inSight;
    }

    /**
     * Returns the colours that fit, in order.
     *
     * @param find words that must all stand in a card; several in quotation marks are one
     * @param tags tags that it must all carry; one that is put away shows only where its tag is asked for
     * @param canMake whether the shelf must have all of it
     * @param near a colour to come near to, or null
     * @param sort the order by name; the last made first where there is none
     */
    List<Card> found(String find, List<String> tags, boolean canMake, @Nullable Lab near, String sort) {
        List<String> words = words(find);
        List<Card> found = new ArrayList<>();
        for (Card card : cards) {
            if (fits(card, words, tags, canMake)) {
                found.add(near == null ? card : card.near(near));
            }
        }
        Comparator<Card> order = switch (sort) {
            case "name" -> Comparator.comparing(Card::name, String.CASE_INSENSITIVE_ORDER);
            case "how it came out" -> Comparator.comparingInt(Card::rating).reversed();
            case "light to dark" -> Comparator.comparingDouble(Card::lightness).reversed();
            case "last made" -> null;
            default -> near == null ? null : byNearness();
        };
        if (order != null) {
            found.sort(order);
        }
        return found;
    }

    private static Comparator<Card> byNearness() {
        return Comparator.comparingDouble(card -> card.near() == null ? Double.MAX_VALUE : card.near());
    }

    private static List<String> words(String find) {
        List<String> words = new ArrayList<>();
        Matcher matcher = WORD.matcher(find.toLowerCase(Locale.ROOT));
        while (matcher.find()) {
            String quoted = matcher.group(1);
            words.add(quoted == null ? matcher.group(2) : quoted);
        }
        return words;
    }

    private static boolean fits(Card card, List<String> words, List<String> tags, boolean canMake) {
        if ((card.away() && !tags.contains(RecipeActs.PUT_AWAY) && !tags.contains(CHIPS))
                || (canMake && !card.lacks().isEmpty())) {
            return false;
        }
        for (String word : words) {
            if (!card.words().contains(word)) {
                return false;
            }
        }
        return card.tags().containsAll(tags);
    }

    private static Card card(Book book, Recipe recipe, LocalDate today) {
        Pour.Reading face = shown(book, recipe);
        Pour.Reading black = Figures.reading(book, recipe.id(), "black");
        List<String> lacks = lacks(book, recipe, today);
        LocalDate made = null;
        int rating = 0;
        List<String> faults = new ArrayList<>();
        for (Pour pour : book.madeOf(recipe.id())) {
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
        StringBuilder words = new StringBuilder(String.join(" ", recipe.tags()))
                .append(' ')
                .append(recipe.id())
                .append(' ')
                .append(recipe.name())
                .append(' ')
                .append(recipe.current().resinId())
                .append(' ')
                .append(recipe.notes())
                .append(' ')
                .append(String.join(" ", faults));
        for (Recipe.PigmentLoading loading : recipe.current().pigments()) {
            Pigment pigment = book.pigments().get(loading.pigmentId());
            words.append(' ').append(loading.pigmentId()).append(' ').append(pigment == null ? "" : pigment.name());
        }
        return new Card(
                recipe.id(),
                recipe.name(),
                words.toString().toLowerCase(Locale.ROOT),
                recipe.tags(),
                face == null ? "" : Figures.hex(face.lab()),
                black == null || black.equals(face) ? "" : Figures.hex(black.lab()),
                face != null,
                face == null ? 0 : face.lab().l(),
                made == null ? "never made" : "made " + Figures.day(made),
                made == null ? "" : made.toString(),
                rating,
                lacks,
                readings(book, recipe, face),
                face == null || overWhite(face) ? "" : Figures.where(face),
                null);
    }

    /** Returns the reading a recipe is known by: its look, else the latest over white, else over wood, else any. */
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
        Pour.Reading wood = white == null ? Figures.reading(book, recipe.id(), "wood") : white;
        return wood == null ? Figures.latest(book, recipe.id(), any -> true) : wood;
    }

    private static boolean overWhite(Pour.Reading reading) {
        return reading.backing() != null && "white".equals(reading.backing().name());
    }

    /** Returns what a recipe is found by, the reading it is known by first. */
    private static List<Pour.Reading> readings(Book book, Recipe recipe, Pour.@Nullable Reading shown) {
        List<Pour.Reading> readings = new ArrayList<>();
        if (shown != null) {
            readings.add(shown);
        }
        for (Pour pour : book.madeOf(recipe.id())) {
            readings.addAll(pour.readings());
        }
        return readings;
    }

    /** Returns what the shelf lacks, each with its grams. */
    private static List<String> lacks(Book book, Recipe recipe, LocalDate today) {
        Mass usual = Mass.ofGrams(WasAndWill.usualGrams(book, recipe.id()));
        try {
            Mix mix = Mixer.mix(book, recipe, recipe.current(), MixRequest.of(new MixRequest.ForTotal(usual), today));
            List<String> lacks = new ArrayList<>();
            mix.missingGrams()
                    .forEach((Item item, Double grams) ->
                            lacks.add(Figures.plain(grams, grams < 10 ? 2 : 0) + " g of " + name(book, item)));
            return lacks;
        } catch (MixRefusedException e) {
            return List.of("what can be mixed");
        }
    }

    private static String name(Book book, Item item) {
        Pigment pigment = book.pigments().get(item.id());
        return pigment == null ? item.id() : pigment.name();
    }
}
