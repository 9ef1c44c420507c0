package pigmentbook.web;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/** What the page may ask to be changed, and what it is told where that can't be. */
class SheetEditsTest {

    private static final String LENGTH = """
            {"kind":"mold","id":"lamp-panel","edits":[{"path":"/shape/length","was":"16 in","now":"17 in"}]}""";
    private static final String PRICE = """
            {"kind":"lot","id":"BM-01","edits":[{"path":"/price/amount","was":"%s","now":"%s"}]}""";

    @TempDir
    Path folder;

    private Served served;

    @BeforeEach
    void serve() throws IOException {
        served = new Served(Served.copyOfTheBook(folder));
    }

    @AfterEach
    void stop() {
        served.close();
    }

    private String file(String name) throws IOException {
        return Files.readString(folder.resolve(name));
    }

    @Test
    void anEditIsOnTheDiskOnceItIsAnswered() throws IOException {
        assertThat(served.post("/edits", LENGTH).body())
                .isEqualTo("{\"outcomes\":[{\"state\":\"saved\",\"text\":\"\"}]}");
        assertThat(file("molds/lamp-panel.json")).contains("\"17 in\"");
        assertThat(served.get("/molds/lamp-panel").body()).contains("17 in");
    }

    @ParameterizedTest
    @ValueSource(strings = {"/edits", "/records", "/put-away", "/take-out"})
    void withoutItsTokenOrFromElsewhereNothingIsChanged(String path) throws IOException {
        HttpRequest.Builder asked = served.request(path).POST(HttpRequest.BodyPublishers.ofString(LENGTH));
        assertThat(served.send(asked.build()).statusCode()).isEqualTo(403);
        asked.header("X-Book-Token", served.get("/token").body()).header("Origin", "http://elsewhere.example");
        assertThat(served.send(asked.build()).statusCode()).isEqualTo(403);
        assertThat(file("molds/lamp-panel.json")).contains("\"16 in\"");
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "",
                "[]",
                "{",
                "{\"kind\":\"pour\",\"id\":\"x\",\"edits\":[]}",
                "{\"kind\":\"mold\",\"id\":\"lamp-panel\",\"edits\":7}"
            })
    void whatNoPageOfOursSendsIsRefused(String json) {
        HttpResponse<String> answer = served.post("/edits", json);
        assertThat(answer.statusCode()).isEqualTo(400);
        assertThat(answer.body()).endsWith("Nothing was changed.");
    }

    @Test
    void moreThanAMegabyteIsRefused() {
        HttpResponse<String> answer = served.post("/edits", "x".repeat(2_000_000));
        assertThat(answer.statusCode()).isEqualTo(413);
        assertThat(answer.body()).startsWith("This is more than the 1 MB that is taken at once.");
    }

    @Test
    void aDraftThatCanNotBeReadIsToldOnAPageOfItsOwn() {
        HttpResponse<String> answer = served.get("/molds/lamp-panel?draft=xx");
        assertThat(answer.statusCode()).isEqualTo(400);
        assertThat(answer.body()).contains("What was typed could not be read.");
    }

    @ParameterizedTest
    @CsvSource(delimiter = '|', textBlock = """
                    lot     | {"id":"Q-1","/of":"amber-pasta"} | There is no resin or pigment "amber-pasta" on the shelf. Nearest: amber-paste.
                    lot     | {"/of":"amber-paste"}            | Type the lot's id first: what stands on its label.
                    pigment | {"/density":"1.2 g/mL"}          | Type its name first.
                    lot     | {"id":"A-1","/of":"slow-cast","/quantity":"6 kg"} | "part" is missing; A or B was expected for a lot of a resin.
                    """)
    void aRowThatIsNotWholeIsNotKept(String kind, String cells, String text) {
        HttpResponse<String> answer = served.post("/records", "{\"kind\":\"" + kind + "\",\"cells\":" + cells + "}");
        assertThat(answer.statusCode()).isEqualTo(400);
        assertThat(answer.body()).isEqualTo(text);
    }

    /** The page asks for it in its own column. */
    @ParameterizedTest
    @CsvSource(delimiter = '|', textBlock = """
                    {"id":"Q-1","/quantity":"1 kg"}                          | /of
                    {"id":"A-1","/of":"slow-cast","/quantity":"6 kg"}        | /part
                    {"id":"Q-2","/of":"amber-paste","/price/amount":"2"}     | /quantity
                    """)
    void whatIsStillMissingIsNamedByItsPlaceInTheRecord(String cells, String missing) {
        HttpResponse<String> answer = served.post("/records", "{\"kind\":\"lot\",\"cells\":" + cells + "}");
        assertThat(answer.headers().firstValue("X-Missing")).hasValue(missing);
    }

    @Test
    void whatAnAddedEntryLacksIsNamedByItsPlaceInTheRecord() {
        assertThat(served.post("/edits", """
                        {"kind":"mold","id":"clock-face","edits":[{"what":"add","path":"/inserts/1","was":"","now":
                        "{\\"name\\":\\"rail\\",\\"shape\\":{\\"kind\\":\\"box\\",\\"length\\":\\"5 mm\\"},\\"from\\":\\"0 mm\\",\\"count\\":1}"}]}""").body())
                .contains("\"state\":\"refused\"")
                .contains("\"missing\":\"/inserts/1/shape/width\"");
    }

    /** The empty row has one set of columns for every kind of shape. */
    @Test
    void aRoundInsertIsBegunInTheColumnsThatABoxHas() throws IOException {
        assertThat(served.post("/edits", """
                        {"kind":"mold","id":"clock-face","edits":[{"what":"add","path":"/inserts/1","was":"","now":
                        "{\\"name\\":\\"peg\\",\\"shape\\":{\\"kind\\":\\"cylinder\\",\\"length\\":\\"12 mm\\",\\"depth\\":\\"5 mm\\"},\\"from\\":\\"0 mm\\",\\"count\\":4}"}]}""").body()).contains("\"state\":\"saved\"");
        assertThat(file("molds/clock-face.json"))
                .contains("{ \"kind\": \"cylinder\", \"diameter\": \"12 mm\", \"depth\": \"5 mm\" }");
    }

    @Test
    void aPriceTakesTheBooksCurrencyAlongAndAwayAgain() throws IOException {
        assertThat(file("shelf/lots/BM-01.json")).contains("\"amount\": \"0.50\"");
        assertThat(served.post("/edits", PRICE.formatted("0.50", "")).body()).contains("\"saved\"");
        assertThat(file("shelf/lots/BM-01.json")).contains("\"price\": null");
        assertThat(served.post("/edits", PRICE.formatted("", "0.70")).body()).contains("\"saved\"");
        assertThat(file("shelf/lots/BM-01.json")).contains("{ \"amount\": \"0.70\", \"currency\": \"EUR\" }");
    }

    @Test
    void whatTheBookNamesIsNotPutAway() {
        HttpResponse<String> answer = served.post("/put-away", "{\"kind\":\"pigment\",\"id\":\"amber-paste\"}");
        assertThat(answer.statusCode()).isEqualTo(422);
        assertThat(answer.body()).startsWith("\"amber-paste\" is named by ").endsWith(" more, so it stays.");
    }
}
