package pigmentbook.cli;

import com.fasterxml.jackson.core.JsonGenerator;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.io.IOException;
import java.nio.file.Path;
import java.util.List;
import java.util.concurrent.Callable;
import java.util.concurrent.ExecutionException;
import java.util.concurrent.FutureTask;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import pigmentbook.sheet.Entries;
import pigmentbook.sheet.NoMixSheetException;
import pigmentbook.sheet.ReadBack;
import pigmentbook.sheet.SheetFile;
import pigmentbook.store.BookWriter;
import pigmentbook.store.Opened;
import pigmentbook.store.PourKeeper;
import pigmentbook.store.SaveFailedException;

/** Reads a filled-in mix sheet back and keeps the pour that it tells of. */
@Command(
        name = "read-back",
        mixinStandardHelpOptions = true,
        description = "Read a mix sheet that was filled in (xlsx, ods or csv): the pour it tells of, what is"
                + " not as the sheet was made, and what has to be put right. Nothing is written without"
                + " --save; the sheet itself never is.",
        footer = {
            "",
            "Examples:",
            "  pigment-book read-back exports/ember-lamp-panel.xlsx",
            "  pigment-book read-back exports/ember-lamp-panel.ods --format json",
            "  pigment-book read-back exports/ember-lamp-panel.xlsx --save"
        })
final class ReadBackCommand implements Callable<Integer> {

    private static final int DAY = 10;

    @Mixin
    @SuppressWarnings("NullAway.Init")
    private BookOptions book;

    @Mixin
    private AnswerOptions answer = new AnswerOptions();

    @Parameters(paramLabel = "FILE", description = "The sheet: xlsx, ods or csv.")
    @SuppressWarnings("NullAway.Init")
    private Path file;

    @Option(names = "--save", description = "Keep the pour in the book, once, if nothing has to be put right.")
    private boolean save;

    @Override
    public Integer call() throws Exception {
        Path sheet = book.context().here().resolve(file);
        FutureTask<Entries> reading = new FutureTask<>(() -> SheetFile.read(sheet));
        Thread beside = new Thread(reading, "sheet reading");
        beside.setDaemon(true);
        beside.start();
        Opened opened = book.open();
        ReadBack.Draft draft = ReadBack.of(entries(reading), opened.book());
        BookWriter.Current kept = save ? keep(draft) : null;
        if (answer.json()) {
            Json.write(book.context().out(), json -> {
                json.writeStartObject();
                json.writeFieldName("pour");
                Json.tree(json, kept == null ? draft.pour() : kept.record());
                json.writeArrayFieldStart("differences");
                for (ReadBack.Difference each : draft.differences()) {
                    json.writeStartObject();
                    json.writeStringField("cell", each.cell());
                    Json.text(json, "was", each.was());
                    Json.text(json, "is", each.is());
                    json.writeEndObject();
                }
                json.writeEndArray();
                told(json, "problems", draft.problems());
                told(json, "notes", draft.notes());
                if (kept != null) {
                    json.writeStringField("kept", kept.file());
                }
                json.writeEndObject();
            });
        } else {
            String name = String.valueOf(file.getFileName());
            book.context()
                    .out()
                    .print(new ReadBackText(opened.book(), draft, book.context().colour())
                            .text(name, kept == null ? null : kept.file()));
        }
        book.tellProblems(opened);
        return Main.DONE;
    }

    private static void told(JsonGenerator json, String field, List<Entries.Problem> all) throws IOException {
        json.writeArrayFieldStart(field);
        for (Entries.Problem each : all) {
            json.writeStartObject();
            json.writeStringField("cell", each.cell());
            json.writeStringField("text", each.text());
            json.writeEndObject();
        }
        json.writeEndArray();
    }

    /** Waits for the sheet, which was read while the book opened. */
    private static Entries entries(FutureTask<Entries> reading) throws Exception {
        try {
            return reading.get();
        } catch (ExecutionException e) {
            if (e.getCause() instanceof NoMixSheetException no) {
                throw new RequestException(String.valueOf(no.getMessage()));
            }
            throw e;
        }
    }

    private BookWriter.Current keep(ReadBack.Draft draft) {
        List<String> hindrances = draft.hindrances();
        String started = draft.started();
        if (!hindrances.isEmpty() || started == null) {
            throw new RequestException("The pour is not kept; nothing was written.\n" + String.join("\n", hindrances)
                    + (draft.keptAs() == null
                            ? "\nPut it right on the sheet, save it there, and read it back again."
                            : ""));
        }
        ObjectNode pour = draft.pour();
        try {
            return new PourKeeper(book.folder())
                    .keep(started.substring(0, DAY), pour.path("recipe").asText(), pour);
        } catch (SaveFailedException e) {
            throw new RequestException(String.valueOf(e.getMessage()));
        }
    }
}
