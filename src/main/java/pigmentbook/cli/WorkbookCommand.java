package pigmentbook.cli;

import java.nio.file.Path;
import java.util.List;
import java.util.Locale;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import pigmentbook.sheet.BookTables;
import pigmentbook.sheet.TableWriter;
import pigmentbook.store.Opened;
import pigmentbook.store.Table;

/** Writes recipes and shelf as one workbook. */
@Command(
        name = "workbook",
        mixinStandardHelpOptions = true,
        description = {
            "Write recipes, pigments, resins and lots as one workbook, a sheet each.",
            "Change it in an office program; \"import\" shows every change and takes it back."
        },
        footer = {
            "",
            "Examples:",
            "  pigment-book workbook studio.xlsx",
            "  pigment-book workbook studio.ods --replace",
            "  pigment-book import studio.xlsx"
        })
final class WorkbookCommand implements Callable<Integer> {

    @Mixin
    @SuppressWarnings("NullAway.Init")
    private BookOptions book;

    @Mixin
    private AnswerOptions answer = new AnswerOptions();

    @Parameters(paramLabel = "FILE", description = "The workbook to write: .xlsx or .ods.")
    @SuppressWarnings("NullAway.Init")
    private Path file;

    @Option(names = "--replace", description = "Write over FILE if it is there.")
    private boolean replace;

    @Override
    public Integer call() throws Exception {
        Path to = book.context().here().resolve(file);
        String name = String.valueOf(to.getFileName()).toLowerCase(Locale.ROOT);
        if (!name.endsWith(".xlsx") && !name.endsWith(".ods")) {
            throw new RequestException(
                    "\"" + to.getFileName() + "\" ends in neither .xlsx nor .ods; name one of these.");
        }
        Exports.requireFree(to, replace);
        Opened opened = book.open();
        List<Table> tables = BookTables.of(opened.book());
        Exports.writeWhole(to, replace, out -> {
            if (name.endsWith(".ods")) {
                TableWriter.ods(tables, out);
            } else {
                TableWriter.xlsx(tables, out);
            }
        });
        if (answer.json()) {
            Json.write(book.context().out(), json -> {
                json.writeStartObject();
                json.writeStringField("file", to.toString());
                json.writeObjectFieldStart("rows");
                for (Table table : tables) {
                    json.writeNumberField(table.sheet(), table.rows().size() - 1);
                }
                json.writeEndObject();
                json.writeEndObject();
            });
        } else {
            book.context().out().println("Recipes, pigments, resins and lots are in " + to.getFileName() + ".");
        }
        book.tellProblems(opened);
        return Main.DONE;
    }
}
