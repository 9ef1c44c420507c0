package pigmentbook.sheet;

import java.io.IOException;
import java.io.OutputStream;
import java.util.List;

/** Writes a mix sheet in any of its formats. */
public final class SheetWriters {

    private SheetWriters() {}

    /** The formats of a mix sheet. */
    public enum Format {
        /** ISO/IEC 29500 workbook. */
        XLSX("xlsx", "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet"),
        /** ISO/IEC 26300 spreadsheet. */
        ODS("ods", "application/vnd.oasis.opendocument.spreadsheet"),
        /** RFC 4180 table, one row an item. */
        CSV("csv", "text/csv; charset=utf-8"),
        /** A page for the screen and for paper. */
        HTML("html", "text/html; charset=utf-8");

        private final String extension;
        private final String mediaType;

        Format(String extension, String mediaType) {
            this.extension = extension;
            this.mediaType = mediaType;
        }

        /** Returns the ending of file names. */
        public String extension() {
            return extension;
        }

        /** Returns the name by which programs tell each other what a file is, IANA's media type. */
        public String mediaType() {
            return mediaType;
        }
    }

    /**
     * Begins to load what a format needs, beside whatever else there is to do before it is written: the xlsx library
     * takes longer to load than a mix to work out.
     *
     * @param format the format that will be written
     */
    public static void prepare(Format format) {
        if (format == Format.XLSX) {
            Thread loading = new Thread(XlsxWriter::load, "xlsx library loading");
            loading.setDaemon(true);
            loading.start();
        }
    }

    /**
     * Writes a sheet.
     *
     * @param format the format
     * @param sheet the sheet
     * @param out where to; it is flushed and left open
     * @throws IOException if it can't be written
     */
    public static void write(Format format, MixSheet sheet, OutputStream out) throws IOException {
        switch (format) {
            case XLSX -> XlsxWriter.write(sheet, out);
            case ODS -> OdsWriter.write(sheet, out);
            case CSV -> CsvWriter.write(sheet, out);
            case HTML -> HtmlWriter.write(List.of(sheet), out);
        }
        out.flush();
    }

    /**
     * Writes sheets as one page for the screen and for paper, each beginning a new sheet of paper.
     *
     * @param sheets the sheets, at least one, all on the same paper
     * @param out where to; it is flushed and left open
     * @throws IOException if it can't be written
     */
    public static void writePages(List<MixSheet> sheets, OutputStream out) throws IOException {
        HtmlWriter.write(sheets, out);
        out.flush();
    }
}
