package pigmentbook.web;

import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import pigmentbook.book.Book;
import pigmentbook.book.Recipe;
import pigmentbook.tint.Tints;
import pigmentbook.web.ColourCards.Card;
import pigmentbook.web.Looks.Chip;

/** How the colours of a list will look that nobody has read, each worked out once for a state of the book. */
final class UnreadLooks {

    private final LiveTints live;
    private final Map<String, Optional<Chip>> looks = new HashMap<>();
    private @Nullable Book book;
    private @Nullable Tints tints;

    UnreadLooks(LiveTints live) {
        this.live = live;
    }

    /**
     * Returns the looks that can be worked out, by recipe. A list waits for no fit: before the first there are none.
     */
    synchronized Map<String, Chip> of(Book now, List<Card> cards) {
        List<Card> unread =
                cards.stream().filter(card -> card.readings().isEmpty()).toList();
        Tints ready = unread.isEmpty() ? null : live.ready(now);
        if (ready == null) {
            return Map.of();
        }
        if (now != book || ready != tints) {
            book = now;
            tints = ready;
            looks.clear();
        }
        Map<String, Chip> found = new HashMap<>();
        for (Card card : unread) {
            Recipe recipe = now.recipes().get(card.id());
            if (recipe != null) {
                looks.computeIfAbsent(card.id(), id -> Optional.ofNullable(Looks.listed(now, ready, recipe.current())))
                        .ifPresent(look -> found.put(card.id(), look));
            }
        }
        return found;
    }
}
