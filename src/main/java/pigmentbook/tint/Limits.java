package pigmentbook.tint;

import java.util.Collection;
import java.util.List;
import java.util.Objects;
import pigmentbook.book.Book;
import pigmentbook.book.Pigment;

/** What the theory can't tell: it knows light that is taken away or thrown back, whatever the angle. */
public final class Limits {

    private Limits() {}

    /** Returns what it can't tell of such a pigment, or nothing. */
    public static String of(Pigment.Kind kind) {
        return switch (kind) {
            case MICA ->
                "A mica changes with the angle; what is worked out holds for looking at it straight, in even light.";
            case GLOW -> "What glows by itself is not in this theory; by daylight alone it may hold.";
            case DYE, INK -> "A dye or ink may shine in daylight or bleach; the theory knows neither.";
            default -> "";
        };
    }

    /** Returns what it can't tell of mixes with such loadings, each limit once. */
    public static List<String> of(Book book, Collection<Loading> loadings) {
        return loadings.stream()
                .map(each -> book.pigments().get(each.pigmentId()))
                .filter(Objects::nonNull)
                .map(each -> of(each.kind()))
                .filter(each -> !each.isEmpty())
                .distinct()
                .toList();
    }
}
