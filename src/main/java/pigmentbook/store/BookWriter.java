package pigmentbook.store;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.node.JsonNodeFactory;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.DirectoryStream;
import java.nio.file.Files;
import java.nio.file.LinkOption;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.atomic.AtomicLong;
import org.jspecify.annotations.Nullable;

/**
 * Saves records.
 *
 * <p>A record is written to a temporary file beside its own, which then takes its place at once: whoever reads, and
 * whatever stops the program, finds the old record or the new one, never a part. Saves of one book wait for each other.
 * No record is ever deleted.
 */
public final class BookWriter {

    private static final long LONGEST_WAIT_MILLIS = 5_000;
    private static final String PUT_AWAY = "put-away";
    private static final AtomicLong COUNT = new AtomicLong();

    private final Path folder;
    private final Disk disk;

    /** Writes into a book's folder. */
    public BookWriter(Path folder) {
        this(folder, new Disk());
    }

    BookWriter(Path folder, Disk disk) {
        this.folder = folder;
        this.disk = disk;
    }

    /**
     * A record as its file says it.
     *
     * @param file the file, from the book's folder, with forward slashes
     * @param version its version
     * @param record what it says
     */
    public record Current(String file, String version, ObjectNode record) {}

    /**
     * Returns a record as its file says it now.
     *
     * @param id the record's id; {@code book} for the settings
     * @throws SaveFailedException if there is no such file or it can't be read
     */
    public Current read(Kind kind, String id) throws SaveFailedException {
        requireId(kind, id);
        Path path = find(kind, id);
        byte[] bytes = bytes(path);
        if (bytes == null) {
            throw new SaveFailedException("There is no " + kind.word() + " \"" + id + "\" in the book.");
        }
        return new Current(name(path), Versions.of(bytes), parsed(name(path), bytes));
    }

    /**
     * Saves a changed record. The text of the file stays as it is but for what changed.
     *
     * @param id the record's id; {@code book} for the settings
     * @param base the version the change was based on
     * @param changed the whole record as it is to be, unknown fields included
     * @return the record as saved
     * @throws ConflictException if the file was changed since that version
     * @throws SaveFailedException if the record could not be read again as it would be, alters a saved revision, or
     *     can't be written
     */
    public Current save(Kind kind, String id, String base, ObjectNode changed)
            throws ConflictException, SaveFailedException {
        requireId(kind, id);
        BookLock lock = BookLock.take(requireFolder(), LONGEST_WAIT_MILLIS);
        try {
            return saveLocked(kind, id, base, changed);
        } finally {
            lock.close();
        }
    }

    private Current saveLocked(Kind kind, String id, String base, ObjectNode changed)
            throws ConflictException, SaveFailedException {
        Path path = find(kind, id);
        String file = name(path);
        byte[] old = bytes(path);
        if (old == null) {
            throw new SaveFailedException(
                    file + " is not there any more. Look where it went, or save it as a new one. Nothing was changed.");
        }
        ObjectNode before = parsed(file, old);
        byte[] bytes = spliced(old, before, changed);
        if (!Versions.of(old).equals(base)) {
            throw new ConflictException(
                    "The " + kind.word() + " \"" + id
                            + "\" was changed meanwhile; both versions are kept to choose from.",
                    before,
                    old,
                    changed,
                    bytes);
        }
        if (kind == Kind.RECIPE) {
            requireOldRevisions(file, before, changed);
        }
        return put(kind, id, path, bytes);
    }

    /**
     * What became of edits.
     *
     * @param current the record as its file says it now
     * @param outcomes one for each edit, in their order
     */
    public record Edited(Current current, List<Edit.Outcome> outcomes) {}

    /**
     * Saves edits into the record as it is now, whoever changed other parts of it meanwhile. An edit with which the
     * record could not be read is left out, and so is one whose value somebody else changed; the others are kept.
     *
     * @param id the record's id; {@code book} for the settings
     * @throws SaveFailedException if the record can't be read or written, or an edit alters a saved revision
     */
    public Edited edit(Kind kind, String id, List<Edit> edits) throws SaveFailedException {
        requireId(kind, id);
        BookLock lock = BookLock.take(requireFolder(), LONGEST_WAIT_MILLIS);
        try {
            Path path = find(kind, id);
            String file = name(path);
            byte[] old = bytes(path);
            if (old == null) {
                throw new SaveFailedException(
                        file + " is not there any more. Look where it went. Nothing was changed.");
            }
            ObjectNode before = parsed(file, old);
            Merged merged = Merged.of(kind, id, old, before, edits);
            if (JsonSplice.same(before, merged.record())) {
                return new Edited(new Current(file, Versions.of(old), before), merged.outcomes());
            }
            if (kind == Kind.RECIPE) {
                requireOldRevisions(file, before, merged.record());
            }
            return new Edited(put(kind, id, path, spliced(old, before, merged.record())), merged.outcomes());
        } finally {
            lock.close();
        }
    }

    /**
     * Returns the record that edits would make, without saving it: what can't be taken is left out.
     *
     * @return the record of the book, such as a {@link pigmentbook.book.Mold}
     * @throws SaveFailedException if the record can't be read
     */
    public Object tried(Kind kind, String id, List<Edit> edits) throws SaveFailedException {
        requireId(kind, id);
        Path path = find(kind, id);
        byte[] old = bytes(path);
        if (old == null) {
            throw new SaveFailedException("There is no " + kind.word() + " \"" + id + "\" in the book.");
        }
        ObjectNode before = parsed(name(path), old);
        try {
            return Records.read(
                    kind,
                    id,
                    spliced(old, before, Merged.of(kind, id, old, before, edits).record()));
        } catch (RefusedException e) {
            throw new SaveFailedException(e.getMessage() + "", e.in(name(path), old));
        }
    }

    /**
     * Returns a record that does not lie in the book yet, with edits put into it.
     *
     * @throws SaveFailedException if one of them has no place in a record
     */
    public static ObjectNode with(ObjectNode record, List<Edit> edits) throws SaveFailedException {
        ObjectNode changed = record.deepCopy();
        for (Edit edit : edits) {
            try {
                Edits.put(changed, edit);
            } catch (RefusedException e) {
                throw new SaveFailedException(e.getMessage() + "");
            }
        }
        return changed;
    }

    /**
     * Puts a record away: its file is moved, as it is, into the book's folder {@code put-away}, from where it can be
     * taken out again. Whoever calls makes sure that nothing in the book refers to it.
     *
     * @throws SaveFailedException if there is no such record or it can't be moved
     */
    public void putAway(Kind kind, String id) throws SaveFailedException {
        move(kind, id, true);
    }

    /**
     * Takes a record out of {@code put-away} again.
     *
     * @throws SaveFailedException if it is not there, the book has another one of that id, or it can't be moved
     */
    public void takeOutAgain(Kind kind, String id) throws SaveFailedException {
        move(kind, id, false);
    }

    /** Returns the ids of what was put away of a kind, in order. */
    public List<String> putAwayIds(Kind kind) {
        Path away = folder.resolve(PUT_AWAY).resolve(kind.folder());
        List<String> ids = new ArrayList<>();
        try (DirectoryStream<Path> files = Files.newDirectoryStream(away, "*" + Listing.SUFFIX)) {
            for (Path file : files) {
                String name = String.valueOf(file.getFileName());
                ids.add(name.substring(0, name.length() - Listing.SUFFIX.length()));
            }
        } catch (IOException e) {
            // Nothing was ever put away, or the folder can't be read: then there is nothing to offer.
            return List.of();
        }
        ids.removeIf(id -> !kind.wrongWithId(id).isEmpty());
        ids.sort(null);
        return ids;
    }

    private void move(Kind kind, String id, boolean away) throws SaveFailedException {
        requireId(kind, id);
        BookLock lock = BookLock.take(requireFolder(), LONGEST_WAIT_MILLIS);
        try {
            Path inBook = find(kind, id);
            Path kept = folder.resolve(PUT_AWAY).resolve(kind.usualFile(id));
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
            requireNoFileAsFolder(parent(to));
            makeFolder(parent(to));
            try {
                disk.rename(from, to);
            } catch (IOException e) {
                throw SaveFailures.of(parent(to), e);
            }
            force(parent(to));
            force(parent(from));
        } finally {
            lock.close();
        }
    }

    /**
     * Saves a new record.
     *
     * @param id the record's id; {@code book} for the settings
     * @param record the record; its {@code id} may be missing and is then written in
     * @throws ConflictException if there is one of that id already
     * @throws SaveFailedException if the id is none, or the record could not be read again, or can't be written
     */
    public Current create(Kind kind, String id, ObjectNode record) throws ConflictException, SaveFailedException {
        requireId(kind, id);
        BookLock lock = BookLock.take(requireFolder(), LONGEST_WAIT_MILLIS);
        try {
            return createLocked(kind, id, record);
        } finally {
            lock.close();
        }
    }

    private Current createLocked(Kind kind, String id, ObjectNode record)
            throws ConflictException, SaveFailedException {
        Path path = find(kind, id);
        requireNoFileAsFolder(parent(path));
        byte[] bytes = utf8(JsonLayout.file(withId(kind, id, record)));
        byte[] old = bytes(path);
        if (old != null) {
            ObjectNode there = parsed(name(path), old);
            throw new ConflictException(
                    "There is a " + kind.word() + " \"" + id + "\" already; give the new one another id.",
                    there,
                    old,
                    record,
                    bytes);
        }
        requireRecord(kind, id, name(path), bytes);
        makeFolder(parent(path));
        requireNoTwin(path);
        return put(kind, id, path, bytes);
    }

    private static ObjectNode withId(Kind kind, String id, ObjectNode record) {
        if (kind == Kind.SETTINGS || record.has("id")) {
            return record;
        }
        ObjectNode named = JsonNodeFactory.instance.objectNode().put("id", id);
        named.setAll(record);
        return named;
    }

    private static byte[] utf8(String text) {
        return text.getBytes(StandardCharsets.UTF_8);
    }

    private static void requireId(Kind kind, String id) throws SaveFailedException {
        String wrong =
                kind != Kind.SETTINGS ? kind.wrongWithId(id) : id.equals("book") ? "" : "The settings' id is \"book\".";
        if (!wrong.isEmpty()) {
            throw new SaveFailedException("\"" + Records.shown(id) + "\" is no id. " + wrong);
        }
    }

    private Path requireFolder() throws SaveFailedException {
        if (!Files.isDirectory(folder)) {
            throw new SaveFailedException(
                    "There is no folder \"" + folder + "\" any more. Look where the book went. Nothing was changed.");
        }
        return folder;
    }

    /** Returns the record's file, or where it would be: a pour may lie in another year's folder than its own. */
    private Path find(Kind kind, String id) throws SaveFailedException {
        Path usual = folder.resolve(kind.usualFile(id));
        Path pours = folder.resolve(Kind.POUR.folder());
        if (kind != Kind.POUR || Files.exists(usual) || !Files.isDirectory(pours)) {
            return usual;
        }
        try (DirectoryStream<Path> years = Files.newDirectoryStream(pours, Files::isDirectory)) {
            for (Path year : years) {
                Path file = year.resolve(id + Listing.SUFFIX);
                if (Files.exists(file)) {
                    return file;
                }
            }
        } catch (IOException e) {
            throw SaveFailures.of(pours, e);
        }
        return usual;
    }

    private String name(Path path) {
        return folder.relativize(path).toString().replace('\\', '/');
    }

    private static Path parent(Path path) {
        Path parent = path.getParent();
        return parent == null ? path : parent;
    }

    private static byte @Nullable [] bytes(Path path) throws SaveFailedException {
        try {
            if (Files.isDirectory(path)) {
                throw new SaveFailedException("Here stands a folder where the file \"" + path
                        + "\" was expected. Move it away. Nothing was changed.");
            }
            return Files.readAllBytes(path);
        } catch (NoSuchFileException e) {
            return null;
        } catch (IOException e) {
            throw new SaveFailedException(
                    "The file \"" + path + "\" can't be read. Check who may read it. Nothing was changed.", e);
        }
    }

    private static ObjectNode parsed(String file, byte[] bytes) throws SaveFailedException {
        try {
            return JsonFile.read(bytes);
        } catch (RefusedException e) {
            throw new SaveFailedException(
                    file + " can't be read, so it is left as it is. " + e.getMessage(), e.in(file, bytes));
        }
    }

    static byte[] spliced(byte[] old, ObjectNode before, ObjectNode changed) {
        int mark = JsonFile.offset(old);
        String text = new String(old, mark, old.length - mark, StandardCharsets.UTF_8);
        return utf8((mark > 0 ? "\ufeff" : "") + JsonSplice.apply(text, before, changed));
    }

    private static ObjectNode requireRecord(Kind kind, String id, String file, byte[] bytes)
            throws SaveFailedException {
        try {
            Records.read(kind, id, bytes);
            return JsonFile.read(bytes);
        } catch (RefusedException e) {
            throw new SaveFailedException("This can't be saved. " + e.getMessage(), e.in(file, bytes));
        }
    }

    /** Saved revisions never change: others look back to them. */
    private static void requireOldRevisions(String file, ObjectNode before, ObjectNode changed)
            throws SaveFailedException {
        for (JsonNode revision : before.path("revisions")) {
            boolean kept = false;
            for (JsonNode each : changed.path("revisions")) {
                kept |= JsonSplice.same(revision, each);
            }
            if (!kept) {
                String text =
                        "Revision " + Records.shown(revision.path("number").asText())
                                + " is saved and stays as it is; make a new revision for the change.";
                throw new SaveFailedException(text, new Problem(file, 0, "revision-kept", text));
            }
        }
    }

    private static void requireNoTwin(Path path) throws SaveFailedException {
        String wanted = String.valueOf(path.getFileName());
        try (DirectoryStream<Path> others = Files.newDirectoryStream(parent(path))) {
            for (Path other : others) {
                String name = String.valueOf(other.getFileName());
                if (name.equals(wanted)) {
                    throw new SaveFailedException("A link that leads nowhere stands where the file \"" + path
                            + "\" was expected. Take it away. Nothing was changed.");
                }
                if (name.equalsIgnoreCase(wanted)) {
                    throw new SaveFailedException("This name differs from " + name
                            + " only by capitals, which some computers can't tell apart. Choose another id.");
                }
            }
        } catch (IOException e) {
            throw SaveFailures.of(parent(path), e);
        }
    }

    private void requireNoFileAsFolder(Path wanted) throws SaveFailedException {
        for (Path each = wanted; each != null && !each.equals(folder); each = each.getParent()) {
            if (Files.exists(each, LinkOption.NOFOLLOW_LINKS) && !Files.isDirectory(each)) {
                throw new SaveFailedException("Here stands a file where the folder \"" + each
                        + "\" was expected. Move it away. Nothing was changed.");
            }
        }
    }

    private void makeFolder(Path wanted) throws SaveFailedException {
        try {
            Files.createDirectories(wanted);
        } catch (IOException e) {
            throw SaveFailures.of(folder, e);
        }
    }

    private Current put(Kind kind, String id, Path path, byte[] bytes) throws SaveFailedException {
        ObjectNode record = requireRecord(kind, id, name(path), bytes);
        put(path, bytes);
        return new Current(name(path), Versions.of(bytes), record);
    }

    private void put(Path path, byte[] bytes) throws SaveFailedException {
        Path parent = parent(path);
        Path temporary = null;
        try {
            // A record that is a link stays one: what it leads to is replaced.
            boolean there = Files.exists(path);
            Path target = there ? path.toRealPath() : path;
            parent = parent(target);
            String prefix = "." + target.getFileName() + ".new-";
            disk.takeAway(parent, prefix);
            temporary = parent.resolve(prefix + ProcessHandle.current().pid() + "-" + COUNT.incrementAndGet());
            disk.write(temporary, bytes);
            if (there) {
                disk.keepRights(target, temporary);
            }
            disk.rename(temporary, target);
        } catch (IOException e) {
            SaveFailedException failed = SaveFailures.of(parent, e);
            takeAway(temporary, failed);
            throw failed;
        }
        force(parent);
        force(parent(parent));
    }

    private static void takeAway(@Nullable Path temporary, SaveFailedException failed) {
        if (temporary != null) {
            try {
                Files.deleteIfExists(temporary);
            } catch (IOException e) {
                failed.addSuppressed(e);
            }
        }
    }

    /** Some systems can't do this to a folder (Windows); the new file itself is on the disk already. */
    private void force(Path in) {
        try {
            disk.force(in);
        } catch (IOException e) {
            System.getLogger(BookWriter.class.getName()).log(System.Logger.Level.DEBUG, "folder not forced", e);
        }
    }
}
