package pigmentbook.sheet;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.time.DateTimeException;
import java.time.Duration;
import java.time.LocalTime;
import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import pigmentbook.quantity.Numbers;

/** Reads an OpenDocument spreadsheet (ISO/IEC 26300) from front to back: names, and cells as text. */
final class OdsReader {

    /** Where text lies in a cell. Notes and drawings in it are no part of what it says. */
    private static final Set<String> TEXT = Set.of("p", "h", "span", "a", "s", "tab", "line-break");

    /** What holds cells that stand on no page, such as changes that were made. */
    private static final Set<String> ASIDE = Set.of(
            "tracked-changes", "shapes", "forms", "dde-links", "database-ranges", "data-pilot-tables", "scripts");

    private static final int MOST_ROW = 20_000_000;

    private final Pages pages = new Pages();
    private final Markup xml;
    private String page = "";
    private int row;

    private OdsReader(byte[] content) throws NoMixSheetException {
        this.xml = new Markup(content);
    }

    static Pages read(ZipParts zip) throws NoMixSheetException, IOException {
        requireOpen(zip);
        OdsReader reader = new OdsReader(zip.need("content.xml"));
        reader.read();
        return reader.pages;
    }

    private static void requireOpen(ZipParts zip) throws NoMixSheetException, IOException {
        byte[] manifest = zip.read("META-INF/manifest.xml");
        boolean encrypted = zip.has("encrypted-package");
        if (manifest != null) {
            Markup xml = new Markup(manifest);
            while (!encrypted && xml.next()) {
                encrypted = xml.starts("encryption-data");
            }
        }
        if (encrypted) {
            throw new NoMixSheetException(
                    "is locked with a password. Open it, save it without one, and read that one.");
        }
        byte[] kind = zip.read("mimetype");
        if (kind != null && !new String(kind, StandardCharsets.UTF_8).contains("spreadsheet")) {
            throw new NoMixSheetException("is an OpenDocument file, but no spreadsheet.");
        }
    }

    private void read() throws NoMixSheetException {
        while (xml.next()) {
            if (!xml.starts()) {
                continue;
            }
            switch (xml.name()) {
                case "table" -> {
                    page = or(xml.attribute("name"));
                    row = 0;
                }
                case "table-row" -> row();
                case "named-range" -> pages.name(or(xml.attribute("name")), or(xml.attribute("cell-range-address")));
                default -> {
                    if (ASIDE.contains(xml.name())) {
                        xml.skip();
                    }
                }
            }
        }
    }

    private static String or(@Nullable String text) {
        return text == null ? "" : text;
    }

    /** A cell that holds something, with how often it stands beside itself. */
    private record Run(int column, int count, String text) {}

    private void row() throws NoMixSheetException {
        int rows = repeated("number-rows-repeated");
        List<Run> runs = new ArrayList<>();
        int column = 0;
        while (!xml.ends("table-row") && xml.next()) {
            if (xml.starts("table-cell") || xml.starts("covered-table-cell")) {
                int count = repeated("number-columns-repeated");
                String text = cell(xml.name(), column);
                if (!text.isBlank()) {
                    runs.add(new Run(column, count, text));
                }
                column = Math.min(MOST_ROW, column + count);
            }
        }
        for (int down = 0; down < rows && !runs.isEmpty(); down++) {
            for (Run run : runs) {
                for (int across = 0; across < run.count(); across++) {
                    pages.put(page, row + down, run.column() + across, run.text());
                }
            }
        }
        row = Math.min(MOST_ROW, row + rows);
    }

    private int repeated(String attribute) {
        String count = xml.attribute(attribute);
        try {
            return count == null ? 1 : Math.max(1, Math.min(MOST_ROW, Integer.parseInt(count)));
        } catch (NumberFormatException e) {
            return MOST_ROW;
        }
    }

    private String cell(String element, int column) throws NoMixSheetException {
        String type = or(xml.attribute("value-type"));
        String value = or(xml.attribute("value"));
        String date = or(xml.attribute("date-value"));
        String time = or(xml.attribute("time-value"));
        String yes = or(xml.attribute("boolean-value"));
        String words = xml.attribute("string-value");
        StringBuilder text = new StringBuilder();
        int lines = 0;
        while (!xml.ends(element) && xml.next()) {
            if (xml.starts("p")) {
                Markup.add(text, lines++ == 0 ? "" : "\n");
                paragraph(text);
            } else if (xml.starts("annotation")) {
                pages.comment(page, new Pages.Spot(row, column), annotation());
            } else if (xml.starts()) {
                xml.skip();
            }
        }
        return switch (type) {
            case "float", "currency" -> figure(value, false);
            case "percentage" -> figure(value, true);
            case "date" -> date(date);
            case "time" -> time(time);
            case "boolean" -> yes.equals("true") ? "TRUE" : "FALSE";
            default -> words == null ? text.toString() : words;
        };
    }

    /** Returns the words of a comment; who wrote it and when is no part of them. */
    private String annotation() throws NoMixSheetException {
        StringBuilder text = new StringBuilder();
        while (!xml.ends("annotation") && xml.next()) {
            if (xml.starts("p")) {
                Markup.add(text, text.isEmpty() ? "" : "\n");
                paragraph(text);
            } else if (xml.starts()
                    && !xml.name().equals("annotation")
                    && !xml.name().startsWith("list")) {
                xml.skip();
            }
        }
        return text.toString();
    }

    private void paragraph(StringBuilder text) throws NoMixSheetException {
        while (!xml.ends("p") && xml.next()) {
            xml.addText(text);
            if (xml.starts("s")) {
                int spaces = xml.attribute("c") == null ? 1 : repeated("c");
                if (spaces > Markup.MOST_TEXT) {
                    spaces = Markup.MOST_TEXT;
                }
                Markup.add(text, " ".repeat(spaces));
            } else if (xml.starts("tab")) {
                Markup.add(text, "\t");
            } else if (xml.starts("line-break")) {
                Markup.add(text, "\n");
            } else if (xml.starts() && !TEXT.contains(xml.name())) {
                xml.skip();
            }
        }
    }

    private static String figure(String written, boolean percent) {
        try {
            double value = Double.parseDouble(written);
            return !Double.isFinite(value) ? written : percent ? XlsxReader.percent(value) : Numbers.plain(value);
        } catch (NumberFormatException e) {
            return written;
        }
    }

    private static String date(String written) {
        java.time.LocalDateTime moment = Moments.read(written);
        return moment == null ? written : Moments.written(moment);
    }

    private static String time(String written) {
        try {
            Duration time = Duration.parse(written);
            boolean ofADay = !time.isNegative() && time.toDays() == 0;
            return ofADay ? LocalTime.MIDNIGHT.plus(time).toString() : written;
        } catch (DateTimeException e) {
            return written;
        }
    }
}
