package pigmentbook.web;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.json.JsonMapper;
import java.io.ByteArrayInputStream;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import java.util.zip.ZipEntry;
import java.util.zip.ZipInputStream;
import java.util.zip.ZipOutputStream;
import org.apache.poi.xssf.usermodel.XSSFWorkbook;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** Tables and packs come in by the page: shown first, kept when a person says so, and only once; copies go out. */
class BringInTest extends ServedCopy {

    private static final String TABLE = "Shade,Base,Pigment,Percent\nHearth,slow-cast,Amber paste,1.5 %\n";
    private static final Map<String, String> CHOSEN = Map.of("Shade", "recipe", "Base", "resin");

    private static byte[] body(Map<String, Object> asked, byte[] file) throws IOException {
        ByteArrayOutputStream body = new ByteArrayOutputStream();
        body.writeBytes(new JsonMapper().writeValueAsBytes(asked));
        body.write('\n');
        body.writeBytes(file);
        return body.toByteArray();
    }

    private HttpResponse<String> hand(String act, Map<String, Object> asked, byte[] file) throws IOException {
        return served.send(served.request("/bring-and-take/" + act)
                .header("X-Book-Token", served.get("/token").body())
                .POST(HttpRequest.BodyPublishers.ofByteArray(body(asked, file)))
                .build());
    }

    private static byte[] utf8(String text) {
        return text.getBytes(StandardCharsets.UTF_8);
    }

    private HttpResponse<String> look(Map<String, Object> asked, byte[] file) throws IOException {
        return hand("look", asked, file);
    }

    /** Keeps what a look has shown. */
    private HttpResponse<String> keep(Map<String, Object> asked, byte[] file) throws IOException {
        Map<String, Object> again = new HashMap<>(asked);
        again.put("seen", seen(look(asked, file).body()));
        return hand("keep", again, file);
    }

    private static String seen(String page) {
        Matcher seen = Pattern.compile("data-seen=\"([^\"]+)\"").matcher(page);
        assertThat(seen.find()).as(page).isTrue();
        return seen.group(1);
    }

    private static String figure(String page, String name) {
        Matcher figure = Pattern.compile(">" + name + "</p><b>(\\d+)</b>").matcher(page);
        assertThat(figure.find()).as(page).isTrue();
        return figure.group(1);
    }

    private Map<String, String> files() throws IOException {
        Map<String, String> files = new TreeMap<>();
        try (Stream<Path> all = Files.walk(folder)) {
            for (Path each : (Iterable<Path>) all.filter(Files::isRegularFile)::iterator) {
                String name = folder.relativize(each).toString();
                if (!name.startsWith(".")) {
                    files.put(name, Files.readString(each, StandardCharsets.ISO_8859_1));
                }
            }
        }
        return files;
    }

    @Test
    void aTableIsShownBeforeItIsKeptAndALookWritesNothing() throws IOException {
        Map<String, String> before = files();
        String guessed = look(Map.of("name", "colours.csv"), utf8(TABLE)).body();
        assertThat(guessed).contains("data-head=\"Shade\"").contains("Hearth");
        String page = look(Map.of("name", "colours.csv", "columns", CHOSEN), utf8(TABLE))
                .body();
        assertThat(figure(page, "New")).isEqualTo("1");
        assertThat(page).contains("hearth").contains("Keep 1 new");
        assertThat(files()).isEqualTo(before);
    }

    @Test
    void whatIsKeptIsInTheBookItsColumnsAreRememberedAndTheSameFileChangesNothingMore() throws IOException {
        Map<String, Object> asked = Map.of("name", "colours.csv", "columns", CHOSEN);
        HttpResponse<String> kept = keep(asked, utf8(TABLE));
        assertThat(kept.body())
                .contains("Kept: 1 new, 0 changed")
                .contains("href=\"/recipes/hearth\"")
                .contains("remembered");
        assertThat(new JsonMapper()
                        .readTree(folder.resolve("hearth.json").toFile())
                        .at("/revisions/0/pigments/0/percent")
                        .asText())
                .isEqualTo("1.5 %");
        assertThat(served.get("/recipes/hearth").statusCode()).isEqualTo(200);
        Map<String, String> after = files();
        // Nobody says again what the columns hold.
        String again = look(Map.of("name", "colours.csv"), utf8(TABLE)).body();
        assertThat(figure(again, "The same")).isEqualTo("1");
        assertThat(again)
                .contains("Nothing changed: the book says all of this already.")
                .doesNotContain("data-keep");
        assertThat(keep(Map.of("name", "colours.csv"), utf8(TABLE)).body()).contains("Nothing changed");
        assertThat(files()).isEqualTo(after);
    }

    @Test
    void aChangedFormulaIsShownAsWhatItWasAndIsAndBecomesARevision() throws IOException {
        byte[] table = utf8("Recipe,Resin,Pigment,Percent\nember,slow-cast,amber-paste,9 %\n");
        Map<String, Object> asked = Map.of("name", "changed.csv");
        String page = look(asked, table).body();
        assertThat(figure(page, "Different")).isEqualTo("1");
        assertThat(page).contains("formula").contains("slow-cast: amber-paste 9 %");
        int revisions = revisionsOfEmber();
        assertThat(keep(asked, table).body()).contains("Kept: 0 new, 1 changed");
        assertThat(revisionsOfEmber()).isEqualTo(revisions + 1);
        assertThat(files().get("ember.json")).contains("brought in from changed.csv");
    }

    private int revisionsOfEmber() throws IOException {
        return new JsonMapper()
                .readTree(folder.resolve("ember.json").toFile())
                .get("revisions")
                .size();
    }

    @Test
    void whatTheTableLeavesOpenIsAskedForAndAnswered() throws IOException {
        byte[] table = utf8("Recipe,Resin grams,Pigment,Amount\nToffee,100 g,amber-paste,10 drops\n");
        Map<String, Object> asked = new HashMap<>(Map.of("name", "toffee.csv"));
        String page = look(asked, table).body();
        assertThat(page)
                .contains("choose one for all under “What the table does not say”.")
                .doesNotContain("--");
        asked.put("resin", "slow-cast");
        page = look(asked, table).body();
        assertThat(page).contains("data-drop=\"amber-paste\"").contains("type it under “What the table does not say”.");
        asked.put("drops", Map.of("amber-paste", "0.03 g"));
        page = look(asked, table).body();
        assertThat(figure(page, "New")).isEqualTo("1");
        assertThat(figure(page, "Not coming in")).isEqualTo("0");
        keep(asked, table);
        // 10 drops of 0.03 g on 100 g of resin.
        assertThat(files().get("toffee.json")).contains("\"0.3 %\"");
    }

    @Test
    void aBookThatChangedSinceTheLookIsShownAgainBeforeAnythingIsKept() throws IOException {
        Map<String, Object> asked = new HashMap<>(Map.of("name", "colours.csv", "columns", CHOSEN));
        asked.put("seen", seen(look(asked, utf8(TABLE)).body()));
        Files.writeString(
                folder.resolve("hearth.json"),
                Files.readString(folder.resolve("ember.json")).replace("\"id\": \"ember\"", "\"id\": \"hearth\""));
        Map<String, String> before = files();
        String page = hand("keep", asked, utf8(TABLE)).body();
        assertThat(page).contains("was changed since this was shown").contains("data-seen");
        assertThat(figure(page, "New")).isEqualTo("0");
        assertThat(files()).isEqualTo(before);
        // Nor is another file kept than the one that was shown.
        asked.put("seen", seen(page));
        assertThat(hand("keep", asked, utf8(TABLE.replace("1.5", "1.6"))).body())
                .contains("was changed since this was shown");
        assertThat(files()).isEqualTo(before);
    }

    @Test
    void aTableWhoseHeadsNobodyKnowsIsShownWithItsColumnsToChoose() throws IOException {
        byte[] table = utf8("Farbe,Harz,Stoff,Menge\nHearth,slow-cast,amber-paste,2 %\n");
        String page = look(Map.of("name", "farben.csv"), table).body();
        assertThat(page)
                .contains("not understood yet")
                .contains("data-head=\"Stoff\"")
                .contains("Nothing can come in yet.");
        page = look(
                        Map.of(
                                "name",
                                "farben.csv",
                                "columns",
                                Map.of("Farbe", "recipe", "Harz", "resin", "Stoff", "pigment", "Menge", "percent")),
                        table)
                .body();
        assertThat(figure(page, "New")).isEqualTo("1");
    }

    @Test
    void aPackIsShownAndOnlyWhatIsNewComesInUnlessMoreIsTicked() throws IOException {
        byte[] pack = pack(Map.of(
                "ember.json", files().get("ember.json").replace("\"name\": \"Ember\"", "\"name\": \"Ember glow\""),
                "molds/tall.json",
                        files().get("molds/lamp-panel.json").replace("\"id\": \"lamp-panel\"", "\"id\": \"tall\""),
                "../evil.json", "{}"));
        Map<String, String> before = files();
        String page = look(Map.of("name", "other.zip"), pack).body();
        assertThat(figure(page, "New")).isEqualTo("1");
        assertThat(figure(page, "Different")).isEqualTo("1");
        assertThat(figure(page, "Not coming in")).isEqualTo("1");
        assertThat(page).contains("Its name leads out of its folder");
        assertThat(files()).isEqualTo(before);
        assertThat(keep(Map.of("name", "other.zip"), pack).body()).contains("Kept: 1 new, 0 changed");
        assertThat(files())
                .containsEntry("ember.json", before.get("ember.json"))
                .containsKey("molds/tall.json");
        assertThat(keep(Map.of("name", "other.zip", "theirs", true), pack).body())
                .contains("Kept: 0 new, 1 changed")
                .contains("put-away/replaced/ember.json");
        assertThat(files())
                .containsEntry("put-away/replaced/ember.json", before.get("ember.json"))
                .extractingByKey("ember.json")
                .asString()
                .contains("Ember glow");
        assertThat(folder.resolveSibling("evil.json")).doesNotExist();
    }

    private static byte[] pack(Map<String, String> files) throws IOException {
        ByteArrayOutputStream out = new ByteArrayOutputStream();
        try (ZipOutputStream zip = new ZipOutputStream(out)) {
            for (Map.Entry<String, String> each : files.entrySet()) {
                zip.putNextEntry(new ZipEntry(each.getKey()));
                zip.write(each.getValue().getBytes(StandardCharsets.ISO_8859_1));
                zip.closeEntry();
            }
        }
        return out.toByteArray();
    }

    private static Map<String, String> unpacked(byte[] pack) throws IOException {
        Map<String, String> files = new TreeMap<>();
        try (ZipInputStream zip = new ZipInputStream(new ByteArrayInputStream(pack))) {
            for (ZipEntry each = zip.getNextEntry(); each != null; each = zip.getNextEntry()) {
                files.put(each.getName(), new String(zip.readAllBytes(), StandardCharsets.ISO_8859_1));
            }
        }
        return files;
    }

    @Test
    void theWholeBookGoesOutByteForByteAndComesBackAsTheSame() throws IOException {
        HttpResponse<byte[]> out = served.bytes("/bring-and-take/book.zip");
        assertThat(out.headers().firstValue("Content-Disposition").orElse(""))
                .matches("attachment; filename=\"[a-z0-9-]+-2026-11-25\\.zip\"");
        Map<String, String> packed = unpacked(out.body());
        packed.remove("pack.manifest");
        assertThat(packed).isNotEmpty();
        assertThat(files()).containsAllEntriesOf(packed);
        assertThat(served.get("/bring-and-take/would").body()).contains(packed.size() + " files");
        String page = look(Map.of("name", "book.zip"), out.body()).body();
        assertThat(figure(page, "The same")).isEqualTo(String.valueOf(packed.size()));
        assertThat(page).contains("Nothing changed");
    }

    @ParameterizedTest
    @ValueSource(strings = {"xlsx", "ods"})
    void theWorkbookGoesOutAndSaysTheSameWhenItComesBack(String format) throws IOException {
        byte[] workbook = served.bytes("/bring-and-take/workbook." + format).body();
        String page = look(Map.of("name", "studio." + format), workbook).body();
        assertThat(figure(page, "New")).isEqualTo("0");
        assertThat(figure(page, "Different")).isEqualTo("0");
        assertThat(page).contains("Nothing changed");
    }

    @Test
    void aCellThatWasChangedInTheWorkbookIsShownBeforeItIsKept() throws IOException {
        ByteArrayOutputStream changed = new ByteArrayOutputStream();
        try (XSSFWorkbook workbook = new XSSFWorkbook(new ByteArrayInputStream(
                served.bytes("/bring-and-take/workbook.xlsx").body()))) {
            workbook.getSheet("Pigments").forEach(row -> {
                if (row.getCell(0).getStringCellValue().equals("amber-paste")) {
                    row.forEach(cell -> {
                        if (cell.getStringCellValue().equals("1.25 g/mL")) {
                            cell.setCellValue("1.31 g/mL");
                        }
                    });
                }
            });
            workbook.write(changed);
        }
        String page = look(Map.of("name", "studio.xlsx"), changed.toByteArray()).body();
        assertThat(figure(page, "Different")).isEqualTo("1");
        assertThat(page).contains("1.25 g/mL").contains("1.31 g/mL");
        keep(Map.of("name", "studio.xlsx"), changed.toByteArray());
        assertThat(files().get("shelf/pigments/amber-paste.json")).contains("1.31 g/mL");
    }

    @Test
    void oneMixGoesOutWithWhatItTakes() throws IOException {
        assertThat(served.get("/recipes/ember/mix?mold=lamp-panel").body()).contains("/recipes/ember/pack?pour=");
        Map<String, String> again = unpacked(
                served.bytes("/recipes/ember/pack?pour=2026-11-18-ember-1").body());
        assertThat(again)
                .containsKeys("ember.json", "pours/2026/2026-11-18-ember-1.json", "shelf/lots/AP-07.json")
                .doesNotContainKey("shelf/pigments/honey-dye.json");
        assertThat(unpacked(served.bytes("/recipes/ember/pack?pour=").body())).containsKey("ember.json");
        assertThat(served.get("/recipes/ember/pack?pour=../../etc/passwd").statusCode())
                .isEqualTo(404);
        assertThat(served.get("/recipes/nothing/pack").statusCode()).isEqualTo(404);
    }

    @Test
    void onlyTheBooksOwnPagesBringIn() throws IOException {
        Map<String, String> before = files();
        for (String act : List.of("look", "keep")) {
            byte[] body = body(Map.of("name", "colours.csv", "columns", CHOSEN), utf8(TABLE));
            HttpRequest.Builder ask =
                    served.request("/bring-and-take/" + act).POST(HttpRequest.BodyPublishers.ofByteArray(body));
            assertThat(served.send(ask.copy().build()).statusCode()).isEqualTo(403);
            assertThat(served.send(ask.copy()
                                    .header("X-Book-Token", "0".repeat(64))
                                    .build())
                            .statusCode())
                    .isEqualTo(403);
            assertThat(served.send(ask.copy()
                                    .header("X-Book-Token", served.get("/token").body())
                                    .header("Origin", "http://elsewhere.example")
                                    .build())
                            .statusCode())
                    .isEqualTo(403);
        }
        assertThat(files()).isEqualTo(before);
    }

    @Test
    void whatIsNoTableOrPackIsRefusedWithALetterAndNoPathOfThisComputer() throws IOException {
        Map<String, String> before = files();
        Map<String, byte[]> bad = Map.of(
                "an empty file", new byte[0],
                "a zip cut short", new byte[] {'P', 'K', 3, 4, 20, 0, 0, 0},
                "an old workbook", new byte[] {(byte) 0xd0, (byte) 0xcf, 0x11, (byte) 0xe0, 1, 2, 3, 4},
                "an entity bomb", pack(Map.of("[Content_Types].xml", "<x/>", "xl/workbook.xml", BOMB)),
                "bytes", new byte[] {0, 1, 2, 3, 0, 5, (byte) 0xff, (byte) 0xfe});
        for (Map.Entry<String, byte[]> each : bad.entrySet()) {
            for (String act : List.of("look", "keep")) {
                HttpResponse<String> told = hand(act, Map.of("name", "x"), each.getValue());
                assertThat(told.statusCode()).as(each.getKey()).isEqualTo(422);
                assertThat(told.body())
                        .as(each.getKey())
                        .isNotBlank()
                        .doesNotContain("Exception")
                        .doesNotContain(System.getProperty("java.io.tmpdir"));
            }
        }
        assertThat(files()).isEqualTo(before);
    }

    private static final String BOMB = "<?xml version=\"1.0\"?><!DOCTYPE w [<!ENTITY a \"aaaaaaaaaa\">"
            + "<!ENTITY b \"&a;&a;&a;&a;&a;&a;&a;&a;&a;&a;\">]><workbook>&b;</workbook>";

    @Test
    void aFileMadeToFillTheDiskIsRefused() throws IOException {
        ByteArrayOutputStream out = new ByteArrayOutputStream();
        try (ZipOutputStream zip = new ZipOutputStream(out)) {
            zip.putNextEntry(new ZipEntry("photos/big.jpg"));
            byte[] nothing = new byte[1024 * 1024];
            for (int i = 0; i < 80; i++) {
                zip.write(nothing);
            }
            zip.closeEntry();
        }
        HttpResponse<String> told = look(Map.of("name", "bomb.zip"), out.toByteArray());
        assertThat(told.statusCode()).isEqualTo(422);
        assertThat(told.body()).contains("made to fill memory or disk");
    }

    @ParameterizedTest
    @ValueSource(strings = {"", "\n", "[]\nx", "{\"name\": \nx", "no line end"})
    void whatOurOwnPagesWouldNotSendIsRefused(String body) {
        assertThat(served.post("/bring-and-take/look", body).statusCode()).isEqualTo(400);
    }

    @Test
    void aNameIsOnlyEverShown() throws IOException {
        String page = look(
                        Map.of(
                                "name",
                                "../../<script>alert(1)</script>",
                                "columns",
                                CHOSEN,
                                "as",
                                "../x",
                                "resin",
                                "../y"),
                        utf8(TABLE.replace("slow-cast", "")))
                .body();
        assertThat(page).doesNotContain("<script>alert").contains("&lt;script");
        assertThat(page).contains("There is no resin").doesNotContain("Exception");
    }

    @Test
    void nothingOfTheFilesStaysBehind() throws IOException {
        Path temporary = Path.of(System.getProperty("java.io.tmpdir"));
        long before = ours(temporary);
        keep(Map.of("name", "colours.csv", "columns", CHOSEN), utf8(TABLE));
        look(Map.of("name", "x"), new byte[] {'P', 'K', 3, 4});
        served.bytes("/bring-and-take/book.zip");
        assertThat(ours(temporary)).isLessThanOrEqualTo(before);
    }

    private static long ours(Path temporary) throws IOException {
        try (Stream<Path> all = Files.list(temporary)) {
            return all.map(each -> String.valueOf(each.getFileName()))
                    .filter(each -> each.startsWith("handed-in") || each.startsWith("taken-out"))
                    .count();
        }
    }
}
