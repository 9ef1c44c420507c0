package pigmentbook.sheet;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import org.apache.poi.ss.usermodel.Cell;
import org.apache.poi.ss.usermodel.ClientAnchor;
import org.apache.poi.ss.usermodel.Comment;
import org.apache.poi.ss.usermodel.CreationHelper;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import pigmentbook.mix.Mix;

/** What somebody wrote as a comment on a cell is read as words with the cell's name, and never as an amount. */
class SheetCommentsTest {

    private static final Mix ONE_CUP = Studio.mix(Studio.Order.total("940 g"));

    @TempDir
    Path folder;

    private ReadBack.Draft read(byte[] sheet) {
        try {
            return ReadBack.of(SheetFile.read(Files.write(folder.resolve("sheet"), sheet)), Studio.book());
        } catch (IOException | NoMixSheetException e) {
            throw new AssertionError(e);
        }
    }

    private static byte[] sheet(SheetWriters.Format format, Mix mix) {
        return Studio.written(format, Studio.sheet(mix));
    }

    @Test
    void aCommentOnACellIsReadWithItsNameAndChangesNoAmount() {
        byte[] xlsx = Filled.changed(sheet(SheetWriters.Format.XLSX, ONE_CUP), book -> {
            Cell cell = Filled.named(book, "actual_g_1_1_part_A");
            comment(cell, "Ida:\nabout 650 g, the display jumped");
            comment(
                    cell.getRow()
                            .getCell(cell.getColumnIndex())
                            .getSheet()
                            .getRow(0)
                            .getCell(0),
                    "for the shop");
        });
        ReadBack.Draft draft = read(xlsx);
        assertThat(draft.notes())
                .containsExactlyInAnyOrder(
                        new Entries.Problem("actual_g_1_1_part_A", "Ida:\nabout 650 g, the display jumped"),
                        new Entries.Problem("A1", "for the shop"));
        assertThat(draft.problems()).isEmpty();
        assertThat(draft.differences()).isEmpty();
        assertThat(draft.pour().at("/layers/0/cups/0/weighed/0/actual").isNull())
                .isTrue();
        assertThat(draft.pour().at("/comments/0/text").asText()).isNotEmpty();
    }

    private static void comment(Cell cell, String text) {
        CreationHelper help = cell.getSheet().getWorkbook().getCreationHelper();
        ClientAnchor anchor = help.createClientAnchor();
        anchor.setRow1(cell.getRowIndex());
        anchor.setCol1(cell.getColumnIndex());
        Comment comment = cell.getSheet().createDrawingPatriarch().createCellComment(anchor);
        comment.setString(help.createRichTextString(text));
        cell.setCellComment(comment);
    }

    /** A thread of comments (as newer office programs write them) repeats itself in the older part with a preamble. */
    @Test
    void aThreadOfCommentsIsReadOnce() throws Exception {
        byte[] xlsx = Filled.changed(
                sheet(SheetWriters.Format.XLSX, ONE_CUP),
                book -> comment(Filled.named(book, "by_1_1"), "[Threaded comment] Your version shows: Jo helped"));
        String rels = new String(Reread.entry(xlsx, "xl/worksheets/_rels/sheet1.xml.rels"), StandardCharsets.UTF_8);
        byte[] linked = Filled.with(
                xlsx,
                "xl/worksheets/_rels/sheet1.xml.rels",
                rels.replace(
                                "</Relationships>",
                                "<Relationship Id=\"t1\" Type=\"http://schemas.microsoft.com/office/2017/10/relationships/threadedComment\""
                                        + " Target=\"../threadedComments/threadedComment1.xml\"/></Relationships>")
                        .getBytes(StandardCharsets.UTF_8));
        String ref =
                Reread.of(SheetWriters.Format.XLSX, xlsx).names().get("by_1_1").replaceAll("^.*!|\\$", "");
        byte[] threaded = Filled.with(
                linked,
                "xl/threadedComments/threadedComment1.xml",
                ("<ThreadedComments xmlns=\"http://schemas.microsoft.com/office/spreadsheetml/2018/threadedcomments\">"
                                + "<threadedComment ref=\"" + ref
                                + "\" id=\"{1}\"><text>Jo helped</text></threadedComment>"
                                + "<threadedComment ref=\"" + ref
                                + "\" id=\"{2}\"><text>and Kim</text></threadedComment>"
                                + "</ThreadedComments>")
                        .getBytes(StandardCharsets.UTF_8));
        assertThat(read(threaded).notes())
                .containsExactly(new Entries.Problem("by_1_1", "Jo helped"), new Entries.Problem("by_1_1", "and Kim"));
    }

    @Test
    void aCommentInAnOpenDocumentIsReadToo() throws Exception {
        byte[] ods = sheet(SheetWriters.Format.ODS, ONE_CUP);
        String content = new String(Reread.entry(ods, "content.xml"), StandardCharsets.UTF_8);
        String typed = content.replaceFirst(
                "(>)(<text:p>Ember)",
                "$1<office:annotation><dc:creator xmlns:dc=\"http://purl.org/dc/elements/1.1/\">Ida</dc:creator>"
                        + "<text:p>Two lines,</text:p><text:p>the <text:span>second</text:span></text:p></office:annotation>$2");
        assertThat(typed).isNotEqualTo(content);
        ReadBack.Draft draft = read(Filled.with(ods, "content.xml", typed.getBytes(StandardCharsets.UTF_8)));
        assertThat(draft.notes())
                .singleElement()
                .satisfies(note -> assertThat(note.text()).isEqualTo("Two lines,\nthe second"));
        assertThat(draft.problems()).isEmpty();
        assertThat(draft.differences()).isEmpty();
    }
}
