package pigmentbook.store;

import java.util.function.Function;
import org.jspecify.annotations.Nullable;

/**
 * Remembers what texts meant. The same few hundred spellings stand in a large book many thousand times; each is read
 * once and held once. Safe from many threads: an entry never changes, and a lost one is only read again.
 *
 * @param <T> what the texts mean
 */
final class Seen<T> implements Function<String, T> {

    private static final int SIZE = 4096;

    private final Function<String, T> read;

    @SuppressWarnings("unchecked")
    private final @Nullable Entry<T>[] entries = (Entry<T>[]) new Entry<?>[SIZE];

    private record Entry<T>(String text, T meaning) {}

    /**
     * Remembers what a reader makes of texts.
     *
     * @param read the reader; what it refuses is not remembered
     */
    Seen(Function<String, T> read) {
        this.read = read;
    }

    @Override
    public T apply(String text) {
        int hash = text.hashCode();
        int at = (hash ^ (hash >>> 16)) & (SIZE - 1);
        Entry<T> entry = entries[at];
        if (entry != null && entry.text().equals(text)) {
            return entry.meaning();
        }
        T meaning = read.apply(text);
        entries[at] = new Entry<>(text, meaning);
        return meaning;
    }
}
