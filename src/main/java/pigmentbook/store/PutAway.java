package pigmentbook.store;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.LinkOption;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.Stream;
import pigmentbook.book.Book;

/**
 * What is kept out of sight: a record's file is moved, as it is, into the book's folder {@code put-away}, and back.
 * Nothing is destroyed.
 */
public final class PutAway {

    private static final String FOLDER = "put-away";

    private final Path folder;
    private final RecordFiles files;

    /** Puts away what lies in a book's folder. */
    public PutAway(Path folder) {
        this.folder = folder;
        this.files = new RecordFiles(folder, new Disk());
    }

    /**
     * Puts a record away that nothing refers to.
     *
     * @param book the book as its files are at this moment
     * @throws SaveFailedException if something in the book refers to it, there is no such record, or it can't be moved
     */
    public void put(Book book, Kind kind, String id) throws SaveFailedException {
        String used = InUse.of(book, kind, id);
        if (!used.isEmpty()) {
            throw new SaveFailedException(used);
        }
        move(kind, id, true);
    }

    /**
     * Takes a record out again.
     *
     * @throws SaveFailedException if it is not there, the book has another one of that id, or it can't be moved
     */
    public void takeOut(Kind kind, String id) throws SaveFailedException {
        move(kind, id, false);
    }

    /** Returns the ids of what was put away of a kind, in order. */
    public List<String> ids(Kind kind) {
        Path away = folder.resolve(FOLDER).resolve(kind.folder());
        List<String> ids = new ArrayList<>();
        // Pours lie in a folder of their year.
        try (Stream<Path> files = Files.walk(away, kind == Kind.POUR ? 2 : 1)) {
            files.map(file -> String.valueOf(file.getFileName()))
                    .filter(name -> name.endsWith(Listing.SUFFIX))
                    .forEach(name -> ids.add(name.substring(0, name.length() - Listing.SUFFIX.length())));
        } catch (IOException | UncheckedIOException e) {
            // Nothing was ever put away, or the folder can't be read: then there is nothing to offer.
            return List.of();
        }
        ids.removeIf(id -> !kind.wrongWithId(id).isEmpty());
        ids.sort(null);
        return ids;
    }

    private void move(Kind kind, String id, boolean away) throws SaveFailedException {
        RecordFiles.requireId(kind, id);
        BookLock lock = files.lock();
        try {
            Path inBook = files.find(kind, id);
            Path kept = folder.resolve(FOLDER).resolve(kind.usualFile(id));
            Path from = away ? inBook : kept;
            Path to = away ? kept : inBook;
            if (!Files.isRegularFile(from)) {
                throw new SaveFailedException("There is no " + kind.word() + " \"" + id + "\" "
                        + (away ? "in the book." : "among what was put away."));
            }
            if (Files.exists(to, LinkOption.NOFOLLOW_LINKS)) {
                throw new SaveFailedException("There is a " + kind.word() + " \"" + id + "\" already "
                        + (away ? "among what was put away" : "in the book") + ". Nothing was changed.");
            }
            files.move(from, to);
        } finally {
            lock.close();
        }
    }
}
