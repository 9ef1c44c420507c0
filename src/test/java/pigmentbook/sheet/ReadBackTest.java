package pigmentbook.sheet;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import com.opencsv.exceptions.CsvException;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDateTime;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Random;
import org.apache.poi.ss.usermodel.Row;
import org.apache.poi.xssf.usermodel.XSSFSheet;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.EnumSource;
import pigmentbook.mix.Mix;
import pigmentbook.quantity.Mass;
import pigmentbook.quantity.Numbers;
import pigmentbook.store.LooseJson;

/** A sheet that was filled in tells what was filled in: no more, no less, and nothing else than was typed. */
class ReadBackTest {

    private static final Mix MIX = Studio.mix(Studio.Order.volume("5 L").inLayers(3));
    private static final Mix ONE_CUP = Studio.mix(Studio.Order.total("940 g"));

    @TempDir
    Path folder;

    private ReadBack.Draft read(byte[] sheet) {
        return ReadBack.of(entries(sheet), Studio.book());
    }

    private Entries entries(byte[] sheet) {
        try {
            return SheetFile.read(Files.write(folder.resolve("sheet"), sheet));
        } catch (IOException | NoMixSheetException e) {
            throw new AssertionError(e);
        }
    }

    private static byte[] sheet(SheetWriters.Format format, Mix mix) {
        return Studio.written(format, Studio.sheet(mix));
    }

    private ReadBack.Draft filled(SheetWriters.Format format, Mix mix, Map<String, Object> typed) {
        return read(Filled.in(format, sheet(format, mix), typed));
    }

    private static JsonNode weighed(ReadBack.Draft draft, int layer, int cup, String item) {
        for (JsonNode each : draft.pour().at("/layers/" + (layer - 1) + "/cups/" + (cup - 1) + "/weighed")) {
            if (each.path("item").asText().equals(item)) {
                return each;
            }
        }
        throw new AssertionError("no " + item);
    }

    private static Map<String, String> problems(ReadBack.Draft draft) {
        Map<String, String> problems = new LinkedHashMap<>();
        draft.problems().forEach(each -> problems.put(each.cell(), each.text()));
        return problems;
    }

    @ParameterizedTest
    @EnumSource(names = {"XLSX", "ODS", "CSV"})
    void anUntouchedSheetHasNoDifferencesAndAllTargets(SheetWriters.Format format) {
        ReadBack.Draft draft = read(sheet(format, MIX));
        assertThat(draft.differences()).isEmpty();
        assertThat(draft.problems()).isEmpty();
        assertThat(draft.mixId()).isEqualTo("2026-11-25-ember-1");
        assertThat(draft.pour().path("recipe").asText()).isEqualTo("ember");
        assertThat(draft.pour().path("revision").intValue()).isEqualTo(4);
        assertThat(draft.started()).isNull();
        assertThat(draft.pour().path("layers")).hasSize(3);
        for (Mix.Layer layer : MIX.layers()) {
            for (Mix.Cup cup : layer.cups()) {
                for (Mix.Weighing each : cup.items()) {
                    JsonNode weighed = weighed(
                            draft, layer.number(), cup.number(), each.item().id());
                    assertThat(Mass.parse(weighed.path("target").asText()).grams())
                            .isCloseTo(each.exactGrams(), within(each.exactGrams() * 1e-8));
                    assertThat(weighed.path("actual").isNull()).isTrue();
                    assertThat(weighed.path("lot").asText())
                            .isEqualTo(each.lots().get(0).lotId());
                }
            }
        }
    }

    /** Whatever is typed where, in many sheets at random: what comes back is what was typed. */
    @ParameterizedTest
    @EnumSource(names = {"XLSX", "ODS", "CSV"})
    void whatComesBackIsWhatWasTyped(SheetWriters.Format format) {
        Random random = new Random(25_11_2026);
        byte[] blank = sheet(format, MIX);
        for (int round = 0; round < (format == SheetWriters.Format.XLSX ? 15 : 40); round++) {
            Map<String, Object> typed = new LinkedHashMap<>();
            Map<String, String> grams = new LinkedHashMap<>();
            for (Mix.Layer layer : MIX.layers()) {
                for (Mix.Cup cup : layer.cups()) {
                    for (Mix.Weighing each : cup.items()) {
                        if (random.nextInt(3) > 0) {
                            String name = CellNames.of("actual_g", layer.number(), cup.number(), each.item());
                            double value = random.nextInt(200_000) / 100.0;
                            typed.put(name, random.nextBoolean() ? value : Numbers.plain(value) + " g");
                            grams.put(name, Numbers.plain(value) + " g");
                        }
                    }
                }
            }
            for (String name : List.of("deviation", "result_text", "left_g", "level_mm")) {
                typed.put(name, name.endsWith("g") || name.endsWith("mm") ? "" + random.nextInt(90) : words(random));
            }
            ReadBack.Draft draft = filled(format, MIX, typed);
            assertThat(draft.problems()).isEmpty();
            Map<String, String> is = new LinkedHashMap<>();
            draft.differences().forEach(each -> {
                assertThat(each.was()).isNull();
                is.put(each.cell(), each.is());
            });
            Map<String, String> expected = new LinkedHashMap<>();
            typed.forEach((name, value) ->
                    expected.put(name, value instanceof Double number ? Numbers.plain(number) : value.toString()));
            assertThat(is).containsExactlyInAnyOrderEntriesOf(expected);
            grams.forEach((name, value) -> {
                RowName row = RowName.ofName(name);
                assertThat(weighed(draft, row.layer(), row.cup(), row.item().id())
                                .path("actual")
                                .asText())
                        .isEqualTo(value);
            });
            assertThat(draft.pour().path("deviation").asText()).isEqualTo(typed.get("deviation"));
            assertThat(draft.pour().at("/result/text").asText()).isEqualTo(typed.get("result_text"));
        }
    }

    private static String words(Random random) {
        String letters = "abc äß琥珀<&>\"',;\n=+-@_x0041_";
        StringBuilder words = new StringBuilder("x");
        for (int i = random.nextInt(30); i > 0; i--) {
            words.append(letters.charAt(random.nextInt(letters.length())));
        }
        return words.append("x").toString();
    }

    @ParameterizedTest
    @EnumSource(names = {"XLSX", "ODS"})
    void everyBlankOfTheSheetComesBack(SheetWriters.Format format) {
        Map<String, Object> typed = new LinkedHashMap<>();
        Map<String, String> names = Reread.of(format, sheet(format, MIX)).names();
        for (String name : names.keySet()) {
            if (CellNames.isOfASheet(name) && !name.startsWith("mix_")) {
                typed.put(name, name.matches("room_.*|result_rating|left_g|level_mm") ? "4" : "as " + name);
            }
        }
        typed.put("started", "2026-11-25 10:15");
        ReadBack.Draft draft = filled(format, MIX, typed);
        assertThat(draft.problems()).isEmpty();
        assertThat(draft.differences()).hasSize(typed.size());
        String pour = LooseJson.line(draft.pour());
        typed.forEach((name, text) -> {
            if (text.toString().startsWith("as ")) {
                assertThat(pour).as(name).contains("\"" + text);
            }
        });
        assertThat(draft.pour().path("temperature").asText()).isEqualTo("4 C");
        assertThat(draft.pour().path("humidity").asText()).isEqualTo("4 %");
        assertThat(draft.pour().path("left").asText()).isEqualTo("4 g");
        assertThat(draft.pour().path("level").asText()).isEqualTo("4 mm");
        assertThat(draft.pour().at("/result/rating").intValue()).isEqualTo(4);
    }

    @ParameterizedTest
    @CsvSource(delimiter = '|', textBlock = """
            # typed          | in the pour
            210.4            | 210.4 g
            210,4            | 210.4 g
            210,4 g          | 210.4 g
            0.2104 kg        | 210.4 g
            0                | 0 g
            '  643 '         | 643 g
            1 1/2            | 1.5 g
            """)
    void aWeightIsReadHoweverItIsTyped(String typed, String expected) {
        for (SheetWriters.Format format :
                List.of(SheetWriters.Format.XLSX, SheetWriters.Format.ODS, SheetWriters.Format.CSV)) {
            ReadBack.Draft draft = filled(format, ONE_CUP, Map.of("actual_g_1_1_part_A", typed));
            assertThat(draft.problems()).isEmpty();
            assertThat(weighed(draft, 1, 1, "part A").path("actual").asText()).isEqualTo(expected);
        }
    }

    @ParameterizedTest
    @CsvSource(delimiter = '|', textBlock = """
            210,400 | "210,400 g" is ambiguous: write 210.4 g or 210400 g.
            -5      | "-5 g" is below zero; a mass is 0 or more.
            lots    | "lots" can't be read; a mass is expected, such as 250 g or 1 lb 3 oz.
            210 mL  | "210 mL" is a volume; a mass is expected, such as 250 g or 1 lb 3 oz.
            2.1.4   | "2.1.4 g" has gaps or marks between its digits; write them together with at most one decimal mark, such as 1500.5.
            """)
    void aWeightThatCantBeReadIsAProblemAndNoWeight(String typed, String text) {
        for (SheetWriters.Format format :
                List.of(SheetWriters.Format.XLSX, SheetWriters.Format.ODS, SheetWriters.Format.CSV)) {
            ReadBack.Draft draft = filled(format, ONE_CUP, Map.of("actual_g_1_1_part_A", typed));
            assertThat(problems(draft)).containsExactly(Map.entry("actual_g_1_1_part_A", text));
            assertThat(weighed(draft, 1, 1, "part A").path("actual").isNull()).isTrue();
            assertThat(draft.differences())
                    .containsExactly(new ReadBack.Difference("actual_g_1_1_part_A", null, typed));
        }
    }

    @ParameterizedTest
    @EnumSource(names = {"XLSX", "ODS"})
    void anotherTotalMovesEveryTargetThoughNoFormulaWasWorkedOutAnew(SheetWriters.Format format) {
        ReadBack.Draft draft = filled(format, ONE_CUP, Map.of("mix_total_g", 470.0));
        assertThat(draft.differences()).containsExactly(new ReadBack.Difference("mix_total_g", "940", "470"));
        for (Mix.Weighing each : ONE_CUP.layers().get(0).cups().get(0).items()) {
            double target = Mass.parse(weighed(draft, 1, 1, each.item().id())
                            .path("target")
                            .asText())
                    .grams();
            assertThat(target).isCloseTo(each.exactGrams() / 2, within(1e-6));
        }
        assertThat(problems(filled(format, ONE_CUP, Map.of("mix_total_g", "")))).containsOnlyKeys("mix_total_g");
    }

    @ParameterizedTest
    @EnumSource(names = {"XLSX", "ODS"})
    void withoutItsHiddenPlanTheSharesSeenOnTheSheetDo(SheetWriters.Format format) {
        ReadBack.Draft draft = filled(format, ONE_CUP, Map.of("mix_plan", "", "mix_total_g", 470.0));
        assertThat(draft.problems()).isEmpty();
        Mix.Weighing first = ONE_CUP.layers().get(0).cups().get(0).items().get(0);
        assertThat(Mass.parse(weighed(draft, 1, 1, "part A").path("target").asText())
                        .grams())
                .isCloseTo(first.exactGrams() / 2, within(1e-6));
    }

    @ParameterizedTest
    @EnumSource(names = {"XLSX", "ODS", "CSV"})
    void aLotIsOneOfTheBookOrUnknown(SheetWriters.Format format) {
        ReadBack.Draft draft = filled(
                format,
                ONE_CUP,
                Map.of(
                        "lot_1_1_part_A", "A-2408",
                        "lot_1_1_copper_mica", "CM-04",
                        "lot_1_1_rust_paste", "unknown",
                        "lot_1_1_amber_paste", "RP-02",
                        "lot_1_1_part_B", ""));
        assertThat(problems(draft))
                .containsOnly(
                        Map.entry(
                                "lot_1_1_part_A",
                                "There is no lot \"A-2408\" in the book. Nearest: A-2409, B-2409. Write the lot that was"
                                        + " used, or \"unknown\"."),
                        Map.entry(
                                "lot_1_1_amber_paste",
                                "The lot RP-02 is rust-paste, but amber-paste was weighed. Write the lot that was used,"
                                        + " or \"unknown\"."));
        assertThat(draft.differences())
                .contains(
                        new ReadBack.Difference("lot_1_1_part_A", "A-2409", "A-2408"),
                        new ReadBack.Difference("lot_1_1_part_B", "B-2409", null),
                        new ReadBack.Difference("lot_1_1_rust_paste", "RP-02", "unknown"));
        assertThat(weighed(draft, 1, 1, "copper-mica").path("lot").asText()).isEqualTo("CM-04");
        assertThat(weighed(draft, 1, 1, "rust-paste").path("lot").asText()).isEqualTo("unknown");
        assertThat(weighed(draft, 1, 1, "part B").path("lot").isNull()).isTrue();
    }

    @ParameterizedTest
    @CsvSource({"0", "6", "4.5", "good"})
    void aResultOutsideOneToFiveIsAProblem(String typed) {
        ReadBack.Draft draft = filled(SheetWriters.Format.XLSX, ONE_CUP, Map.of("result_rating", typed));
        assertThat(problems(draft)).containsOnlyKeys("result_rating");
        assertThat(draft.pour().at("/result/rating").isNull()).isTrue();
    }

    @Test
    void theStartIsReadAsADateOfTheOfficeProgramOrAsText() {
        byte[] xlsx = sheet(SheetWriters.Format.XLSX, ONE_CUP);
        byte[] dated = Filled.changed(
                xlsx, book -> Filled.named(book, "started").setCellValue(LocalDateTime.of(2026, 3, 2, 10, 15)));
        assertThat(read(dated).started()).isEqualTo("2026-03-02T10:15");
        // 46083 days from 30 December 1899 on it is 2 March 2026.
        assertThat(filled(SheetWriters.Format.XLSX, ONE_CUP, Map.of("started", 46083.0))
                        .started())
                .isEqualTo("2026-03-02");
        assertThat(filled(SheetWriters.Format.ODS, ONE_CUP, Map.of("started", "2026-03-02T10:15:00"))
                        .started())
                .isEqualTo("2026-03-02T10:15");
        assertThat(filled(SheetWriters.Format.CSV, ONE_CUP, Map.of("started", "2026-03-02 10:15"))
                        .started())
                .isEqualTo("2026-03-02T10:15");
        ReadBack.Draft vague = filled(SheetWriters.Format.XLSX, ONE_CUP, Map.of("started", "yesterday"));
        assertThat(problems(vague)).containsOnlyKeys("started");
        assertThat(vague.started()).isNull();
    }

    @Test
    void aPercentAndADayAreToldFromANumberByTheirFormat() {
        byte[] sheet = Filled.changed(sheet(SheetWriters.Format.XLSX, ONE_CUP), book -> {
            var style = book.createCellStyle();
            style.setDataFormat(book.createDataFormat().getFormat("0%"));
            Filled.named(book, "room_humidity").setCellValue(0.48);
            Filled.named(book, "room_humidity").setCellStyle(style);
            var day = book.createCellStyle();
            day.setDataFormat(book.createDataFormat().getFormat("dd.mm.yyyy"));
            // 3.5 typed where a comma is the decimal mark becomes the third of May.
            Filled.named(book, "actual_g_1_1_copper_mica").setCellValue(46145);
            Filled.named(book, "actual_g_1_1_copper_mica").setCellStyle(day);
        });
        ReadBack.Draft draft = read(sheet);
        assertThat(draft.pour().path("humidity").asText()).isEqualTo("48 %");
        assertThat(problems(draft)).containsOnlyKeys("actual_g_1_1_copper_mica");
    }

    /** An office program that sorts rows leaves the names where they were. */
    @Test
    void sortedRowsKeepTheirEntries() {
        Map<String, Object> typed = new LinkedHashMap<>();
        Map<String, String> expected = new LinkedHashMap<>();
        int grams = 100;
        for (Mix.Weighing each : ONE_CUP.layers().get(0).cups().get(0).items()) {
            typed.put(CellNames.of("actual_g", 1, 1, each.item()), (double) ++grams);
            expected.put(each.item().id(), grams + " g");
        }
        byte[] filled = Filled.in(SheetWriters.Format.XLSX, sheet(SheetWriters.Format.XLSX, ONE_CUP), typed);
        byte[] sorted = Filled.changed(filled, book -> {
            XSSFSheet sheet = book.getSheetAt(0);
            int first = Filled.named(book, "weigh_g_1_1_part_A").getRowIndex();
            int last = Filled.named(book, "weigh_g_1_1_part_B").getRowIndex();
            for (int i = 0; i < (last - first + 1) / 2; i++) {
                swap(sheet.getRow(first + i), sheet.getRow(last - i));
            }
        });
        ReadBack.Draft draft = read(sorted);
        assertThat(draft.problems()).isEmpty();
        expected.forEach((item, weight) -> {
            assertThat(weighed(draft, 1, 1, item).path("actual").asText())
                    .as(item)
                    .isEqualTo(weight);
            assertThat(weighed(draft, 1, 1, item).path("lot").asText()).as(item).isNotEmpty();
        });
        assertThat(draft.differences()).hasSize(typed.size());
    }

    private static void swap(Row a, Row b) {
        for (int column : new int[] {2, 7, 9}) {
            String text = text(a.getCell(column));
            String other = text(b.getCell(column));
            put(a.getCell(column), other);
            put(b.getCell(column), text);
        }
    }

    private static String text(org.apache.poi.ss.usermodel.Cell cell) {
        return cell.getCellType() == org.apache.poi.ss.usermodel.CellType.NUMERIC
                ? Numbers.plain(cell.getNumericCellValue())
                : cell.getStringCellValue();
    }

    private static void put(org.apache.poi.ss.usermodel.Cell cell, String text) {
        if (text.matches("[0-9.]+")) {
            cell.setCellValue(Double.parseDouble(text));
        } else {
            cell.setCellValue(text);
        }
    }

    @Test
    void aPinchMoreInARowOfItsOwnCountsUnderItsRecordAndIsAskedForWithoutOne() {
        byte[] xlsx = sheet(SheetWriters.Format.XLSX, ONE_CUP);
        for (boolean told : new boolean[] {true, false}) {
            byte[] more = Filled.changed(xlsx, book -> {
                int last = Filled.named(book, "weigh_g_1_1_part_B").getRowIndex();
                Row row = book.getSheetAt(0).getRow(last + 1);
                row.createCell(7).setCellValue(2.5);
                if (told) {
                    // A second row of the same record would be asked about; this one is of another cup.
                    row.createCell(9).setCellValue("1/2/copper_mica");
                }
            });
            ReadBack.Draft draft = read(more);
            if (told) {
                assertThat(draft.problems()).isEmpty();
                assertThat(weighed(draft, 1, 2, "copper-mica").path("actual").asText())
                        .isEqualTo("2.5 g");
            } else {
                assertThat(draft.problems())
                        .singleElement()
                        .satisfies(each -> assertThat(each.text()).contains("record id"));
            }
        }
    }

    @Test
    void aRecordThatStandsTwiceOrIsGoneIsTold() {
        byte[] xlsx = sheet(SheetWriters.Format.XLSX, ONE_CUP);
        byte[] twice = Filled.changed(xlsx, book -> {
            int row = Filled.named(book, "weigh_g_1_1_part_B").getRowIndex();
            book.getSheetAt(0).getRow(row).getCell(9).setCellValue("1/1/part_A");
        });
        assertThat(problems(read(twice))).containsOnlyKeys("actual_g_1_1_part_A", "actual_g_1_1_part_B");
    }

    @Test
    void aCsvIsReadWithSemicolonsTabsAMarkInFrontAndCommasInNumbers() throws IOException, CsvException {
        byte[] csv = sheet(SheetWriters.Format.CSV, ONE_CUP);
        for (char separator : new char[] {';', '\t', ','}) {
            byte[] filled = Filled.csv(csv, Map.of("actual_g_1_1_part_A", "643,5"), separator);
            String marked = "\ufeff" + new String(filled, StandardCharsets.UTF_8);
            ReadBack.Draft draft = read(marked.getBytes(StandardCharsets.UTF_8));
            assertThat(draft.problems()).isEmpty();
            assertThat(weighed(draft, 1, 1, "part A").path("actual").asText()).isEqualTo("643.5 g");
        }
    }

    @Test
    void aDraftFromAnotherProgramGivesTheSamePour() throws IOException, NoMixSheetException {
        Map<String, Object> typed = Map.of("actual_g_1_1_part_A", "643,5 g", "by_1_1", "Ida");
        ReadBack.Draft fromSheet = filled(SheetWriters.Format.XLSX, ONE_CUP, typed);
        ObjectNode draft = LooseJson.read("""
                { "mix_id": "2026-11-25-ember-1", "recipe": "ember", "revision": 4,
                  "entries": { "actual_g_1_1_part_A": "643,5 g", "by_1_1": "Ida" } }
                """.getBytes(StandardCharsets.UTF_8));
        String plan = Plan.of(ONE_CUP).text();
        ((ObjectNode) draft.path("entries")).put("mix_plan", plan);
        Map<String, String> all = new LinkedHashMap<>(
                entries(sheet(SheetWriters.Format.XLSX, ONE_CUP)).cells());
        all.forEach((name, text) -> {
            if (name.startsWith("lot_") || (name.startsWith("actual_g_") && !name.endsWith("part_A"))) {
                ((ObjectNode) draft.path("entries")).put(name, text);
            }
        });
        ReadBack.Draft fromDraft = ReadBack.of(Entries.of(draft), Studio.book());
        assertThat(fromDraft.problems()).isEmpty();
        assertThat(fromDraft.pour()).isEqualTo(fromSheet.pour());
    }

    private static Map<String, String> notes(ReadBack.Draft draft) {
        Map<String, String> notes = new LinkedHashMap<>();
        draft.notes().forEach(each -> notes.put(each.cell(), each.text()));
        return notes;
    }

    @Test
    void aLotOfAnotherStrengthIsToldAndChangesNoAmount() {
        ReadBack.Draft draft = filled(
                SheetWriters.Format.CSV,
                ONE_CUP,
                Map.of("lot_1_1_amber_paste", "AP-99", "actual_g_1_1_amber_paste", "11.1"));
        assertThat(draft.problems()).isEmpty();
        assertThat(notes(draft))
                .containsExactly(Map.entry(
                        "lot_1_1_amber_paste",
                        "The lot AP-99 is 100 % strong, and the target counts on AP-07 with 96 %: the colour differs"
                                + " unless the amount did too."));
        assertThat(weighed(draft, 1, 1, "amber-paste").path("actual").asText()).isEqualTo("11.1 g");
    }

    @Test
    void moreOfALotThanWasLeftIsTold() {
        ReadBack.Draft draft = filled(
                SheetWriters.Format.CSV,
                MIX,
                Map.of("actual_g_1_1_copper_mica", "4.9", "actual_g_2_1_copper_mica", "4.9"));
        assertThat(draft.problems()).isEmpty();
        assertThat(notes(draft))
                .containsExactly(Map.entry(
                        "lot_1_1_copper_mica",
                        "This takes 9.80 g of the lot CM-03, and 5.00 g was left. If another lot went in too, write it"
                                + " in the cups it went into."));
    }
}
