package pigmentbook.store;

import com.fasterxml.jackson.databind.node.ObjectNode;
import java.time.LocalDateTime;
import java.time.OffsetDateTime;
import java.time.temporal.ChronoUnit;
import java.util.concurrent.atomic.AtomicReference;
import java.util.function.Function;
import org.jspecify.annotations.Nullable;
import pigmentbook.book.Book;
import pigmentbook.mix.Mix;

/** Pours at the bench: begun from a mix, and on disk with each entry. */
public final class Bench {

    private static final int MOST_RECIPE = 45;

    private Bench() {}

    /**
     * Begins a pour.
     *
     * @param asked how the mix was asked for, so that its sheet can be made again
     * @return the new pour's id
     * @throws SaveFailedException if it can't be written
     * @throws ConflictException if somebody begins one of the same name in this very moment
     */
    public static String begin(BookWriter writer, Book book, Mix mix, String asked, LocalDateTime now)
            throws SaveFailedException, ConflictException {
        String id = freeId(book, mix.recipe().id(), now);
        writer.create(Kind.POUR, id, BenchPlan.of(book, mix, asked, id, now));
        return id;
    }

    /** Returns an id that no pour of the book has: the day, the recipe and a number. */
    public static String freeId(Book book, String recipeId, LocalDateTime now) {
        String recipe = recipeId.length() > MOST_RECIPE ? recipeId.substring(0, MOST_RECIPE) : recipeId;
        String stem = now.toLocalDate() + "-" + recipe + "-";
        int number = 1;
        while (book.pours().containsKey(stem + number)) {
            number++;
        }
        return stem + number;
    }

    /**
     * Adds entries to a pour; they are on the disk when this returns.
     *
     * @param lots finds the lots of a pour's record by what was typed
     * @return the pour's record as it is then
     * @throws SaveFailedException if an entry can't be taken or written: none is then
     * @throws BenchLog.OtherPhone if another phone entered something that this one had not seen
     */
    public static ObjectNode enter(
            BookWriter writer,
            String pourId,
            BenchLog.Asked asked,
            OffsetDateTime now,
            Function<ObjectNode, BenchLog.LotFinder> lots)
            throws SaveFailedException, BenchLog.OtherPhone {
        AtomicReference<BenchLog.@Nullable OtherPhone> other = new AtomicReference<>();
        BookWriter.Current saved = writer.change(Kind.POUR, pourId, record -> {
            ObjectNode before = record.deepCopy();
            try {
                return BenchLog.add(
                        record, asked, now.truncatedTo(ChronoUnit.SECONDS).toString(), lots.apply(record));
            } catch (BenchLog.OtherPhone e) {
                other.set(e);
                return before;
            }
        });
        BenchLog.OtherPhone refused = other.get();
        if (refused != null) {
            throw refused;
        }
        return saved.record();
    }
}
