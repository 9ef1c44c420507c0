package pigmentbook.sheet;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.charset.StandardCharsets;
import org.junit.jupiter.api.Test;
import pigmentbook.mix.Mix;

class HtmlWriterTest {

    private static String written(Mix mix, Paper paper) {
        return new String(Studio.written(SheetWriters.Format.HTML, Studio.sheet(mix, paper)), StandardCharsets.UTF_8);
    }

    @Test
    void thePageNeedsNothingFromElsewhereAndRunsNothing() {
        String html = written(Studio.mix(Studio.Order.total("940 g")), Paper.A4);
        assertThat(html.startsWith("<!DOCTYPE html>")).isTrue();
        for (String forbidden : new String[] {"<script", "http://", "https://", "src=", "@import", "url(", "onload"}) {
            assertThat(html.contains(forbidden)).as(forbidden).isFalse();
        }
        assertThat(html.contains("size: A4 portrait")).isTrue();
        assertThat(written(Studio.mix(Studio.Order.total("940 g")), Paper.LETTER)
                        .contains("size: Letter portrait"))
                .isTrue();
    }

    @Test
    void textFromTheBookIsNeverMarkUp() {
        String name = "</style><script>alert('x')</script><b>\"&";
        String html = written(Studio.mix(Studio.Order.total("940 g"), name), Paper.A4);
        assertThat(html.contains("<script")).isFalse();
        assertThat(html.contains("<b>")).isFalse();
        assertThat(html.split("</style>", -1)).hasSize(2);
        assertThat(html.contains("&lt;/style&gt;&lt;script&gt;alert('x')&lt;/script&gt;&lt;b&gt;&quot;&amp;"))
                .isTrue();
    }

    @Test
    void everyRowHasAllItsColumns() {
        Grid page =
                Studio.sheet(Studio.mix(Studio.Order.volume("5 L").inLayers(3))).page();
        String html = written(Studio.mix(Studio.Order.volume("5 L").inLayers(3)), Paper.A4);
        int covered = 0;
        String[] rows = html.split("<tr", -1);
        long seen = page.rows().stream().filter(row -> !row.isHidden()).count();
        assertThat(rows).hasSize((int) seen + 1);
        for (int i = 1; i < rows.length; i++) {
            int columns = covered;
            covered = 0;
            for (String cell : rows[i].split("<t[dh]", -1)) {
                if (cell.startsWith("<") || cell.equals(rows[i].split("<t[dh]", -1)[0])) {
                    continue;
                }
                int across = span(cell, "colspan");
                columns += across;
                covered += span(cell, "rowspan") > 1 ? across : 0;
            }
            assertThat(columns).as("row " + i).isEqualTo(page.columnsMm().size());
        }
    }

    private static int span(String cell, String attribute) {
        int at = cell.indexOf(attribute + "=\"");
        int end = cell.indexOf('>');
        if (at < 0 || at > end) {
            return 1;
        }
        int from = at + attribute.length() + 2;
        return Integer.parseInt(cell.substring(from, cell.indexOf('"', from)));
    }
}
