package pigmentbook.store;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import pigmentbook.book.Book;

/**
 * A book as it was when it was opened.
 *
 * @param folder its folder
 * @param book what could be read
 * @param problems what could not, and what does not fit together
 * @param pourFiles the file of each pour, from the book's folder, by the pour's id
 */
public record Opened(Path folder, Book book, List<Problem> problems, Map<String, String> pourFiles) {

    public Opened {
        List<Problem> sorted = new ArrayList<>(problems);
        sorted.sort(
                Comparator.comparing(Problem::file).thenComparing(Problem::line).thenComparing(Problem::text));
        problems = List.copyOf(sorted);
    }

    /** Returns the problem of one file, or null. */
    public @Nullable Problem problemOf(String file) {
        for (Problem problem : problems) {
            if (problem.file().equals(file)) {
                return problem;
            }
        }
        return null;
    }

    /** Returns all problems, those of references between records included. */
    public List<Problem> check() {
        List<Problem> all = new ArrayList<>(problems);
        all.addAll(References.problems(this));
        all.sort(
                Comparator.comparing(Problem::file).thenComparing(Problem::line).thenComparing(Problem::text));
        return all;
    }
}
