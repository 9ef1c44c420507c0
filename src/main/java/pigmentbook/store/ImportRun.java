package pigmentbook.store;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.node.JsonNodeFactory;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Collection;
import java.util.Comparator;
import java.util.HashMap;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import org.jspecify.annotations.Nullable;
import pigmentbook.book.Book;
import pigmentbook.book.NearIds;
import pigmentbook.book.Settings;

/** One import under way: the book, what was found so far, and what would be written. */
final class ImportRun {

    final Import.Request request;
    final Book book;
    final Names pigments;
    final Names resins;

    private final Path folder;
    private final ImportColumns columns;
    private final Map<String, String> shown = new LinkedHashMap<>();
    private final List<Import.Heads> heads = new ArrayList<>();
    private final Set<String> drops = new TreeSet<>();
    private final Set<String> seen = new HashSet<>();
    private final List<String> fresh = new ArrayList<>();
    private final List<String> same = new ArrayList<>();
    private final List<Import.Different> different = new ArrayList<>();
    private final List<Import.Aside> setAside = new ArrayList<>();
    private final List<Batch.Write> writes = new ArrayList<>();
    private Batch.Done done = new Batch.Done(List.of(), List.of(), List.of());

    private ImportRun(Path folder, Import.Request request, ImportColumns columns) throws BookUnavailableException {
        this.folder = folder;
        this.request = request;
        this.columns = columns;
        this.book = book(folder);
        this.pigments = new Names();
        this.resins = new Names();
        book.pigments().values().forEach(each -> pigments.add(each.id(), each.name()));
        book.resins().values().forEach(each -> resins.add(each.id(), each.name()));
    }

    /** Ids by what people call them. */
    static final class Names {
        private final Map<String, String> ids = new HashMap<>();
        private final Set<String> all = new HashSet<>();
        private final Map<String, String> hints = new HashMap<>();

        void add(String id, String name) {
            all.add(id);
            ids.put(id, id);
            ids.putIfAbsent(Ids.of(name), id);
        }

        /** Returns the id of what is meant, or null. */
        @Nullable
        String find(String text) {
            String exact = ids.get(text);
            return exact != null ? exact : ids.get(Ids.of(text));
        }

        String hint(String text) {
            return hints.computeIfAbsent(text, each -> NearIds.hint(Ids.of(each), all));
        }

        Collection<String> all() {
            return all;
        }
    }

    private static Book book(Path folder) throws BookUnavailableException {
        if (!Files.exists(folder) || isEmpty(folder)) {
            return new Book(Settings.unstated(), List.of(), List.of(), List.of(), List.of(), List.of(), List.of());
        }
        return new BookFolder(folder).open().book();
    }

    private static boolean isEmpty(Path folder) {
        Listing listing = Listing.of(folder);
        return listing.files().isEmpty() && listing.problems().isEmpty();
    }

    static ImportRun of(Path folder, Import.Request request) throws BookUnavailableException, ImportRefusedException {
        ImportColumns columns = ImportColumns.of(folder);
        columns.add(request.columns());
        ImportRun run = new ImportRun(folder, request, columns);
        run.read();
        return run;
    }

    private void read() throws ImportRefusedException {
        if (columns.trouble() != null) {
            setAside.add(new Import.Aside("", 0, "", columns.trouble()));
        }
        Map<Import.As, List<ImportTable>> byKind = new LinkedHashMap<>();
        // What recipes name has to be there before them.
        for (Import.As as : List.of(Import.As.PIGMENTS, Import.As.RESINS, Import.As.LOTS, Import.As.RECIPES)) {
            byKind.put(as, new ArrayList<>());
        }
        List<ImportTable> understood = new ArrayList<>();
        for (Table table : request.tables()) {
            ImportTable known = ImportTable.of(table, columns.learnt());
            Import.As as = known == null ? null : request.as() == null ? known.guess() : request.as();
            ImportTable headed = known == null ? ImportTable.notKnown(table, columns.learnt()) : known;
            heads.add(new Import.Heads(table.sheet(), as, headed == null ? List.of() : headed.shown()));
            if (known == null || as == null) {
                setAside.add(new Import.Aside(table.sheet(), 0, "", notUnderstood(table, known)));
            } else {
                understood.add(known);
                byKind.getOrDefault(as, List.of()).add(known);
            }
        }
        show(understood);
        requireHeads(!understood.isEmpty());
        byKind.getOrDefault(Import.As.PIGMENTS, List.of()).forEach(each -> new ImportShelf(this, each).pigments());
        byKind.getOrDefault(Import.As.RESINS, List.of()).forEach(each -> new ImportShelf(this, each).resins());
        byKind.getOrDefault(Import.As.LOTS, List.of()).forEach(each -> new ImportShelf(this, each).lots());
        ImportRecipes recipes = new ImportRecipes(this);
        byKind.getOrDefault(Import.As.RECIPES, List.of()).forEach(recipes::table);
    }

    private String notUnderstood(Table table, @Nullable ImportTable known) {
        if (table.rows().isEmpty()) {
            return "There is nothing in it.";
        }
        return known == null
                ? "No row of heads was found in its first 20 rows. Put heads such as Recipe, Pigment and Percent above"
                        + " the columns, or " + request.ways().columns() + "."
                : "Its heads don't tell whether the rows are recipes, pigments, resins or lots. "
                        + request.ways().as() + ".";
    }

    private void show(List<ImportTable> tables) {
        for (ImportTable table : tables) {
            for (ImportTable.Column column : table.columns()) {
                String head = tables.size() > 1 ? table.sheet() + ": " + column.head() : column.head();
                shown.put(Records.seen(head), column.meaning().word());
            }
        }
    }

    private void requireHeads(boolean understood) throws ImportRefusedException {
        Set<String> there = new HashSet<>();
        heads.forEach(each -> each.columns().forEach(column -> there.add(ImportTable.folded(column.head()))));
        for (String said : request.columns().keySet()) {
            if (understood && !there.contains(ImportTable.folded(said))) {
                throw new ImportRefusedException("No column has the head \"" + Records.shown(said) + "\"; there are "
                        + String.join(
                                ", ", there.stream().sorted().map(Records::seen).toList()) + ".");
            }
        }
    }

    /** Remembers that a pigment's drop has to be weighed before its rows can come in. */
    void askDrop(String pigment) {
        drops.add(pigment);
    }

    /** Sets a cell, or a whole row, aside. */
    void aside(ImportTable table, Table.Row row, @Nullable Meaning column, String why) {
        setAside.add(new Import.Aside(table.sheet(), row.number(), column == null ? "" : table.head(column), why));
    }

    /** Returns whether this record comes up for the first time in the tables. */
    boolean isFirst(Kind kind, String id) {
        return seen.add(kind.usualFile(PackPath.folded(id)));
    }

    /** Returns the record as its file says it, or null where there is no such file. */
    @Nullable
    ImportRecord stored(Kind kind, String id) throws RefusedException {
        String file = kind.usualFile(id);
        Path path = folder.resolve(file);
        if (!Files.exists(path)) {
            return null;
        }
        try {
            byte[] bytes = Files.readAllBytes(path);
            Records.read(kind, id, bytes);
            return new ImportRecord(file, bytes, JsonFile.read(bytes));
        } catch (IOException | RefusedException e) {
            throw new RefusedException(
                    "",
                    "unreadable",
                    "The book's own " + file
                            + " can't be read, so it stays as it is; \"pigment-book check\" tells why.");
        }
    }

    /** A record's file in the book. */
    static final class ImportRecord {
        final String file;
        final byte[] bytes;
        final ObjectNode record;

        ImportRecord(String file, byte[] bytes, ObjectNode record) {
            this.file = file;
            this.bytes = bytes;
            this.record = record;
        }
    }

    /** Takes a new record, if it can be read. */
    void fresh(Kind kind, String id, ObjectNode record) throws RefusedException {
        byte[] bytes = JsonLayout.file(record).getBytes(StandardCharsets.UTF_8);
        Records.read(kind, id, bytes);
        String file = kind.usualFile(id);
        fresh.add(file);
        writes.add(new Batch.Write(file, null, () -> bytes));
    }

    void same(String file) {
        same.add(file);
    }

    /**
     * Takes a changed record, if it can be read.
     *
     * @param keep whether the old file is kept beside
     */
    void changed(Kind kind, String id, ImportRecord old, ObjectNode record, List<Import.Change> changes, boolean keep)
            throws RefusedException {
        byte[] bytes = BookWriter.spliced(old.bytes, old.record, record);
        Records.read(kind, id, bytes);
        different.add(new Import.Different(old.file, changes));
        writes.add(new Batch.Write(old.file, Versions.of(old.bytes), keep, () -> bytes));
    }

    /** Sets a value, making the objects on its way. */
    static void set(ObjectNode record, String path, String value) {
        String[] steps = path.substring(1).split("/", -1);
        ObjectNode at = record;
        for (int i = 0; i + 1 < steps.length; i++) {
            JsonNode child = at.get(steps[i]);
            at = child instanceof ObjectNode object ? object : at.putObject(steps[i]);
        }
        at.put(steps[steps.length - 1], value);
    }

    static ObjectNode object() {
        return JsonNodeFactory.instance.objectNode();
    }

    void save() throws SaveFailedException {
        List<Batch.Write> all = new ArrayList<>(writes);
        Batch.Write learnt = columns.write();
        if (learnt != null && !request.columns().isEmpty()) {
            all.add(learnt);
        }
        if (!all.isEmpty()) {
            done = Batch.run(folder, new Disk(), all);
        }
    }

    Import.Found found() {
        List<Import.Aside> aside = new ArrayList<>(setAside);
        done.setAside().forEach(each -> aside.add(new Import.Aside("", 0, "", each.file() + ": " + each.why())));
        aside.sort(Comparator.comparing(Import.Aside::sheet).thenComparingInt(Import.Aside::row));
        return new Import.Found(
                shown,
                List.copyOf(heads),
                List.copyOf(drops),
                List.copyOf(fresh),
                List.copyOf(same),
                List.copyOf(different),
                aside,
                done.written(),
                done.replaced().stream()
                        .map(each -> new Unpack.Replaced(each.file(), each.kept()))
                        .toList());
    }
}
