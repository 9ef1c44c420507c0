package pigmentbook.sheet;

import static org.assertj.core.api.Assertions.assertThat;

import com.opencsv.CSVReaderBuilder;
import com.opencsv.RFC4180ParserBuilder;
import com.opencsv.exceptions.CsvException;
import java.io.IOException;
import java.io.StringReader;
import java.nio.charset.StandardCharsets;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import pigmentbook.mix.Mix;
import pigmentbook.quantity.Numbers;

/** The csv of a mix: RFC 4180, one row an item. */
class CsvWriterTest {

    private static String written(Mix mix) {
        return new String(Studio.written(SheetWriters.Format.CSV, Studio.sheet(mix)), StandardCharsets.UTF_8);
    }

    private static List<String[]> rows(String csv) throws IOException, CsvException {
        return new CSVReaderBuilder(new StringReader(csv))
                .withCSVParser(new RFC4180ParserBuilder().build())
                .build()
                .readAll();
    }

    @Test
    void eachItemIsARowInTheOrderOfWorkWithFiguresInFull() throws IOException, CsvException {
        Mix mix = Studio.mix(Studio.Order.volume("5 L").inLayers(3));
        String csv = written(mix);
        assertThat(csv).endsWith("\r\n").doesNotContainPattern("[^\r]\n");
        List<String[]> rows = rows(csv);
        assertThat(rows.get(0))
                .startsWith(
                        "layer",
                        "cup",
                        "item",
                        "name",
                        "lot",
                        "exact_g",
                        "weigh_g",
                        "low_g",
                        "high_g",
                        "display_g",
                        "actual_g");
        int next = 1;
        for (Mix.Layer layer : mix.layers()) {
            for (Mix.Cup cup : layer.cups()) {
                for (Mix.Weighing each : cup.items()) {
                    assertThat(rows.get(next++))
                            .startsWith(
                                    String.valueOf(layer.number()),
                                    String.valueOf(cup.number()),
                                    each.item().id(),
                                    each.name(),
                                    each.lots().get(0).lotId(),
                                    Numbers.plain(each.exactGrams()),
                                    Numbers.plain(each.weighGrams()),
                                    Numbers.plain(each.lowGrams()),
                                    Numbers.plain(each.highGrams()),
                                    Numbers.plain(each.displayGrams()),
                                    "");
                }
            }
        }
        assertThat(rows).hasSize(next);
    }

    @ParameterizedTest
    @CsvSource({"=1+1", "+1", "-1", "@x"})
    void aTextThatLooksLikeAFormulaIsQuotedForOfficePrograms(String name) throws IOException, CsvException {
        List<String[]> rows = rows(written(Studio.mix(Studio.Order.total("500 g"), name)));
        assertThat(rows.get(1)).contains("'" + name);
    }

    @Test
    void tabsAndLineEndsInFrontAreQuotedTooAndOtherTextIsNot() {
        assertThat(CsvWriter.harmless("\tx")).isEqualTo("'\tx");
        assertThat(CsvWriter.harmless("\rx")).isEqualTo("'\rx");
        assertThat(CsvWriter.harmless("amber = warm")).isEqualTo("amber = warm");
        assertThat(CsvWriter.harmless("")).isEmpty();
    }

    @Test
    void commasQuotesAndLettersOfAllKindsSurvive() throws IOException, CsvException {
        String name = "Ember, \"warm\"; dérivé 琥珀";
        assertThat(rows(written(Studio.mix(Studio.Order.total("500 g"), name))).get(1))
                .contains(name);
    }
}
