package pigmentbook.store;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.node.JsonNodeFactory;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * Saves records.
 *
 * <p>A record is written to a temporary file beside its own, which then takes its place at once: whoever reads, and
 * whatever stops the program, finds the old record or the new one, never a part. Saves of one book wait for each other.
 * No record is ever deleted.
 */
public final class BookWriter {

    private final Path folder;
    private final RecordFiles files;

    /** Writes into a book's folder. */
    public BookWriter(Path folder) {
        this(folder, new Disk());
    }

    BookWriter(Path folder, Disk disk) {
        this.folder = folder;
        this.files = new RecordFiles(folder, disk);
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
        return stored(kind, id).current();
    }

    /** A record's file as it is now. */
    private static final class Stored {
        final Path path;
        final String file;
        final byte[] bytes;
        final ObjectNode record;

        Stored(Path path, String file, byte[] bytes, ObjectNode record) {
            this.path = path;
            this.file = file;
            this.bytes = bytes;
            this.record = record;
        }

        Current current() {
            return new Current(file, Versions.of(bytes), record);
        }
    }

    private @Nullable Stored look(Kind kind, String id) throws SaveFailedException {
        RecordFiles.requireId(kind, id);
        Path path = files.find(kind, id);
        byte[] bytes = RecordFiles.bytes(path);
        String file = files.name(path);
        return bytes == null ? null : new Stored(path, file, bytes, parsed(file, bytes));
    }

    private Stored stored(Kind kind, String id) throws SaveFailedException {
        Stored stored = look(kind, id);
        if (stored == null) {
            throw new SaveFailedException("There is no " + kind.word() + " \"" + id + "\" in the book.");
        }
        return stored;
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
        RecordFiles.requireId(kind, id);
        BookLock lock = files.lock();
        try {
            return saveLocked(kind, id, base, changed);
        } finally {
            lock.close();
        }
    }

    private Current saveLocked(Kind kind, String id, String base, ObjectNode changed)
            throws ConflictException, SaveFailedException {
        Stored old = look(kind, id);
        if (old == null) {
            throw new SaveFailedException(files.name(files.find(kind, id))
                    + " is not there any more. Look where it went, or save it as a new one. Nothing was changed.");
        }
        byte[] bytes = spliced(old.bytes, old.record, changed);
        if (!Versions.of(old.bytes).equals(base)) {
            throw new ConflictException(
                    "The " + kind.word() + " \"" + id
                            + "\" was changed meanwhile; both versions are kept to choose from.",
                    old.record,
                    old.bytes,
                    changed,
                    bytes);
        }
        if (kind == Kind.RECIPE) {
            requireOldRevisions(old.file, old.record, changed);
        }
        return put(kind, id, old.path, bytes);
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
        RecordFiles.requireId(kind, id);
        BookLock lock = files.lock();
        try {
            Stored old = stored(kind, id);
            Merged merged = Merged.of(kind, id, old.bytes, old.record, edits);
            if (JsonSplice.same(old.record, merged.record())) {
                return new Edited(old.current(), merged.outcomes());
            }
            if (kind == Kind.RECIPE) {
                requireOldRevisions(old.file, old.record, merged.record());
            }
            byte[] bytes = spliced(old.bytes, old.record, merged.record());
            return new Edited(put(kind, id, old.path, bytes), merged.outcomes());
        } finally {
            lock.close();
        }
    }

    /** Makes a changed record of the one that is there now. */
    public interface Change {

        /**
         * Returns the record as it is to be, or the same where there is nothing to change.
         *
         * @throws SaveFailedException if it can't be changed so; nothing is written then
         */
        ObjectNode of(ObjectNode now) throws SaveFailedException;
    }

    /**
     * Changes a record as it is at this moment, with nobody else saving in between.
     *
     * @return the record as saved
     * @throws SaveFailedException if the record can't be read, or can't be read again as it would be, or can't be
     *     written
     */
    public Current change(Kind kind, String id, Change change) throws SaveFailedException {
        RecordFiles.requireId(kind, id);
        BookLock lock = files.lock();
        try {
            Stored old = stored(kind, id);
            ObjectNode changed = change.of(old.record.deepCopy());
            if (JsonSplice.same(old.record, changed)) {
                return old.current();
            }
            if (kind == Kind.RECIPE) {
                requireOldRevisions(old.file, old.record, changed);
            }
            return put(kind, id, old.path, spliced(old.bytes, old.record, changed));
        } finally {
            lock.close();
        }
    }

    /**
     * One of several records that are saved as one.
     *
     * @param isNew whether there must be none of that id yet; the change then gets an empty record
     */
    public record Part(Kind kind, String id, boolean isNew, Change change) {}

    /**
     * Saves several records as one: all of them or none, whatever stops the program.
     *
     * @param parts records, each a different one
     * @throws ConflictException if there is one already that should be new
     * @throws SaveFailedException if one can't be changed so, or can't be read again as it would be, or can't be
     *     written
     */
    public void together(List<Part> parts) throws ConflictException, SaveFailedException {
        BookLock lock = files.lock();
        try {
            List<Together.Part> all = new ArrayList<>();
            for (Part part : parts) {
                RecordFiles.requireId(part.kind(), part.id());
                if (part.isNew()) {
                    ObjectNode record = part.change().of(JsonNodeFactory.instance.objectNode());
                    all.add(new Together.Part(
                            part.kind(), part.id(), null, text(freshBytes(part.kind(), part.id(), record))));
                } else {
                    Stored old = stored(part.kind(), part.id());
                    byte[] bytes = spliced(old.bytes, old.record, part.change().of(old.record.deepCopy()));
                    requireRecord(part.kind(), part.id(), old.file, bytes);
                    all.add(new Together.Part(part.kind(), part.id(), Versions.of(old.bytes), text(bytes)));
                }
            }
            Together.write(files, folder, all);
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
        Stored old = stored(kind, id);
        Merged merged = Merged.of(kind, id, old.bytes, old.record, edits);
        byte[] bytes = spliced(old.bytes, old.record, merged.record());
        try {
            return Records.read(kind, id, bytes);
        } catch (RefusedException e) {
            throw new SaveFailedException(String.valueOf(e.getMessage()), e.in(old.file, bytes));
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
                throw new SaveFailedException(String.valueOf(e.getMessage()));
            }
        }
        return changed;
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
        RecordFiles.requireId(kind, id);
        BookLock lock = files.lock();
        try {
            return createLocked(kind, id, record);
        } finally {
            lock.close();
        }
    }

    /** Saves a new record for somebody who holds the book already. */
    Current createWithin(BookLock held, Kind kind, String id, ObjectNode record)
            throws ConflictException, SaveFailedException {
        if (held.isClosed()) {
            throw new IllegalStateException("The book is not held.");
        }
        RecordFiles.requireId(kind, id);
        return createLocked(kind, id, record);
    }

    private Current createLocked(Kind kind, String id, ObjectNode record)
            throws ConflictException, SaveFailedException {
        byte[] bytes = freshBytes(kind, id, record);
        return put(kind, id, files.find(kind, id), bytes);
    }

    /** Returns the bytes of a new record's file, which may be put in its place. */
    private byte[] freshBytes(Kind kind, String id, ObjectNode record) throws ConflictException, SaveFailedException {
        Path path = files.find(kind, id);
        files.requireNoFileAsFolder(RecordFiles.parent(path));
        byte[] bytes = utf8(JsonLayout.file(withId(kind, id, record)));
        byte[] old = RecordFiles.bytes(path);
        if (old != null) {
            ObjectNode there = parsed(files.name(path), old);
            throw new ConflictException(
                    "There is a " + kind.word() + " \"" + id + "\" already; give the new one another id.",
                    there,
                    old,
                    record,
                    bytes);
        }
        requireRecord(kind, id, files.name(path), bytes);
        files.makeFolder(RecordFiles.parent(path));
        RecordFiles.requireNoTwin(path);
        return bytes;
    }

    private static ObjectNode withId(Kind kind, String id, ObjectNode record) {
        if (kind == Kind.SETTINGS || record.has("id")) {
            return record;
        }
        ObjectNode named = JsonNodeFactory.instance.objectNode().put("id", id);
        named.setAll(record);
        return named;
    }

    private static String text(byte[] utf8) {
        return new String(utf8, StandardCharsets.UTF_8);
    }

    private static byte[] utf8(String text) {
        return text.getBytes(StandardCharsets.UTF_8);
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
            throw new SaveFailedException("This can't be saved. " + e.getMessage(), e.in(file, bytes), e.missing());
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

    private Current put(Kind kind, String id, Path path, byte[] bytes) throws SaveFailedException {
        ObjectNode record = requireRecord(kind, id, files.name(path), bytes);
        files.put(path, bytes);
        return new Current(files.name(path), Versions.of(bytes), record);
    }
}
