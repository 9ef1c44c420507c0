package pigmentbook.web;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.node.JsonNodeFactory;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Collection;
import java.util.List;
import pigmentbook.book.Book;
import pigmentbook.store.BookWriter;
import pigmentbook.store.ConflictException;
import pigmentbook.store.Edit;
import pigmentbook.store.Ids;
import pigmentbook.store.Kind;
import pigmentbook.store.SaveFailedException;

/** Begins new records of the shelf and new molds from what was typed into an empty row. */
final class NewRecords {

    private NewRecords() {}

    /**
     * Creates a record and returns its id.
     *
     * @param cells texts by the path they belong to; the name makes the id, a lot's id is typed
     * @throws SaveFailedException if something that is needed is missing or can't be read
     */
    static String create(LiveBook live, Kind kind, JsonNode cells, LocalDate today)
            throws SaveFailedException, ConflictException {
        Book book = live.now().book();
        String id = kind == Kind.LOT
                ? cells.path("id").asText().strip()
                : freeId(ids(book, kind), cells.path("/name").asText(), kind.word());
        if (id.isEmpty()) {
            throw new SheetEdits.BadRequest("Type the lot's id first: what stands on its label.");
        }
        if (kind != Kind.LOT && cells.path("/name").asText().isBlank()) {
            throw new SheetEdits.BadRequest("Type its name first.");
        }
        ObjectNode record = start(kind, id, today);
        List<Edit> edits = new ArrayList<>();
        cells.properties().forEach(cell -> {
            String text = cell.getValue().asText().strip();
            if (cell.getKey().startsWith("/") && !text.isEmpty()) {
                edits.add(new Edit(Edit.What.SET, cell.getKey(), "", text));
            }
        });
        if (cells.path("/price/amount").asText().isBlank()) {
            edits.removeIf(edit -> edit.path().startsWith("/price/"));
        } else {
            edits.add(new Edit(Edit.What.SET, "/price/currency", "", SheetEdits.usualCurrency(book)));
        }
        for (Edit edit : edits) {
            String wrong = SheetEdits.wrongLink(book, edit);
            if (wrong != null) {
                throw new SheetEdits.BadRequest(wrong);
            }
        }
        if (kind == Kind.LOT
                && book.resins().containsKey(cells.path("/of").asText().strip())
                && cells.path("/part").asText().isBlank()) {
            throw new SheetEdits.BadRequest("\"part\" is missing; A or B was expected for a lot of a resin.", "/part");
        }
        live.writer().create(kind, id, BookWriter.with(record, edits));
        return id;
    }

    private static Collection<String> ids(Book book, Kind kind) {
        return switch (kind) {
            case RESIN -> book.resins().keySet();
            case PIGMENT -> book.pigments().keySet();
            case MOLD -> book.molds().keySet();
            case RECIPE -> book.recipes().keySet();
            default -> book.lots().keySet();
        };
    }

    private static ObjectNode start(Kind kind, String id, LocalDate today) {
        ObjectNode record = JsonNodeFactory.instance.objectNode();
        record.put("id", id);
        switch (kind) {
            case MOLD -> {
                record.put("name", "");
                record.putObject("shape")
                        .put("kind", "box")
                        .put("length", "300 mm")
                        .put("width", "200 mm")
                        .put("depth", "20 mm");
                record.put("fill", "12 mm");
                record.putArray("inserts");
                record.putNull("bareWood").put("count", 1).putNull("measured").put("notes", "");
            }
            case LOT -> record.put("received", today.toString());
            default -> record.put("name", "");
        }
        return record;
    }

    /**
     * Returns an id made of a name that nothing of its kind has yet.
     *
     * @param taken the ids there are
     * @param otherwise the id's beginning where the name has no letter or digit
     */
    static String freeId(Collection<String> taken, String name, String otherwise) {
        String plain = Ids.of(name);
        boolean kept = plain.equals("book") || plain.equals("part-a") || plain.equals("part-b");
        String stem = plain.isEmpty() || kept ? otherwise : plain;
        String id = stem;
        for (int number = 2; taken.contains(id); number++) {
            id = stem + "-" + number;
        }
        return id;
    }
}
