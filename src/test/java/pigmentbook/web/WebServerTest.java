package pigmentbook.web;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.ByteArrayInputStream;
import java.io.DataOutputStream;
import java.io.IOException;
import java.net.Socket;
import java.net.URI;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import org.apache.poi.xssf.usermodel.XSSFWorkbook;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/** The page over HTTP: what it shows, and what it keeps out. */
class WebServerTest {

    private static Served served;

    @BeforeAll
    static void serve() {
        served = new Served();
    }

    @AfterAll
    static void stop() {
        served.close();
    }

    /** Sends a request line and headers as they stand, which an ordinary client would not. */
    private static String raw(String request) throws IOException {
        try (Socket socket = new Socket("127.0.0.1", URI.create(served.url()).getPort())) {
            DataOutputStream out = new DataOutputStream(socket.getOutputStream());
            out.write(request.getBytes(StandardCharsets.ISO_8859_1));
            out.flush();
            return new String(socket.getInputStream().readAllBytes(), StandardCharsets.UTF_8);
        }
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "/recipes",
                "/recipes?near=%23d66f2b",
                "/recipes/ember",
                "/recipes/clear-coat",
                "/recipes/ember/mix",
                "/recipes/ember/mix?lead=total&total=940",
                "/recipes/ember/mix?lead=shelf",
                "/molds",
                "/molds/finial",
                "/molds/leaf-tray",
                "/molds/bark-edge",
                "/molds/lamp-bowl",
                "/shelf",
                "/studio"
            })
    void everyScreenIsServedWithoutInlineScriptOrStyle(String path) {
        HttpResponse<String> page = served.get(path);
        assertThat(page.statusCode()).isEqualTo(200);
        assertThat(page.body()).startsWith("<!doctype html>").contains("local rules come first");
        assertThat(page.body())
                .doesNotContain("style=\"")
                .doesNotContain("<script>")
                .doesNotContain("onclick");
        assertThat(page.headers().firstValue("Content-Security-Policy").orElse(""))
                .startsWith("default-src 'none'")
                .doesNotContain("unsafe");
    }

    @Test
    void anotherHostIsSentAway() throws IOException {
        for (String host : new String[] {"evil.example", "127.0.0.1", "127.0.0.1:1", "localhost.evil.example:80"}) {
            assertThat(raw("GET /recipes HTTP/1.1\r\nHost: " + host + "\r\nConnection: close\r\n\r\n"))
                    .startsWith("HTTP/1.1 421");
        }
        int port = URI.create(served.url()).getPort();
        assertThat(raw("GET /recipes HTTP/1.1\r\nHost: localhost:" + port + "\r\nConnection: close\r\n\r\n"))
                .startsWith("HTTP/1.1 200");
    }

    @ParameterizedTest
    @ValueSource(strings = {"POST", "PUT", "PATCH", "DELETE"})
    void aChangeWithoutItsTokenIsRefusedBeforeAnythingIsLookedUp(String method) {
        for (String path : new String[] {"/recipes", "/nowhere", "/recipes/ember/mix"}) {
            HttpRequest request = served.request(path)
                    .method(method, HttpRequest.BodyPublishers.ofString("{}"))
                    .header("Origin", "http://evil.example")
                    .build();
            assertThat(served.send(request).statusCode()).isEqualTo(403);
        }
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "/assets/../book.json", "/assets/..%2f..%2fpom.xml", "/recipes/..%2fbook", "/molds/%2e%2e%2fbook",
                "/assets/nothing.css", "/recipes/none-such", "/recipes/ember/sheet/exe",
                        "/recipes/ember/mix?revision=99"
            })
    void noPathReachesAFile(String path) throws IOException {
        int port = URI.create(served.url()).getPort();
        String answer = raw("GET " + path + " HTTP/1.1\r\nHost: 127.0.0.1:" + port + "\r\nConnection: close\r\n\r\n");
        assertThat(answer).matches("(?s)HTTP/1.1 40[04].*");
        assertThat(answer).doesNotContain("\"format\"").doesNotContain("<artifactId>");
    }

    @Test
    void whatCannotBeMetIsToldBesideTheForm() {
        HttpResponse<String> page = served.get("/recipes/ember/mix?lead=mold&mold=lamp-panel&fill=1+in");
        assertThat(page.statusCode()).isEqualTo(200);
        assertThat(page.body())
                .contains("A fill of \"1 in\" is above the mold lamp-panel")
                .contains("value=\"1 in\"");
        assertThat(served.get("/recipes/ember/mix?lead=total&total=1,500+g").body())
                .contains("Total: ")
                .contains("1,500 g");
        assertThat(served.get("/recipes?near=blue").body()).contains("is no colour; write it like #a8541c");
    }

    @Test
    void textFromTheBookOrTheAddressIsNeverMarkup() {
        assertThat(served.get("/recipes/ember/mix?lead=total&total=%3Cscript%3Ealert(1)%3C/script%3E")
                        .body())
                .doesNotContain("<script>alert")
                .contains("&lt;script&gt;");
    }

    @Test
    void theNearestColourComesFirst() {
        String page = served.get("/recipes?near=%23d66f2b").body();
        assertThat(page.indexOf("/recipes/ember\"")).isLessThan(page.indexOf("/recipes/ivory-drawer\""));
        assertThat(page).contains("ΔE00");
    }

    @Test
    void theFiguresAreTheCommandLines() {
        String page = served.get("/recipes/ember/mix?lead=mold&mold=lamp-panel").body();
        // The README's own answer for this mix.
        assertThat(page)
                .contains("value=\"930.65\"")
                .contains(">643<")
                .contains("637–649")
                .contains("10.44–10.86");
    }

    @Test
    void aSheetIsTakenAlong() throws IOException {
        HttpResponse<byte[]> xlsx = served.bytes("/recipes/ember/sheet/xlsx?lead=mold&mold=lamp-panel");
        assertThat(xlsx.headers().firstValue("Content-Disposition").orElse(""))
                .isEqualTo("attachment; filename=\"ember-lamp-panel.xlsx\"");
        try (XSSFWorkbook workbook = new XSSFWorkbook(new ByteArrayInputStream(xlsx.body()))) {
            assertThat(workbook.getName("mix_total_g")).isNotNull();
        }
        assertThat(served.get("/recipes/ember/sheet/csv?lead=mold&mold=lamp-panel")
                        .body())
                .startsWith("layer,cup,item");
        assertThat(served.get("/recipes/ember/sheet/html?lead=mold&mold=lamp-panel")
                        .body())
                .contains("Ember");
    }

    @Test
    void aTakenPortIsTold() throws Exception {
        int port = URI.create(served.url()).getPort();
        assertThatThrownBy(() -> WebServer.start(new LiveBook(Path.of("recipes")), port, Served.CLOCK))
                .isInstanceOf(PortTakenException.class)
                .hasMessage("The port " + port + " is taken by another program.");
    }

    @Test
    void aFileChangedOutsideIsShownSoonAfter(@org.junit.jupiter.api.io.TempDir Path book) throws Exception {
        java.nio.file.Files.createDirectories(book.resolve("molds"));
        String mold = "{ \"name\": \"First\", \"shape\": { \"kind\": \"volume\", \"volume\": \"1 L\" } }";
        java.nio.file.Files.writeString(book.resolve("molds/jug.json"), mold);
        try (Served own = new Served(book)) {
            assertThat(own.get("/molds").body()).contains("First");
            java.nio.file.Files.writeString(book.resolve("molds/jug.json"), mold.replace("First", "Second one"));
            boolean seen = false;
            for (int i = 0; i < 60 && !seen; i++) {
                Thread.sleep(100);
                seen = own.get("/molds").body().contains("Second one");
            }
            assertThat(seen).isTrue();
        }
    }

    private static Path copyOfTheBook(Path into) throws IOException {
        try (java.util.stream.Stream<Path> all = java.nio.file.Files.walk(Path.of("recipes"))) {
            for (Path each : all.toList()) {
                Path to = into.resolve(Path.of("recipes").relativize(each));
                if (java.nio.file.Files.isDirectory(each)) {
                    java.nio.file.Files.createDirectories(to);
                } else {
                    java.nio.file.Files.copy(each, to);
                }
            }
        }
        return into;
    }

    private static String between(String text, String before, String after) {
        int from = text.indexOf(before) + before.length();
        return text.substring(from, text.indexOf(after, from));
    }

    private static HttpResponse<String> saved(Served own, String page, String fields) {
        String token = own.get("/token").body();
        String base = between(page, "name=\"base\" value=\"", "\"");
        return own.send(own.request("/recipes/ember/revisions")
                .header("X-Book-Token", token)
                .header("Content-Type", "application/x-www-form-urlencoded")
                .POST(HttpRequest.BodyPublishers.ofString("base=" + base + "&" + fields))
                .build());
    }

    @Test
    void aChangedFormulaBecomesANewRevisionAndTheOldOnesStay(@org.junit.jupiter.api.io.TempDir Path folder)
            throws Exception {
        Path file = copyOfTheBook(folder).resolve("ember.json");
        String before = java.nio.file.Files.readString(file);
        try (Served own = new Served(folder)) {
            String page = own.get("/recipes/ember").body();
            HttpResponse<String> answer = saved(
                    own,
                    page,
                    "percent-amber-paste=1,5+%25&percent-copper-mica=0.35+%25&percent-rust-paste=&percent-smoke-paste=0.06+%25"
                            + "&added=gold-mica&added-percent=0.1+%25&why=paler");
            assertThat(answer.statusCode()).isEqualTo(200);
            assertThat(answer.body()).isEqualTo("5");
            String after = java.nio.file.Files.readString(file);
            assertThat(after)
                    .contains("{ \"pigment\": \"amber-paste\", \"percent\": \"1,5 %\" }")
                    .contains("\"why\": \"paler\"")
                    .contains("gold-mica");
            assertThat(after)
                    .startsWith(before.substring(0, before.indexOf("\"steps\"") - 12)
                            .stripTrailing());
            assertThat(own.get("/recipes/ember").body()).contains("Revision 5 of 25 Nov 2026");
            // The page that was open before knows an older version.
            HttpResponse<String> late = saved(own, page, "percent-amber-paste=2+%25");
            assertThat(late.statusCode()).isEqualTo(409);
            assertThat(late.body()).startsWith("This recipe was changed elsewhere meanwhile.");
            assertThat(java.nio.file.Files.readString(file)).isEqualTo(after);
        }
    }

    @Test
    void aWrongPercentIsToldAndNothingIsWritten(@org.junit.jupiter.api.io.TempDir Path folder) throws Exception {
        Path file = copyOfTheBook(folder).resolve("ember.json");
        byte[] before = java.nio.file.Files.readAllBytes(file);
        try (Served own = new Served(folder)) {
            String page = own.get("/recipes/ember").body();
            HttpResponse<String> answer = saved(own, page, "percent-amber-paste=12+g");
            assertThat(answer.statusCode()).isEqualTo(422);
            assertThat(answer.body()).startsWith("amber-paste: ");
            assertThat(saved(own, page, "percent-none-such=1+%25").body())
                    .isEqualTo("There is no pigment \"none-such\" on the shelf.");
            HttpRequest foreign = own.request("/recipes/ember/revisions")
                    .header("X-Book-Token", own.get("/token").body())
                    .header("Origin", "http://evil.example")
                    .POST(HttpRequest.BodyPublishers.ofString("percent-amber-paste=1+%25"))
                    .build();
            assertThat(own.send(foreign).statusCode()).isEqualTo(403);
        }
        assertThat(file).hasBinaryContent(before);
    }

    private static HttpResponse<String> act(Served own, String path, String fields) {
        return own.send(own.request(path)
                .header("X-Book-Token", own.get("/token").body())
                .header("Content-Type", "application/x-www-form-urlencoded")
                .POST(HttpRequest.BodyPublishers.ofString(fields))
                .build());
    }

    @Test
    void aRecipeIsBegunCopiedAndPutAwayAndNothingIsDestroyed(@org.junit.jupiter.api.io.TempDir Path folder)
            throws Exception {
        copyOfTheBook(folder);
        try (Served own = new Served(folder)) {
            assertThat(act(own, "/recipes", "name=Glut+f%C3%BCr+Ida&resin=slow-cast")
                            .body())
                    .isEqualTo("/recipes/glut-fur-ida");
            assertThat(own.get("/recipes/glut-fur-ida").body())
                    .contains("Glut für Ida")
                    .contains("Clear resin");
            assertThat(act(own, "/recipes", "name=X&resin=none").statusCode()).isEqualTo(404);
            assertThat(act(own, "/recipes/ember/copy", "").body()).isEqualTo("/recipes/ember-2");
            assertThat(own.get("/recipes/ember-2").body())
                    .contains("Ember, copy")
                    .contains("copy of ember, revision 4");
            String before = java.nio.file.Files.readString(folder.resolve("ember.json"));
            assertThat(act(own, "/recipes/ember/away", "").body()).isEqualTo("/recipes");
            String away = java.nio.file.Files.readString(folder.resolve("ember.json"));
            assertThat(away).isEqualTo(before.replace("\"pearl\"]", "\"pearl\", \"put-away\"]"));
            assertThat(own.get("/recipes/ember").body()).contains("Bring back");
            act(own, "/recipes/ember/back", "");
            assertThat(java.nio.file.Files.readString(folder.resolve("ember.json")))
                    .isEqualTo(before);
        }
    }

    @Test
    void aPageThatIsNotThereSaysWhatIsAndWhatIsNear() {
        HttpResponse<String> answer = served.get("/recipes/embr");
        assertThat(answer.statusCode()).isEqualTo(404);
        assertThat(answer.body()).contains("There is no recipe of that name in the book. Nearest: ember.");
        assertThat(served.get("/nowhere").body()).contains("This page is not in the book.");
        assertThat(served.get("/recipes/ember/mix?lead=sand").body()).contains("A mix is led by its mold");
    }

    /** The page shows the answer's own words beside what was pressed; without any it would stay silent. */
    @ParameterizedTest
    @CsvSource(delimiter = '|', textBlock = """
            /bring-and-take/look  | 400 | This could not be read. Nothing was changed.
            /edits                | 400 | This is no JSON. Nothing was changed.
            /pours/none/log       | 400 | This is no JSON. Nothing was changed.
            /read-back            | 422 | This file is no JSON that can be read.
            /recipes/none/away    | 404 | There is no recipe of that name in the book.
            /photo-reading        | 422 | Point at the card and then at the resin.
            /nowhere              | 404 | This page is not in the book.
            """)
    void aChangeThatCanNotBeMetIsToldInPlainText(String path, int status, String text) {
        HttpResponse<String> answer = served.post(path, "{");
        assertThat(answer.statusCode()).isEqualTo(status);
        assertThat(answer.headers().firstValue("Content-Type")).hasValue("text/plain;charset=utf-8");
        assertThat(answer.body()).startsWith(text);
    }
}
