package pigmentbook.store;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Collection;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import pigmentbook.book.Book;

/** A book as it was when it was opened. Immutable to those who use it; safe to share between threads. */
public final class Opened {

    private static final Comparator<Problem> ORDER =
            Comparator.comparing(Problem::file).thenComparingInt(Problem::line).thenComparing(Problem::text);

    private final Path folder;
    private final Book book;
    private final List<Problem> problems;
    private final Map<String, String> pourFiles;
    private volatile Look look;

    /**
     * The files as they were last looked at.
     *
     * @param files what came of each, by its name
     * @param listed what was wrong with names and folders
     * @param atMillis when the look began, since 1970
     */
    record Look(Map<String, Loaded> files, List<Problem> listed, long atMillis) {

        static Look of(Collection<Loaded> files, List<Problem> listed, long atMillis) {
            Map<String, Loaded> byName = new HashMap<>(files.size() * 2);
            files.forEach(each -> byName.put(each.file().name(), each));
            return new Look(byName, listed, atMillis);
        }
    }

    Opened(Path folder, Book book, List<Problem> problems, Map<String, String> pourFiles, Look look) {
        this.folder = folder;
        this.book = book;
        this.problems = problems.stream().sorted(ORDER).toList();
        this.pourFiles = Map.copyOf(pourFiles);
        this.look = look;
    }

    /** Returns the book's folder. */
    public Path folder() {
        return folder;
    }

    /** Returns what could be read. */
    public Book book() {
        return book;
    }

    /** Returns what could not be read, by file and line. */
    public List<Problem> problems() {
        return problems;
    }

    Look look() {
        return look;
    }

    /** Notes a later look that found every file saying what it said. */
    void lookedAgain(Look again) {
        this.look = again;
    }

    /** Returns the file of each pour, from the book's folder, by the pour's id. */
    public Map<String, String> pourFiles() {
        return pourFiles;
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
        all.sort(ORDER);
        return all;
    }

    /**
     * Returns the file of a record, from the book's folder, with forward slashes; null where there is none.
     *
     * @param id the record's id; {@code book} for the settings
     */
    public @Nullable String fileOf(Kind kind, String id) {
        if (kind == Kind.POUR) {
            return pourFiles.get(id);
        }
        String usual = kind.usualFile(id);
        return look.files().containsKey(usual) ? usual : null;
    }
}
