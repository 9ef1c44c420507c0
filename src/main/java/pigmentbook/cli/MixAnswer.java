package pigmentbook.cli;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDateTime;
import java.util.List;
import java.util.Locale;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.ParameterException;
import picocli.CommandLine.Spec;
import pigmentbook.mix.Mix;
import pigmentbook.sheet.MixSheet;
import pigmentbook.sheet.Paper;
import pigmentbook.sheet.SheetIds;
import pigmentbook.sheet.SheetInfo;
import pigmentbook.sheet.SheetWriters;
import pigmentbook.store.Opened;

/** A command that answers with a mix, in every form there is. */
abstract class MixAnswer implements Runnable {

    /** The forms of the answer. */
    enum Form {
        text,
        json,
        csv,
        xlsx,
        ods,
        html
    }

    @Spec
    @SuppressWarnings("NullAway.Init")
    CommandSpec spec;

    @Mixin
    @SuppressWarnings("NullAway.Init")
    BookOptions book;

    @Mixin
    private MixOptions options = new MixOptions();

    @Option(
            names = "--format",
            paramLabel = "text|json|csv|xlsx|ods|html",
            description =
                    "How to answer. With --to FILE its ending decides; with --to DIR: xlsx, ods and csv, and the text.")
    private @Nullable Form format;

    @Option(names = "--to", paramLabel = "FILE-OR-DIR", description = "Where to write; a folder gets new names.")
    private @Nullable Path to;

    @Option(names = "--replace", description = "Let --to FILE replace a file that is there.")
    private boolean replace;

    @Option(names = "--paper", paramLabel = "a4|letter", description = "The paper the sheet is fitted to.")
    private @Nullable String paper;

    @Override
    public void run() {
        try {
            answer();
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    private void answer() throws IOException {
        Context context = book.context();
        pigmentbook.mix.MixRequest request = options.request(context, spec.commandLine());
        Paper fitted = paper();
        warm(context);
        Opened opened = openBook();
        if (request.size() instanceof pigmentbook.mix.MixRequest.ForMold wanted) {
            book.mold(opened, wanted.moldId());
        }
        Mix mix = mix(opened, request);
        if (to == null) {
            toStandardOutput(context, mix, fitted);
        } else {
            Path target = context.here().resolve(to);
            if (Files.isDirectory(target)) {
                toFolder(context, mix, fitted, target);
            } else {
                toFile(context, mix, fitted, target);
            }
        }
        book.tellProblems(opened);
    }

    /** Lets what an xlsx needs be loaded while the book opens. */
    private void warm(Context context) {
        boolean xlsx = format == Form.xlsx
                || (format == null
                        && to != null
                        && (to.toString().endsWith(".xlsx")
                                || Files.isDirectory(context.here().resolve(to))));
        if (xlsx) {
            SheetWriters.prepare(SheetWriters.Format.XLSX);
        }
    }

    private Opened openBook() {
        try {
            return book.open();
        } catch (pigmentbook.store.BookUnavailableException e) {
            throw new RequestException(String.valueOf(e.getMessage()));
        }
    }

    /** Works the mix out. */
    abstract Mix mix(Opened opened, pigmentbook.mix.MixRequest request);

    private Paper paper() {
        if (paper == null) {
            String country = Locale.getDefault().getCountry();
            return country.equals("US") || country.equals("CA") || country.equals("MX") ? Paper.LETTER : Paper.A4;
        }
        return switch (paper.toLowerCase(Locale.ROOT)) {
            case "a4" -> Paper.A4;
            case "letter" -> Paper.LETTER;
            default -> throw new ParameterException(spec.commandLine(), "--paper takes a4 or letter");
        };
    }

    private MixSheet sheet(Context context, Mix mix, Paper fitted) {
        LocalDateTime now = LocalDateTime.now(context.clock()).withNano(0);
        return MixSheet.of(
                mix, new SheetInfo(SheetIds.next(context.clock(), mix.recipe().id()), now, "", fitted));
    }

    private void toStandardOutput(Context context, Mix mix, Paper fitted) throws IOException {
        Form form = format == null ? Form.text : format;
        switch (form) {
            case text -> context.out().print(MixText.of(mix, context.colour()));
            case json -> Json.write(context.out(), json -> MixJson.write(json, mix));
            default -> {
                if (context.terminal() && (form == Form.xlsx || form == Form.ods)) {
                    throw new RequestException(
                            "A workbook can't be shown on a terminal. Say where to write it: --to exports");
                }
                SheetWriters.write(sheetFormat(form), sheet(context, mix, fitted), context.out());
            }
        }
    }

    private static SheetWriters.Format sheetFormat(Form form) {
        return SheetWriters.Format.valueOf(form.name().toUpperCase(Locale.ROOT));
    }

    private void toFolder(Context context, Mix mix, Paper fitted, Path folder) throws IOException {
        String stem = mix.recipe().id() + "-" + options.fileName();
        Form plain = format;
        if (plain == Form.text || plain == Form.json) {
            Exports.write(folder, stem, List.of(ending(plain)), (ending, out) -> writePlain(mix, plain, out))
                    .forEach(file -> context.out().println("Written: " + shown(context, file)));
            return;
        }
        List<String> endings = format == null ? List.of("xlsx", "ods", "csv") : List.of(format.name());
        MixSheet sheet = sheet(context, mix, fitted);
        List<Path> written = Exports.write(
                folder,
                stem,
                endings,
                (ending, out) -> SheetWriters.write(sheetFormat(Form.valueOf(ending)), sheet, out));
        if (format == null) {
            context.out().print(MixText.of(mix, context.colour()));
            context.out().println();
        }
        for (Path file : written) {
            context.out().println("Written: " + shown(context, file));
        }
    }

    private static String shown(Context context, Path file) {
        return (file.startsWith(context.here()) ? context.here().relativize(file) : file)
                .toString()
                .replace('\\', '/');
    }

    private static String ending(Form form) {
        return form == Form.text ? "txt" : form.name();
    }

    private static void writePlain(Mix mix, Form form, java.io.OutputStream out) {
        java.io.PrintStream print = new java.io.PrintStream(out, false, java.nio.charset.StandardCharsets.UTF_8);
        if (form == Form.json) {
            Json.write(print, json -> MixJson.write(json, mix));
        } else {
            print.print(MixText.of(mix, false));
        }
        print.flush();
    }

    private void toFile(Context context, Mix mix, Paper fitted, Path file) throws IOException {
        Form form = format == null ? byEnding(file) : format;
        MixSheet sheet = form == Form.text || form == Form.json ? null : sheet(context, mix, fitted);
        Exports.writeFile(file, replace, out -> {
            if (sheet == null) {
                writePlain(mix, form, out);
            } else {
                SheetWriters.write(sheetFormat(form), sheet, out);
            }
        });
        context.out().println("Written: " + shown(context, file));
    }

    private Form byEnding(Path file) {
        String name = String.valueOf(file.getFileName()).toLowerCase(Locale.ROOT);
        for (Form form : Form.values()) {
            if (name.endsWith("." + ending(form))) {
                return form;
            }
        }
        if (!Files.exists(file) && name.indexOf('.') < 0) {
            throw new RequestException("There is no folder \"" + to
                    + "\". Make it first, or name a file that ends in .xlsx, .ods, .csv, .html, .json or .txt.");
        }
        throw new RequestException("The ending of \"" + to
                + "\" names no format; .xlsx, .ods, .csv, .html, .json or .txt was expected, or --format.");
    }
}
