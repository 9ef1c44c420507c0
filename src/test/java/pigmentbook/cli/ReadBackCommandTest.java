package pigmentbook.cli;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import java.io.IOException;
import java.io.InputStream;
import java.io.OutputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.concurrent.TimeUnit;
import java.util.stream.Stream;
import org.apache.poi.ss.usermodel.Cell;
import org.apache.poi.ss.util.CellReference;
import org.apache.poi.xssf.usermodel.XSSFWorkbook;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** From the demo book to a sheet, to a pour of the book, by the commands alone. */
class ReadBackCommandTest {

    @TempDir
    Path folder;

    private Path book;
    private Path sheet;

    @BeforeEach
    void makeSheet() throws IOException {
        book = folder.resolve("book");
        try (Stream<Path> files = Files.walk(Path.of("recipes"))) {
            for (Path each : files.sorted().toList()) {
                Path to = book.resolve(Path.of("recipes").relativize(each).toString());
                if (Files.isDirectory(each)) {
                    Files.createDirectories(to);
                } else {
                    Files.copy(each, to);
                }
            }
        }
        sheet = folder.resolve("sheet.xlsx");
        assertThat(run("mix", "ember", "--mold", "lamp-panel", "--to", sheet.toString())
                        .status())
                .isZero();
    }

    private Ran run(String... args) {
        return Ran.in(folder, Map.of("PIGMENT_BOOK", book.toString()), args);
    }

    private void type(Map<String, Object> typed) throws IOException {
        XSSFWorkbook open;
        try (InputStream in = Files.newInputStream(sheet)) {
            open = new XSSFWorkbook(in);
        }
        try (open;
                OutputStream out = Files.newOutputStream(sheet)) {
            typed.forEach((name, value) -> {
                CellReference at = new CellReference(open.getName(name).getRefersToFormula());
                Cell cell = open.getSheet(at.getSheetName()).getRow(at.getRow()).getCell(at.getCol());
                if (value instanceof Double number) {
                    cell.setCellValue(number);
                } else {
                    cell.setCellValue(value.toString());
                }
            });
            open.write(out);
        }
    }

    /** Returns every file of the book with its text, the lock left out. */
    private Map<String, String> content() throws IOException {
        Map<String, String> content = new TreeMap<>();
        try (Stream<Path> files = Files.walk(book)) {
            for (Path each : files.filter(Files::isRegularFile).toList()) {
                if (!each.endsWith(".lock")) {
                    content.put(book.relativize(each).toString(), Files.readString(each));
                }
            }
        }
        return content;
    }

    @Test
    void aFilledInSheetBecomesAPourAndThatOnce() throws IOException {
        type(Map.of(
                "actual_g_1_1_part_A", 644.0,
                "actual_g_1_1_part_B", "272,5 g",
                "started", "2026-11-25 10:15",
                "by_1_1", "Ida",
                "room_temperature", "21.5",
                "result_rating", "4",
                "result_text", "Clear, one bubble"));
        Map<String, String> before = content();
        JsonNode read = run("read-back", "sheet.xlsx", "--format", "json").json();
        assertThat(content()).isEqualTo(before);
        assertThat(read.path("problems")).isEmpty();
        assertThat(read.path("differences")).hasSize(7);
        assertThat(read.path("differences").findValuesAsText("cell")).contains("by_1_1", "actual_g_1_1_part_A");
        JsonNode pour = read.path("pour");
        assertThat(pour.path("recipe").asText()).isEqualTo("ember");
        assertThat(pour.path("mold").asText()).isEqualTo("lamp-panel");
        assertThat(pour.path("by").asText()).isEqualTo("Ida");
        assertThat(pour.path("temperature").asText()).isEqualTo("21.5 C");
        assertThat(pour.at("/layers/0/depth").asText()).isEqualTo("12.7 mm");
        JsonNode weighed = pour.at("/layers/0/cups/0/weighed");
        assertThat(weighed.findValuesAsText("item"))
                .containsExactly("part A", "amber-paste", "copper-mica", "rust-paste", "smoke-paste", "part B");
        assertThat(weighed.get(0).path("actual").asText()).isEqualTo("644 g");
        assertThat(weighed.get(1).path("actual").isNull()).isTrue();
        assertThat(weighed.get(5).path("actual").asText()).isEqualTo("272.5 g");

        Ran kept = run("read-back", "sheet.xlsx", "--save");
        assertThat(kept.err()).isEmpty();
        assertThat(kept.out()).contains("Kept: pours/2026/2026-11-25-ember-1.json");
        assertThat(run("check").status()).isZero();
        assertThat(run("where-used", "A-2409", "--format", "json").out()).contains("2026-11-25-ember-1");
        assertThat(run("recipe", "ember", "--format", "json").out()).contains("2026-11-25-ember-1");

        Map<String, String> after = content();
        Ran again = run("read-back", "sheet.xlsx", "--save");
        assertThat(again.status()).isEqualTo(1);
        assertThat(again.out()).isEmpty();
        assertThat(again.err())
                .isEqualTo("The pour is not kept; nothing was written.\nThe sheet "
                        + pour.path("mix_id").asText() + " is kept already, as the pour 2026-11-25-ember-1."
                        + " Correct that pour instead.\n");
        assertThat(run("read-back", "sheet.xlsx").out())
                .contains("This sheet is kept already, as the pour 2026-11-25-ember-1.")
                .doesNotContain("--save");
        assertThat(content()).isEqualTo(after);
    }

    @Test
    void nothingIsKeptWhileSomethingIsToBePutRight() throws IOException {
        Map<String, String> before = content();
        Ran empty = run("read-back", "sheet.xlsx", "--save");
        assertThat(empty.status()).isEqualTo(1);
        assertThat(empty.err()).contains("Nothing is filled in on this sheet.").contains("started: ");
        type(Map.of("actual_g_1_1_part_A", "-5", "lot_1_1_part_B", "B-2408"));
        Ran wrong = run("read-back", "sheet.xlsx", "--save");
        assertThat(wrong.status()).isEqualTo(1);
        assertThat(wrong.out()).isEmpty();
        assertThat(wrong.err())
                .contains("actual_g_1_1_part_A: \"-5 g\" is below zero")
                .contains("lot_1_1_part_B: There is no lot \"B-2408\" in the book. Nearest: B-2402, B-2409")
                .contains("started: The sheet does not say when the work began");
        assertThat(content()).isEqualTo(before);
        Ran shown = run("read-back", "sheet.xlsx");
        assertThat(shown.status()).isZero();
        assertThat(shown.out()).contains("To put right").contains("actual_g_1_1_part_A");
        assertThat(shown.out().lines()).allMatch(line -> line.length() <= 80);
    }

    @Test
    void whatIsNoSheetEndsWithOneAndALetter() {
        Ran ran = run("read-back", "book/book.json", "--format", "json");
        assertThat(ran.status()).isEqualTo(1);
        assertThat(ran.out()).isEmpty();
        assertThat(ran.err()).startsWith("\"book.json\" is no mix sheet");
        assertThat(run("read-back").status()).isEqualTo(2);
    }

    /** Two programs that keep the same sheet at once keep it once. */
    @Test
    void ofTwoProgramsThatKeepTheSameSheetOneIsRefused() throws Exception {
        type(Map.of("actual_g_1_1_part_A", 644.0, "started", "2026-11-25 10:15"));
        List<Process> programs = new ArrayList<>();
        for (int i = 0; i < 3; i++) {
            programs.add(new ProcessBuilder(
                            Path.of(System.getProperty("java.home"), "bin", "java")
                                    .toString(),
                            "-cp",
                            System.getProperty("java.class.path"),
                            Main.class.getName(),
                            "--book",
                            book.toString(),
                            "read-back",
                            sheet.toString(),
                            "--save")
                    .redirectErrorStream(true)
                    .redirectOutput(folder.resolve("said-" + i).toFile())
                    .start());
        }
        int kept = 0;
        for (Process each : programs) {
            assertThat(each.waitFor(60, TimeUnit.SECONDS)).isTrue();
            kept += each.exitValue() == 0 ? 1 : 0;
        }
        assertThat(kept).isEqualTo(1);
        assertThat(content().keySet().stream().filter(name -> name.contains("2026-11-25-ember")))
                .hasSize(1);
    }

    @Test
    void anotherSheetOfTheSameDayGetsTheNextNumber() throws IOException {
        type(Map.of("actual_g_1_1_part_A", 644.0, "started", "2026-11-25 10:15"));
        assertThat(run("read-back", "sheet.xlsx", "--save").status()).isZero();
        sheet = folder.resolve("second.xlsx");
        run("mix", "ember", "--mold", "lamp-panel", "--to", sheet.toString());
        type(Map.of("actual_g_1_1_part_A", 640.0, "started", "2026-11-25 14:00"));
        JsonNode kept =
                run("read-back", "second.xlsx", "--save", "--format", "json").json();
        assertThat(kept.path("kept").asText()).isEqualTo("pours/2026/2026-11-25-ember-2.json");
        assertThat(kept.at("/pour/id").asText()).isEqualTo("2026-11-25-ember-2");
    }
}
