package pigmentbook.cli;

import com.fasterxml.jackson.core.JsonGenerator;
import java.io.IOException;
import java.nio.file.Path;
import java.util.List;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.ParameterException;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;
import pigmentbook.store.BadPackException;
import pigmentbook.store.SaveFailedException;
import pigmentbook.store.SetAside;
import pigmentbook.store.Unpack;

/** Looks a pack through, and takes it in. */
@Command(
        name = "unpack",
        mixinStandardHelpOptions = true,
        description = {
            "Show what in a pack is new, the same or different beside the book, and what",
            "can't be taken and why. Nothing is written without --save."
        },
        footer = {
            "",
            "Into a folder that is empty or not there yet a new book is unpacked.",
            "What --take-theirs replaces is kept in the book's put-away/replaced.",
            "",
            "Examples:",
            "  pigment-book unpack ember.zip",
            "  pigment-book unpack ember.zip --save",
            "  pigment-book --book second unpack workshop.zip --save --format json"
        })
final class UnpackCommand implements Callable<Integer> {

    private static final int SHOWN = 40;

    @Mixin
    @SuppressWarnings("NullAway.Init")
    private BookOptions book;

    @Mixin
    private AnswerOptions answer = new AnswerOptions();

    @Spec
    @SuppressWarnings("NullAway.Init")
    private CommandSpec spec;

    @Parameters(paramLabel = "FILE", description = "The pack.")
    @SuppressWarnings("NullAway.Init")
    private Path file;

    @Option(names = "--save", description = "Take in what is new; what differs stays as it is.")
    private boolean save;

    @Option(
            names = "--take-theirs",
            description = "With --save: also let what differs take the place of the book's own.")
    private boolean takeTheirs;

    @Override
    public Integer call() {
        if (takeTheirs && !save) {
            throw new ParameterException(spec.commandLine(), "--take-theirs goes with --save.");
        }
        Path from = book.context().here().resolve(file);
        Unpack.Found found;
        try {
            found = save ? Unpack.save(book.folder(), from, takeTheirs) : Unpack.look(book.folder(), from);
        } catch (BadPackException | SaveFailedException e) {
            throw new RequestException(String.valueOf(e.getMessage()));
        }
        if (answer.json()) {
            Json.write(book.context().out(), json -> write(json, found));
        } else {
            book.context().out().print(text(found));
        }
        return Main.DONE;
    }

    private static void write(JsonGenerator json, Unpack.Found found) throws IOException {
        json.writeStartObject();
        Json.texts(json, "new", found.fresh());
        Json.texts(json, "same", found.same());
        json.writeArrayFieldStart("different");
        for (Unpack.Different each : found.different()) {
            json.writeStartObject();
            json.writeStringField("file", each.file());
            Json.texts(json, "fields", each.fields());
            json.writeEndObject();
        }
        json.writeEndArray();
        setAside(json, found.setAside());
        Json.texts(json, "saved", found.saved());
        json.writeArrayFieldStart("replaced");
        for (Unpack.Replaced each : found.replaced()) {
            json.writeStartObject();
            json.writeStringField("file", each.file());
            json.writeStringField("kept", each.kept());
            json.writeEndObject();
        }
        json.writeEndArray();
        json.writeEndObject();
    }

    static void setAside(JsonGenerator json, List<SetAside> setAside) throws IOException {
        json.writeArrayFieldStart("set_aside");
        for (SetAside each : setAside) {
            json.writeStartObject();
            json.writeStringField("file", each.file());
            json.writeStringField("why", each.why());
            json.writeEndObject();
        }
        json.writeEndArray();
    }

    private String text(Unpack.Found found) {
        Lines lines = new Lines(false);
        lines.head(found.fresh().size() + " new, " + found.same().size() + " the same, "
                + found.different().size() + " different, " + found.setAside().size() + " set aside.");
        few(lines, "New: ", found.fresh());
        few(
                lines,
                "Different: ",
                found.different().stream()
                        .map(each -> each.file()
                                + (each.fields().isEmpty() ? "" : " (" + String.join(", ", each.fields()) + ")"))
                        .toList());
        few(
                lines,
                "Set aside: ",
                found.setAside().stream()
                        .map(each -> each.file() + ". " + each.why())
                        .toList());
        few(
                lines,
                "Replaced: ",
                found.replaced().stream()
                        .map(each -> each.file() + "; the old one is kept as " + each.kept())
                        .toList());
        lines.blank();
        if (save) {
            lines.text(found.saved().size() + " files were taken in"
                    + (found.replaced().isEmpty()
                            ? "."
                            : " and " + found.replaced().size() + " replaced.")
                    + (found.different().size() > found.replaced().size()
                            ? " What differs stays as it is; --take-theirs would replace it."
                            : ""));
        } else {
            lines.text("Nothing was written. With --save the new ones are taken in.");
        }
        return lines.toString();
    }

    /** Adds some lines of a list that may be long. */
    static void few(Lines lines, String head, List<String> texts) {
        texts.stream().limit(SHOWN).forEach(each -> lines.hanging(head, each));
        if (texts.size() > SHOWN) {
            lines.hanging(head, "… and " + (texts.size() - SHOWN) + " more; --format json lists all.");
        }
    }
}
