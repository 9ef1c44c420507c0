package pigmentbook.web;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import pigmentbook.store.Import;
import pigmentbook.store.SetAside;
import pigmentbook.store.Unpack;

/**
 * What comes, or came, in with a file, for a person to read.
 *
 * @param fresh what the book lacks; after keeping, what it has now
 * @param same what the book says already
 * @param different what says something else in the book; after keeping, what was changed
 * @param aside what can't come in
 */
public record BroughtIn(List<Thing> fresh, List<Thing> same, List<Different> different, List<Aside> aside) {

    /** As many of one list as are shown. */
    public static final int MOST_SHOWN = 200;

    private static final int YEAR_AND_SLASH = 5;

    /**
     * A record or another file of the book.
     *
     * @param word what it is
     * @param id its id, or the file's name
     * @param href the address of its page; empty where it has none
     */
    public record Thing(String word, String id, String href) {}

    /**
     * Something that the book says otherwise.
     *
     * @param changes what was and is, as far as that is known
     * @param fields the names of what differs, where no more is known
     * @param kept where the old file is kept; empty for nowhere, since the new one holds all of it
     */
    public record Different(Thing thing, List<Import.Change> changes, String fields, String kept) {}

    /** What can't come in: where it stands and why. */
    public record Aside(String where, String why) {}

    static BroughtIn of(Import.Found found) {
        return new BroughtIn(
                things(found.fresh()),
                things(found.same()),
                found.different().stream()
                        .map(each -> new Different(
                                thing(each.file()),
                                each.changes().stream()
                                        .map(change ->
                                                new Import.Change(plain(change.field()), change.was(), change.is()))
                                        .toList(),
                                "",
                                ""))
                        .toList(),
                aside(found));
    }

    static BroughtIn of(Unpack.Found found) {
        return new BroughtIn(
                things(found.fresh()),
                things(found.same()),
                found.different().stream()
                        .map(each -> new Different(thing(each.file()), List.of(), fields(each.fields()), ""))
                        .toList(),
                aside(found.setAside()));
    }

    static BroughtIn kept(Import.Found found) {
        return new BroughtIn(
                things(found.saved().stream()
                        .filter(each -> !each.startsWith("import/"))
                        .toList()),
                things(found.same()),
                replaced(found.changed().stream()
                        .filter(each -> !each.file().startsWith("import/"))
                        .toList()),
                aside(found));
    }

    static BroughtIn kept(Unpack.Found found) {
        return new BroughtIn(
                things(found.saved()), things(found.same()), replaced(found.replaced()), aside(found.setAside()));
    }

    private static List<Different> replaced(List<Unpack.Replaced> replaced) {
        return replaced.stream()
                .map(each -> new Different(thing(each.file()), List.of(), "", each.kept()))
                .toList();
    }

    private static String fields(List<String> fields) {
        return String.join(", ", fields.stream().map(BroughtIn::plain).toList());
    }

    private static List<Aside> aside(Import.Found found) {
        List<Aside> aside = new ArrayList<>();
        for (Import.Aside each : found.setAside()) {
            List<String> where = new ArrayList<>();
            if (!each.sheet().isEmpty()) {
                where.add(each.sheet());
            }
            if (each.row() > 0) {
                where.add((where.isEmpty() ? "Row " : "row ") + each.row());
            }
            if (!each.column().isEmpty()) {
                where.add(each.column());
            }
            aside.add(new Aside(where.isEmpty() ? "The table" : String.join(", ", where), each.why()));
        }
        return aside;
    }

    private static List<Aside> aside(List<SetAside> files) {
        return files.stream().map(each -> new Aside(each.file(), each.why())).toList();
    }

    private static List<Thing> things(List<String> files) {
        return files.stream().map(BroughtIn::thing).toList();
    }

    /** Says what a book's file is. Its name comes from the book or was found safe; an address is made of ids alone. */
    private static Thing thing(String file) {
        if (file.equals("book.json")) {
            return new Thing("the book’s settings", "", "");
        }
        if (!file.endsWith(".json") || file.startsWith("put-away/")) {
            return new Thing("file", file, "");
        }
        String path = file.substring(0, file.length() - ".json".length());
        String id = path.substring(path.lastIndexOf('/') + 1);
        if (path.startsWith("shelf/lots/")) {
            return new Thing("lot", id, "/shelf/lots/" + id);
        }
        if (path.startsWith("shelf/")) {
            return new Thing(path.startsWith("shelf/resins/") ? "resin" : "pigment", id, "/shelf");
        }
        if (path.startsWith("molds/")) {
            return new Thing("mold", id, "/molds/" + id);
        }
        if (path.startsWith("pours/")
                && path.indexOf('/', "pours/".length()) == "pours/".length() + YEAR_AND_SLASH - 1) {
            return new Thing("pour", id, "/pours/" + id);
        }
        return path.contains("/") ? new Thing("file", file, "") : new Thing("recipe", id, "/recipes/" + id);
    }

    /** Makes plain words of a field's name: {@code topLoading} is top loading. */
    private static String plain(String field) {
        if (field.equals("revisions")) {
            return "formula";
        }
        return field.replaceAll("([a-z])([A-Z])", "$1 $2").replace('.', ' ').toLowerCase(Locale.ROOT);
    }

    static String word(Import.As as) {
        return as.name().toLowerCase(Locale.ROOT);
    }
}
