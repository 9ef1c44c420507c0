package pigmentbook.sheet;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;
import org.apache.poi.xssf.usermodel.XSSFSheet;
import org.apache.poi.xssf.usermodel.XSSFWorkbook;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import org.junit.jupiter.params.provider.ValueSource;
import pigmentbook.mix.Caution;
import pigmentbook.mix.Mix;

/** What a workbook promises in its public contract: names, locks, checks, figures, in xlsx and ods alike. */
class WorkbookTest {

    private static final Mix THREE_LAYERS =
            Studio.mix(Studio.Order.volume("5 L").inLayers(3));
    private static final List<String> OF_A_WEIGHING =
            List.of("target_g", "weigh_g", "low_g", "high_g", "actual_g", "lot");
    private static final List<String> OF_THE_SHEET = List.of(
            "mix_total_g",
            "mix_recipe",
            "mix_revision",
            "mix_id",
            "deviation",
            "result_text",
            "result_rating",
            "room_temperature",
            "room_humidity",
            "started");

    /** Beyond the contract: every other blank has a name too, so that nothing typed is lost. */
    private static final List<String> BLANKS_OF_THE_SHEET = List.of("left_g", "level_mm", "made_by", "checked_by");

    private static final List<String> BLANKS_OF_A_CUP = List.of("part_b_in", "pour_by", "poured", "passes");

    private static Reread reread(SheetWriters.Format format, Mix mix) {
        return Reread.of(format, Studio.written(format, Studio.sheet(mix)));
    }

    private static Set<String> contract(Mix mix) {
        Set<String> names = new LinkedHashSet<>(OF_THE_SHEET);
        names.add("mix_plan");
        names.addAll(blanks(mix));
        for (Mix.Layer layer : mix.layers()) {
            for (Mix.Cup cup : layer.cups()) {
                String place = "_" + layer.number() + "_" + cup.number();
                names.add("by" + place);
                for (Mix.Weighing each : cup.items()) {
                    for (String what : OF_A_WEIGHING) {
                        names.add(what + place + "_" + inName(each));
                    }
                }
            }
        }
        return names;
    }

    private static Set<String> blanks(Mix mix) {
        Set<String> names = new LinkedHashSet<>(BLANKS_OF_THE_SHEET);
        for (int i = 1; i <= Wording.checks(mix).size(); i++) {
            names.add("check_" + i);
        }
        for (Mix.Layer layer : mix.layers()) {
            boolean last = layer.number() == mix.layers().size();
            if (mix.layers().size() > 1) {
                names.add("poured_" + layer.number());
                names.add("poured_by_" + layer.number());
            }
            for (Mix.Cup cup : layer.cups()) {
                String place = "_" + layer.number() + "_" + cup.number();
                BLANKS_OF_A_CUP.forEach(what -> names.add(what + place));
                names.add((last ? "demold" : "next_from") + place);
                names.add((last ? "full_cure" : "next_to") + place);
            }
        }
        return names;
    }

    private static String inName(Mix.Weighing weighing) {
        return weighing.item().id().replace(' ', '_').replace('-', '_');
    }

    @ParameterizedTest
    @EnumSource(names = {"XLSX", "ODS"})
    void everyNameOfTheContractIsThereAndNoOther(SheetWriters.Format format) {
        assertThat(reread(format, THREE_LAYERS).names().keySet())
                .containsExactlyInAnyOrderElementsOf(contract(THREE_LAYERS));
    }

    @ParameterizedTest
    @EnumSource(names = {"XLSX", "ODS"})
    void theFiguresInTheFileAreTheMixsOwn(SheetWriters.Format format) {
        Reread sheet = reread(format, THREE_LAYERS);
        assertThat(sheet.named("mix_total_g").number())
                .isEqualTo(THREE_LAYERS.totals().totalGrams());
        assertThat(sheet.named("mix_revision").number()).isEqualTo(4);
        assertThat(sheet.named("mix_recipe").text()).isEqualTo("Ember");
        assertThat(sheet.named("mix_id").text()).isEqualTo("2026-11-25-ember-1");
        for (Mix.Layer layer : THREE_LAYERS.layers()) {
            for (Mix.Cup cup : layer.cups()) {
                for (Mix.Weighing each : cup.items()) {
                    String place = "_" + layer.number() + "_" + cup.number() + "_" + inName(each);
                    assertThat(sheet.named("target_g" + place).number()).isEqualTo(each.exactGrams());
                    assertThat(sheet.named("weigh_g" + place).number()).isEqualTo(each.weighGrams());
                    assertThat(sheet.named("low_g" + place).number()).isEqualTo(each.lowGrams());
                    assertThat(sheet.named("high_g" + place).number()).isEqualTo(each.highGrams());
                    assertThat(each.weighGrams()).isBetween(each.lowGrams(), each.highGrams());
                    assertThat(sheet.named("lot" + place).text())
                            .isEqualTo(each.lots().get(0).lotId());
                    for (String what : List.of("target_g", "weigh_g", "low_g", "high_g")) {
                        assertThat(sheet.named(what + place).formula()).isNotEmpty();
                    }
                }
            }
        }
    }

    @ParameterizedTest
    @EnumSource(names = {"XLSX", "ODS"})
    void onlyEntriesAreOpenAndWeightsAreChecked(SheetWriters.Format format) {
        Reread sheet = reread(format, THREE_LAYERS);
        assertThat(sheet.isProtected()).isTrue();
        Set<String> entries = new LinkedHashSet<>(OF_THE_SHEET.subList(4, OF_THE_SHEET.size()));
        entries.add("mix_total_g");
        entries.addAll(blanks(THREE_LAYERS));
        for (String name : sheet.names().keySet()) {
            if (name.startsWith("actual_g_") || name.startsWith("lot_") || name.startsWith("by_")) {
                entries.add(name);
            }
        }
        for (String name : sheet.names().keySet()) {
            assertThat(sheet.named(name).locked()).as(name).isEqualTo(!entries.contains(name));
            boolean number = name.startsWith("actual_g_")
                    || List.of("mix_total_g", "room_temperature", "room_humidity", "result_rating")
                            .contains(name);
            assertThat(sheet.named(name).checked()).as(name).isEqualTo(number);
            assertThat(name.startsWith("actual_g_") && sheet.named(name).hasContent())
                    .isFalse();
        }
        List<String> openWithContent = new ArrayList<>();
        sheet.cells().forEach((address, cell) -> {
            if (!cell.locked() && cell.hasContent()) {
                openWithContent.add(address);
            }
        });
        assertThat(openWithContent)
                .isNotEmpty()
                .allSatisfy(address -> assertThat(entries)
                        .anyMatch(name -> sheet.names().get(name).equals(address)));
    }

    @ParameterizedTest
    @EnumSource(names = {"XLSX", "ODS"})
    void everyOpenCellHasAName(SheetWriters.Format format) {
        Reread sheet = reread(format, THREE_LAYERS);
        // A merged blank is open in all its cells; the first one carries the name, those right of it do not.
        sheet.cells().forEach((address, cell) -> {
            if (!cell.locked()) {
                int row = Integer.parseInt(address.replaceAll("[A-Z]", ""));
                assertThat(sheet.names().values())
                        .as(address)
                        .anyMatch(named -> Integer.parseInt(named.replaceAll("[A-Z]", "")) == row);
            }
        });
    }

    @ParameterizedTest
    @EnumSource(names = {"XLSX", "ODS"})
    void besideEveryWeighRowStandsItsRecordAndACupsRowsAreOneBlock(SheetWriters.Format format) {
        Reread sheet = reread(format, THREE_LAYERS);
        for (Mix.Layer layer : THREE_LAYERS.layers()) {
            for (Mix.Cup cup : layer.cups()) {
                List<Integer> rows = new ArrayList<>();
                for (Mix.Weighing each : cup.items()) {
                    String place = layer.number() + "/" + cup.number() + "/" + inName(each);
                    String name = "weigh_g_" + place.replace('/', '_');
                    int row = row(sheet, name);
                    rows.add(row);
                    assertThat(sheet.cells().values()).anySatisfy(cell -> {
                        assertThat(cell.text()).isEqualTo(place);
                        assertThat(cell.locked()).isTrue();
                    });
                    assertThat(sheet.cells().get("J" + row).text()).isEqualTo(place);
                    for (String what : OF_A_WEIGHING) {
                        assertThat(row(sheet, what + "_" + place.replace('/', '_')))
                                .isEqualTo(row);
                    }
                }
                for (int i = 1; i < rows.size(); i++) {
                    assertThat(rows.get(i)).isEqualTo(rows.get(0) + i);
                }
                assertThat(rows).doesNotContain(row(sheet, "by_" + layer.number() + "_" + cup.number()));
            }
        }
    }

    private static int row(Reread sheet, String name) {
        return Integer.parseInt(sheet.names().get(name).replaceAll("[A-Z]", ""));
    }

    @ParameterizedTest
    @EnumSource(names = {"XLSX", "ODS"})
    void everyCautionStandsOnTheSheetOnceWithItsBasis(SheetWriters.Format format) {
        Mix mix = Studio.mix(Studio.Order.total("20 g"));
        assertThat(mix.cautions()).anyMatch(each -> each.severity() == Caution.Severity.WARN);
        Reread sheet = reread(format, mix);
        String all = String.join(
                "\n", sheet.cells().values().stream().map(Reread.Found::text).toList());
        for (Caution caution : mix.cautions()) {
            String shown = caution.text() + " [" + caution.basis() + "]";
            assertThat(all.split(java.util.regex.Pattern.quote(shown), -1))
                    .as(shown)
                    .hasSize(2);
        }
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "=1+1",
                "+cmd",
                "-2",
                "@SUM(A1)",
                "\tTab",
                "  two  spaces ",
                "<b>&\"'",
                "_x0041_ stays",
                "אמבר\u200F 琥珀 \uD83D\uDFE0",
                "line\nbreak"
            })
    void textFromTheBookStaysTextAsItIs(String name) {
        Mix mix = Studio.mix(Studio.Order.total("500 g"), name);
        for (SheetWriters.Format format : List.of(SheetWriters.Format.XLSX, SheetWriters.Format.ODS)) {
            Reread.Found cell = reread(format, mix).named("mix_recipe");
            assertThat(cell.text()).as(format.name()).isEqualTo(name);
            assertThat(cell.formula()).isEmpty();
        }
    }

    @Test
    void whatXmlCantHoldIsMarkedAndAVeryLongNameSurvives() {
        Mix mix = Studio.mix(Studio.Order.total("500 g"), "Em\u0001ber" + "x".repeat(300));
        for (SheetWriters.Format format : List.of(SheetWriters.Format.XLSX, SheetWriters.Format.ODS)) {
            assertThat(reread(format, mix).named("mix_recipe").text()).isEqualTo("Em\uFFFDber" + "x".repeat(300));
        }
    }

    @Test
    void theFirstThingInAnOdsIsItsKindInPlainBytes() {
        byte[] ods = Studio.written(SheetWriters.Format.ODS, Studio.sheet(THREE_LAYERS));
        // OpenDocument 1.3 part 2, 3.3: "mimetype" first, stored, so that its text stands at byte 38.
        assertThat(new String(ods, 30, 8, StandardCharsets.US_ASCII)).isEqualTo("mimetype");
        assertThat(new String(ods, 38, 46, StandardCharsets.US_ASCII))
                .isEqualTo("application/vnd.oasis.opendocument.spreadsheet");
    }

    @Test
    void aSheetIsTheSameBytesEachTime() {
        for (SheetWriters.Format format : SheetWriters.Format.values()) {
            if (format != SheetWriters.Format.XLSX) { // its library stamps the zip's entries with the clock
                assertThat(Studio.written(format, Studio.sheet(THREE_LAYERS)))
                        .as(format.name())
                        .isEqualTo(Studio.written(format, Studio.sheet(THREE_LAYERS)));
            }
        }
    }

    @ParameterizedTest
    @EnumSource
    void aOneLayerMixIsSetToOnePageOfTheChosenPaper(Paper paper) throws IOException {
        byte[] xlsx =
                Studio.written(SheetWriters.Format.XLSX, Studio.sheet(Studio.mix(Studio.Order.total("900 g")), paper));
        try (XSSFWorkbook book = new XSSFWorkbook(new ByteArrayInputStream(xlsx))) {
            XSSFSheet sheet = book.getSheetAt(0);
            assertThat(sheet.getFitToPage()).isTrue();
            assertThat(sheet.getPrintSetup().getFitWidth()).isEqualTo((short) 1);
            assertThat(sheet.getPrintSetup().getFitHeight()).isEqualTo((short) 1);
            assertThat(sheet.getPrintSetup().getPaperSize()).isEqualTo((short) (paper == Paper.A4 ? 9 : 1));
            assertThat(sheet.getFooter().getLeft()).contains("2026-11-25-ember-1");
            assertThat(sheet.getFooter().getRight()).contains("&P of &N");
            assertThat(sheet.getSheetConditionalFormatting().getNumConditionalFormattings())
                    .isZero();
        }
    }

    @Test
    void aCupIsNeverTornOverTwoPages() {
        Grid page = Studio.sheet(Studio.mix(Studio.Order.volume("19 L").inLayers(4)), Paper.LETTER)
                .page();
        double onPage = 0;
        int pages = 1;
        String record = "";
        for (Grid.Row row : page.rows()) {
            if (row.newPage()) {
                onPage = 0;
                pages++;
                record = "";
            }
            onPage += row.heightPt();
            assertThat(onPage).isLessThanOrEqualTo(Paper.LETTER.roomPt());
            for (Grid.Placed placed : row.cells()) {
                if (placed.cell().style() == Style.RECORD && placed.cell().content() instanceof Cell.Text text) {
                    boolean first = text.text().endsWith("part_A");
                    String cup = text.text().replaceAll("[^/]*$", "");
                    assertThat(first || cup.equals(record)).as(text.text()).isTrue();
                    record = cup;
                }
            }
        }
        assertThat(pages).isGreaterThan(3);
    }

    @Test
    void weightsAreBigEnoughForAnArmsLengthOnOnePage() {
        for (Paper paper : Paper.values()) {
            Grid page = Studio.sheet(Studio.mix(Studio.Order.volume("1.5 L")), paper)
                    .page();
            assertThat(page.onePage()).isTrue();
            double scale = Math.min(1, paper.roomPt() / page.heightPt());
            assertThat(Style.WEIGH.sizePt() * scale).isGreaterThanOrEqualTo(14);
        }
    }

    @Test
    void columnsFitBothPapers() {
        double wide = Studio.sheet(THREE_LAYERS).page().columnsMm().stream()
                .mapToDouble(Double::doubleValue)
                .sum();
        for (Paper paper : Paper.values()) {
            assertThat(wide).isLessThanOrEqualTo(paper.widthMm() - 2 * Paper.SIDE_MM);
        }
    }

    @Test
    void theChipIsTheReadingAsAScreenShowsIt() throws IOException {
        byte[] ods = Studio.written(SheetWriters.Format.ODS, Studio.sheet(THREE_LAYERS));
        String content = new String(Reread.entry(ods, "content.xml"), StandardCharsets.UTF_8);
        // The reading of the studio is oak brown, whose #8b5a2b is in the reference table of sRGB.
        assertThat(content.contains("fo:background-color=\"#8b5a2b\"")).isTrue();
        assertThat(content.contains("6 mm over white: L* 43, a* 15, b* 35. Print is no standard."))
                .isTrue();
    }
}
