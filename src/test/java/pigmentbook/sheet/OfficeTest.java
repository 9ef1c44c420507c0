package pigmentbook.sheet;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.io.ByteArrayInputStream;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.function.UnaryOperator;
import java.util.regex.Pattern;
import java.util.zip.ZipEntry;
import java.util.zip.ZipInputStream;
import java.util.zip.ZipOutputStream;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import pigmentbook.mix.Mix;
import pigmentbook.quantity.Numbers;

/** Sheets opened by an office program, worked out anew, saved, and read back. */
@Tag("office")
class OfficeTest {

    private static final double SAME = 1e-9;

    private static Office office;

    @TempDir
    Path folder;

    private Path out;

    @BeforeAll
    static void findOffice() throws IOException {
        office = Office.orSkip();
    }

    @BeforeEach
    void makeFolder() throws IOException {
        out = Files.createDirectories(folder.resolve("out"));
    }

    private static Map<String, Mix> mixes() {
        Map<String, Mix> mixes = new LinkedHashMap<>();
        mixes.put("one", Studio.mix(Studio.Order.total("940 g")));
        mixes.put("cups", Studio.mix(Studio.Order.volume("1.5 L")));
        mixes.put("three", Studio.mix(Studio.Order.volume("5 L").inLayers(3)));
        mixes.put("zeroed", Studio.mix(Studio.Order.total("512.5 g").withTare("0 g")));
        mixes.put("fine", Studio.mix(Studio.Order.total("87.65 g").onScales("0.1 g", "0.001 g")));
        mixes.put("fives", Studio.mix(Studio.Order.total("733 g").onScales("5 g", "0.05 g")));
        mixes.put("ounces", Studio.mix(Studio.Order.total("29.5 oz").onScales("1/8 oz", "1 grain")));
        mixes.put("thirds", Studio.mix(Studio.Order.total("611 g").onScales("1/3 oz", "0.02 g")));
        mixes.put("tiny", Studio.mix(Studio.Order.total("3 g").onScales("1 g", "0.01 g")));
        mixes.put(
                "big",
                Studio.mix(Studio.Order.total("1499.99 g")
                        .onScales("0.01 g", "0.001 g")
                        .inCupsOf("2 kg")));
        return mixes;
    }

    @Test
    void everyFigureWorkedOutAnewIsTheMixsOwn() throws IOException {
        Map<String, Mix> mixes = mixes();
        for (SheetWriters.Format format : List.of(SheetWriters.Format.XLSX, SheetWriters.Format.ODS)) {
            Map<String, Path> files = new LinkedHashMap<>();
            for (Map.Entry<String, Mix> each : mixes.entrySet()) {
                byte[] sheet = Studio.written(format, Studio.sheet(each.getValue()));
                files.put(each.getKey(), save(each.getKey(), format, withoutFigures(format, sheet)));
            }
            SheetWriters.Format other = other(format);
            office.save(files.values(), other.extension(), out);
            for (Map.Entry<String, Mix> each : mixes.entrySet()) {
                assertFigures(each.getKey(), resaved(each.getKey(), other), each.getValue());
            }
        }
    }

    @Test
    void anotherTotalTypedIntoTheSheetIsAnotherMix() throws IOException {
        for (SheetWriters.Format format : List.of(SheetWriters.Format.XLSX, SheetWriters.Format.ODS)) {
            Map<String, Path> files = new LinkedHashMap<>();
            double[] totals = {3, 29.5, 333.33, 612.345678, 940.5, 990};
            byte[] sheet = Studio.written(format, Studio.sheet(Studio.mix(Studio.Order.total("940 g"))));
            for (double total : totals) {
                files.put("total-" + total, save("total-" + total, format, withTotal(format, sheet, total)));
            }
            SheetWriters.Format other = other(format);
            office.save(files.values(), other.extension(), out);
            for (double total : totals) {
                Mix fresh = Studio.mix(Studio.Order.total(Numbers.plain(total) + " g"));
                assertFigures("total-" + total, resaved("total-" + total, other), fresh);
            }
        }
    }

    @Test
    void namesLocksChecksAndEntriesSurviveFromXlsxToOdsToXlsx() throws IOException {
        byte[] sheet = Studio.written(
                SheetWriters.Format.XLSX,
                Studio.sheet(Studio.mix(Studio.Order.volume("5 L").inLayers(3))));
        Reread before = Reread.of(SheetWriters.Format.XLSX, sheet);
        office.save(List.of(save("there", SheetWriters.Format.XLSX, sheet)), "ods", out);
        assertSameOutside(before, resaved("there", SheetWriters.Format.ODS));
        Path back = Files.createDirectories(folder.resolve("back"));
        office.save(List.of(out.resolve("there.ods")), "xlsx", back);
        assertSameOutside(before, Reread.of(SheetWriters.Format.XLSX, Files.readAllBytes(back.resolve("there.xlsx"))));
    }

    @Test
    void namesLocksAndChecksSurviveFromOdsToXlsx() throws IOException {
        byte[] sheet = Studio.written(SheetWriters.Format.ODS, Studio.sheet(Studio.mix(Studio.Order.volume("1.5 L"))));
        office.save(List.of(save("other", SheetWriters.Format.ODS, sheet)), "xlsx", out);
        assertSameOutside(Reread.of(SheetWriters.Format.ODS, sheet), resaved("other", SheetWriters.Format.XLSX));
    }

    @Test
    void aOneLayerMixIsOnePageAndLayersBreakWhereTheGridSays() throws IOException {
        Map<String, Integer> pages = new LinkedHashMap<>();
        Map<String, Path> files = new LinkedHashMap<>();
        for (Paper paper : Paper.values()) {
            for (SheetWriters.Format format : List.of(SheetWriters.Format.XLSX, SheetWriters.Format.ODS)) {
                mixes().forEach((name, mix) -> {
                    String file = name + "-" + paper + "-" + format;
                    MixSheet sheet = Studio.sheet(mix, paper);
                    int breaks = (int) sheet.page().rows().stream()
                            .filter(Grid.Row::newPage)
                            .count();
                    assertThat(breaks == 0).as(file).isEqualTo(!name.equals("three"));
                    pages.put(file, 1 + breaks);
                    files.put(file, save(file, format, Studio.written(format, sheet)));
                });
            }
        }
        office.save(files.values(), "pdf", out);
        for (Map.Entry<String, Integer> each : pages.entrySet()) {
            String pdf = Files.readString(out.resolve(each.getKey() + ".pdf"), StandardCharsets.ISO_8859_1);
            long count =
                    Pattern.compile("/Type\\s*/Page\\b").matcher(pdf).results().count();
            assertThat(count).as(each.getKey()).isEqualTo((long) each.getValue());
        }
    }

    /** Filled in, then opened and saved by another program, in its own format or another: the entries are the same. */
    @Test
    void whatWasTypedIsReadBackAfterAnotherProgramSavedIt() throws IOException, NoMixSheetException {
        Map<String, Object> typed = new LinkedHashMap<>();
        typed.put("actual_g_1_1_part_A", 210.4);
        typed.put("actual_g_1_1_part_B", 88.0);
        typed.put("actual_g_2_1_copper_mica", "3,6 g");
        typed.put("lot_2_1_copper_mica", "unknown");
        typed.put("by_1_1", "Ida");
        typed.put("part_b_in_1_1", "10:20");
        typed.put("left_g", "6");
        typed.put("result_text", "clear\ntwo bubbles");
        typed.put("mix_total_g", 2000.0);
        Mix mix = Studio.mix(Studio.Order.volume("5 L").inLayers(3));
        for (SheetWriters.Format format : List.of(SheetWriters.Format.XLSX, SheetWriters.Format.ODS)) {
            // 46351 days from 30 December 1899 on it is 25 November 2026.
            typed.put(
                    "started",
                    format == SheetWriters.Format.XLSX ? (Object) (46351 + 10.25 / 24) : "2026-11-25T10:15:00");
            byte[] sheet = Filled.in(format, Studio.written(format, Studio.sheet(mix)), typed);
            Path file = save("typed", format, sheet);
            ReadBack.Draft before = ReadBack.of(SheetFile.read(file), Studio.book());
            assertThat(before.differences()).hasSize(typed.size());
            assertThat(before.started()).isEqualTo("2026-11-25T10:15");
            for (SheetWriters.Format into : List.of(SheetWriters.Format.XLSX, SheetWriters.Format.ODS)) {
                office.save(List.of(file), into.extension(), out);
                ReadBack.Draft after =
                        ReadBack.of(SheetFile.read(out.resolve("typed." + into.extension())), Studio.book());
                assertThat(after.differences()).as(format + " to " + into).isEqualTo(before.differences());
                assertThat(after.problems()).isEmpty();
                assertThat(after.pour()).isEqualTo(before.pour());
            }
        }
    }

    private static SheetWriters.Format other(SheetWriters.Format format) {
        return format == SheetWriters.Format.XLSX ? SheetWriters.Format.ODS : SheetWriters.Format.XLSX;
    }

    private Path save(String name, SheetWriters.Format format, byte[] bytes) {
        try {
            return Files.write(folder.resolve(name + "." + format.extension()), bytes);
        } catch (IOException e) {
            throw new AssertionError(e);
        }
    }

    private Reread resaved(String name, SheetWriters.Format format) throws IOException {
        return Reread.of(format, Files.readAllBytes(out.resolve(name + "." + format.extension())));
    }

    private static void assertFigures(String file, Reread sheet, Mix mix) {
        for (Mix.Layer layer : mix.layers()) {
            for (Mix.Cup cup : layer.cups()) {
                for (Mix.Weighing each : cup.items()) {
                    Map<String, Double> expected = Map.of(
                            "target_g", each.exactGrams(),
                            "weigh_g", each.weighGrams(),
                            "low_g", each.lowGrams(),
                            "high_g", each.highGrams());
                    expected.forEach((what, value) -> {
                        String name = CellNames.of(what, layer.number(), cup.number(), each.item());
                        assertThat(sheet.named(name).formula())
                                .as(file + " " + name)
                                .isNotEmpty();
                        assertThat(sheet.named(name).number())
                                .as(file + " " + name)
                                .isCloseTo(value, within(SAME));
                    });
                    String weigh = CellNames.of("weigh_g", layer.number(), cup.number(), each.item());
                    String display = sheet.names().get(weigh).replace('D', 'G');
                    assertThat(sheet.cells().get(display).number())
                            .as(file + " display of " + weigh)
                            .isCloseTo(each.displayGrams(), within(SAME));
                }
            }
        }
    }

    private static void assertSameOutside(Reread before, Reread after) {
        assertThat(after.isProtected()).isTrue();
        assertThat(after.names().keySet())
                .containsExactlyInAnyOrderElementsOf(before.names().keySet());
        for (String name : before.names().keySet()) {
            assertThat(after.names().get(name))
                    .as(name)
                    .isEqualTo(before.names().get(name));
            assertThat(after.named(name).locked())
                    .as(name + " locked")
                    .isEqualTo(before.named(name).locked());
            assertThat(after.named(name).checked())
                    .as(name + " checked")
                    .isEqualTo(before.named(name).checked());
            if (before.named(name).number() != null) {
                assertThat(after.named(name).number())
                        .as(name)
                        .isCloseTo(before.named(name).number(), within(SAME));
            } else {
                assertThat(after.named(name).text())
                        .as(name)
                        .isEqualTo(before.named(name).text());
            }
        }
    }

    /** Wipes the figures of all formulas, so that only a program that works them out can show any. */
    private static byte[] withoutFigures(SheetWriters.Format format, byte[] sheet) throws IOException {
        return format == SheetWriters.Format.XLSX
                ? edited(sheet, "xl/worksheets/sheet1.xml", xml -> xml.replaceAll("</f><v>[^<]*</v>", "</f><v>0</v>"))
                : edited(
                        sheet,
                        "content.xml",
                        xml -> xml.replaceAll(
                                "(table:formula=\"[^\"]*\" office:value-type=\"float\" office:value=\")[^\"]*", "$10"));
    }

    private static byte[] withTotal(SheetWriters.Format format, byte[] sheet, double total) throws IOException {
        String text = Numbers.plain(total);
        return format == SheetWriters.Format.XLSX
                ? edited(
                        sheet,
                        "xl/worksheets/sheet1.xml",
                        xml -> xml.replaceFirst("<v>940.0</v>", "<v>" + text + "</v>"))
                : edited(
                        sheet,
                        "content.xml",
                        xml -> xml.replaceFirst("office:value=\"940.0\"", "office:value=\"" + text + "\""));
    }

    private static byte[] edited(byte[] zip, String part, UnaryOperator<String> edit) throws IOException {
        ByteArrayOutputStream bytes = new ByteArrayOutputStream();
        boolean changed = false;
        try (ZipInputStream in = new ZipInputStream(new ByteArrayInputStream(zip));
                ZipOutputStream out = new ZipOutputStream(bytes)) {
            for (ZipEntry entry = in.getNextEntry(); entry != null; entry = in.getNextEntry()) {
                byte[] content = in.readAllBytes();
                if (entry.getName().equals(part)) {
                    String before = new String(content, StandardCharsets.UTF_8);
                    String after = edit.apply(before);
                    changed = !after.equals(before);
                    content = after.getBytes(StandardCharsets.UTF_8);
                }
                out.putNextEntry(new ZipEntry(entry.getName()));
                out.write(content);
                out.closeEntry();
            }
        }
        assertThat(changed).as("the edit of " + part + " took").isTrue();
        return bytes.toByteArray();
    }
}
