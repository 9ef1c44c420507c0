package pigmentbook.cli;

import com.fasterxml.jackson.core.JsonGenerator;
import java.io.IOException;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.concurrent.Callable;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.ParameterException;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;
import pigmentbook.sheet.BadTableException;
import pigmentbook.sheet.TableReader;
import pigmentbook.store.Import;
import pigmentbook.store.ImportRefusedException;
import pigmentbook.store.SaveFailedException;
import pigmentbook.store.Unpack;

/** Brings in what a studio already has in tables. */
@Command(
        name = "import",
        mixinStandardHelpOptions = true,
        description = {
            "Bring in recipes, pigments, resins or lots from a table: xlsx, ods or csv. Shows",
            "what is new, the same, different, and what can't come in and why, cell by cell.",
            "Nothing is written without --save."
        },
        footer = {
            "",
            "A row is a pigment of a recipe (the recipe's name on each row or on the first",
            "alone), a pigment, a resin, or a lot. Masses become percents of the resin's",
            "grams: a column Resin grams, or rows for part A and part B.",
            "",
            "Examples:",
            "  pigment-book import colours.xlsx",
            "  pigment-book import colours.csv --columns \"Shade=recipe,Dose=grams\" --save",
            "  pigment-book import cans.ods --as lots --save",
            "  pigment-book import old.csv --drop-mass \"amber-ink=0.03 g\" --resin slow-cast"
        })
final class ImportCommand implements Callable<Integer> {

    private static final Import.Ways WAYS = new Import.Ways(
            "say what they hold with --columns \"Head=recipe,Other head=percent\"",
            "Say so with --as, or what the columns hold with --columns",
            "name one for all with --resin",
            "let it be made with --add-pigments",
            pigment -> "give it: --drop-mass \"" + pigment + "=0.03 g\" with your figure");

    @Mixin
    @SuppressWarnings("NullAway.Init")
    private BookOptions book;

    @Mixin
    private AnswerOptions answer = new AnswerOptions();

    @Spec
    @SuppressWarnings("NullAway.Init")
    private CommandSpec spec;

    @Parameters(paramLabel = "FILE", description = "The table: xlsx, ods or csv.")
    @SuppressWarnings("NullAway.Init")
    private Path file;

    @Option(names = "--save", description = "Write it. A changed formula becomes a new revision.")
    private boolean save;

    @Option(
            names = "--as",
            paramLabel = "recipes|pigments|resins|lots",
            description = "What the rows are; default: as the heads tell.")
    private Import.@Nullable As as;

    @Option(
            names = "--columns",
            paramLabel = "HEAD=MEANING,…",
            description = "What columns hold; - for nothing. Remembered in the book with --save.")
    private List<String> columns = new ArrayList<>();

    @Option(names = "--resin", paramLabel = "ID", description = "The resin of recipes that name none.")
    private @Nullable String resin;

    @Option(
            names = "--drop-mass",
            paramLabel = "PIGMENT=MASS",
            description = "What one drop weighs (weigh 20, divide by 20); again and again.")
    private List<String> dropMasses = new ArrayList<>();

    @Option(names = "--add-pigments", description = "Make pigments that the book lacks from their names alone.")
    private boolean addPigments;

    @Override
    public Integer call() throws Exception {
        Path from = book.context().here().resolve(file);
        Import.Found found;
        try {
            Import.Request request = new Import.Request(
                    TableReader.read(from),
                    as,
                    pairs("--columns", joined(columns)),
                    resin,
                    pairs("--drop-mass", dropMasses),
                    addPigments,
                    LocalDate.now(book.context().clock()),
                    String.valueOf(from.getFileName()),
                    WAYS);
            found = save ? Import.save(book.folder(), request) : Import.look(book.folder(), request);
        } catch (BadTableException | ImportRefusedException | SaveFailedException e) {
            throw new RequestException(String.valueOf(e.getMessage()));
        }
        if (answer.json()) {
            Json.write(book.context().out(), json -> write(json, found));
        } else {
            book.context().out().print(text(found));
        }
        return Main.DONE;
    }

    /** Takes a list apart at its commas; a head may hold one, so a part without = belongs to the next. */
    private static List<String> joined(List<String> lists) {
        List<String> pairs = new ArrayList<>();
        for (String list : lists) {
            String open = "";
            for (String part : list.split(",", -1)) {
                open = open.isEmpty() ? part : open + "," + part;
                if (part.contains("=")) {
                    pairs.add(open);
                    open = "";
                }
            }
            if (!open.isBlank()) {
                pairs.add(open);
            }
        }
        return pairs;
    }

    private Map<String, String> pairs(String option, List<String> texts) {
        Map<String, String> pairs = new LinkedHashMap<>();
        for (String text : texts) {
            int at = text.lastIndexOf('=');
            if (at <= 0 || at == text.length() - 1) {
                throw new ParameterException(
                        spec.commandLine(),
                        option + " \"" + text + "\" has no two sides; write "
                                + (option.equals("--columns") ? "Head=meaning" : "pigment=mass") + ".");
            }
            pairs.put(text.substring(0, at).strip(), text.substring(at + 1).strip());
        }
        return pairs;
    }

    private static void write(JsonGenerator json, Import.Found found) throws IOException {
        json.writeStartObject();
        json.writeObjectFieldStart("columns");
        for (Map.Entry<String, String> each : found.columns().entrySet()) {
            json.writeStringField(each.getKey(), each.getValue());
        }
        json.writeEndObject();
        Json.texts(json, "new", found.fresh());
        Json.texts(json, "same", found.same());
        json.writeArrayFieldStart("different");
        for (Import.Different each : found.different()) {
            json.writeStartObject();
            json.writeStringField("file", each.file());
            Json.texts(
                    json,
                    "fields",
                    each.changes().stream().map(Import.Change::field).toList());
            json.writeArrayFieldStart("changes");
            for (Import.Change change : each.changes()) {
                json.writeStartObject();
                json.writeStringField("field", change.field());
                json.writeStringField("was", change.was());
                json.writeStringField("is", change.is());
                json.writeEndObject();
            }
            json.writeEndArray();
            json.writeEndObject();
        }
        json.writeEndArray();
        json.writeArrayFieldStart("set_aside");
        for (Import.Aside each : found.setAside()) {
            json.writeStartObject();
            json.writeStringField("sheet", each.sheet());
            json.writeNumberField("row", each.row());
            json.writeStringField("column", each.column());
            json.writeStringField("why", each.why());
            json.writeEndObject();
        }
        json.writeEndArray();
        Json.texts(json, "saved", found.saved());
        Json.texts(
                json,
                "changed",
                found.changed().stream().map(Unpack.Replaced::file).toList());
        json.writeEndObject();
    }

    private String text(Import.Found found) {
        Lines lines = new Lines(false);
        List<String> heads = new ArrayList<>();
        found.columns().forEach((head, word) -> heads.add(head + (word.equals("-") ? " is not used" : " is " + word)));
        if (!heads.isEmpty()) {
            lines.hanging("Columns: ", String.join("; ", heads) + ".");
        }
        lines.head(found.fresh().size() + " new, " + found.same().size() + " the same, "
                + found.different().size() + " different, " + found.setAside().size() + " set aside.");
        UnpackCommand.few(lines, "New: ", found.fresh());
        List<String> changes = new ArrayList<>();
        for (Import.Different each : found.different()) {
            for (Import.Change change : each.changes()) {
                String was = change.was().isEmpty() ? "nothing" : change.was();
                changes.add(each.file() + ", " + change.field() + " was " + was + ", is " + change.is());
            }
        }
        UnpackCommand.few(lines, "Different: ", changes);
        UnpackCommand.few(
                lines,
                "Set aside: ",
                found.setAside().stream().map(ImportCommand::where).toList());
        lines.blank();
        lines.text(
                save
                        ? found.saved().size() + " files were written and "
                                + found.changed().size() + " changed."
                        : "Nothing was written. With --save the new and the different ones are.");
        return lines.toString();
    }

    private static String where(Import.Aside aside) {
        List<String> where = new ArrayList<>();
        if (!aside.sheet().isEmpty()) {
            where.add("sheet " + aside.sheet());
        }
        if (aside.row() > 0) {
            where.add("row " + aside.row());
        }
        if (!aside.column().isEmpty()) {
            where.add("column " + aside.column());
        }
        return String.join(", ", where) + (where.isEmpty() ? "" : ": ") + aside.why();
    }
}
