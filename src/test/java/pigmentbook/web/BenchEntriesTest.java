package pigmentbook.web;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.json.JsonMapper;
import java.io.IOException;
import java.net.http.HttpResponse;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Random;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import pigmentbook.quantity.Mass;
import pigmentbook.store.BookFolder;
import pigmentbook.store.Opened;

/** What is entered at the bench is on disk when it is acknowledged, once, in order, and nothing of it is lost. */
class BenchEntriesTest {

    @TempDir
    Path folder;

    private Served served;
    private String pour;
    private int next;

    @BeforeEach
    void begin() throws IOException {
        served = new Served(Served.copyOfTheBook(folder));
        pour = served.post("/recipes/ember/bench?lead=total&total=1000+g&cup=600+g", "")
                .body()
                .split("/")[2];
    }

    @AfterEach
    void stop() {
        served.close();
    }

    private HttpResponse<String> enter(String device, int base, String... entries) {
        return served.post(
                "/pours/" + pour + "/log",
                "{\"device\":\"" + device + "\",\"base\":" + base + ",\"ago\":0,\"entries\":["
                        + String.join(",", entries) + "]}");
    }

    private String weigh(int cup, String item, String grams, String lot) {
        return "{\"id\":\"e" + next++ + "\",\"what\":\"weigh\",\"layer\":1,\"cup\":" + cup + ",\"item\":\"" + item
                + "\",\"grams\":\"" + grams + "\",\"lot\":\"" + lot + "\",\"by\":\"Ida\"}";
    }

    private String act(String what, int cup, String rest) {
        return "{\"id\":\"e" + next++ + "\",\"what\":\"" + what + "\",\"layer\":1,\"cup\":" + cup + rest + "}";
    }

    private JsonNode record() throws IOException {
        return new JsonMapper()
                .readTree(folder.resolve("pours/2026/" + pour + ".json").toFile());
    }

    @Test
    void handingInAgainChangesNothing() throws IOException {
        String entry = weigh(1, "part A", "340", "A-2409");
        assertThat(enter("phone", 0, entry).statusCode()).isEqualTo(200);
        String once = Files.readString(folder.resolve("pours/2026/" + pour + ".json"));
        assertThat(enter("phone", 0, entry).statusCode()).isEqualTo(200);
        assertThat(enter("other", 0, entry).statusCode()).isEqualTo(200);
        assertThat(Files.readString(folder.resolve("pours/2026/" + pour + ".json")))
                .isEqualTo(once);
    }

    /**
     * Pressing "Weigh at the bench" makes nothing yet: it counts once something was weighed, and can be taken away
     * before.
     */
    @Test
    void aPourOfWhichNothingWasWeighedCountsAsNothingAndCanBePutAway() {
        String id = "\"id\":\"" + pour + "\"}";
        assertThat(served.get("/recipes/ember").body()).doesNotContain(pour);
        assertThat(served.get("/bench").body()).contains(pour).contains("nothing weighed yet");
        assertThat(served.post("/put-away", "{\"kind\":\"pour\"," + id).statusCode())
                .isEqualTo(200);
        assertThat(served.get("/bench").body())
                .doesNotContain("nothing weighed yet")
                .contains("Bring back");
        assertThat(served.post("/take-out", "{\"kind\":\"pour\"," + id).statusCode())
                .isEqualTo(200);
        enter("phone", 0, weigh(1, "part A", "340", "A-2409"));
        assertThat(served.post("/put-away", "{\"kind\":\"pour\"," + id).body()).contains("was poured, so it stays");
        assertThat(served.get("/recipes/ember").body()).contains(pour);
    }

    @Test
    void severalWeighingsOfAnItemAddUpAndLotsStayApart() throws IOException {
        enter(
                "phone",
                0,
                weigh(1, "part A", "300 g", "A-2409"),
                weigh(1, "part A", "0,04 kg", "a-2409"),
                weigh(1, "part A", "5.5", "A-2402"));
        JsonNode weighed = record().at("/layers/0/cups/0/weighed");
        assertThat(weighed).hasSize(2);
        assertThat(weighed.get(0).get("actual").asText()).isEqualTo("340 g");
        assertThat(weighed.get(1).get("lot").asText()).isEqualTo("A-2402");
        assertThat(weighed.get(1).get("target").isNull()).isTrue();
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {
                "1,500 | A-2409 | \"1,500 g\" is ambiguous: write 1.5 g or 1500 g.",
                "-3 | A-2409 | \"-3\"",
                "0 | A-2409 | \"0\" is no weight of a cup; grams above 0 and below a million were expected.",
                "5 mL | A-2409 | \"5 mL\"",
                "340 | A-9999 | There is no lot \"A-9999\" of part A on the shelf. Type what stands on its label, or type unknown.",
                "340 | B-2409 | There is no lot \"B-2409\" of part A on the shelf.",
            })
    void aWrongWeightOrLotIsRefusedAndTheFileStays(String grams, String lot, String letter) throws IOException {
        String before = Files.readString(folder.resolve("pours/2026/" + pour + ".json"));
        HttpResponse<String> answer = enter("phone", 0, weigh(1, "part A", grams, lot));
        assertThat(answer.statusCode()).isEqualTo(422);
        assertThat(answer.body()).startsWith(letter);
        assertThat(Files.readString(folder.resolve("pours/2026/" + pour + ".json")))
                .isEqualTo(before);
    }

    @Test
    void whatThePlanLacksAndWhatIsNoEntryIsRefused() {
        assertThat(enter("phone", 0, weigh(9, "part A", "5", "A-2409")).body())
                .isEqualTo("The plan has no cup 9 in a layer 1.");
        assertThat(enter("phone", 0, weigh(1, "gold-mica", "5", "unknown")).body())
                .isEqualTo("The plan has no \"gold-mica\" in this cup.");
        assertThat(enter("phone", 0, act("dance", 1, "")).statusCode()).isEqualTo(422);
        assertThat(served.post("/pours/" + pour + "/log", "{").statusCode()).isEqualTo(400);
        assertThat(served.post("/pours/" + pour + "/log", "[]").statusCode()).isEqualTo(400);
        assertThat(served.post("/pours/2026-03-02-ember-1/log", "{\"device\":\"a\",\"entries\":[]}")
                        .body())
                .isEqualTo("This pour was not weighed at the bench, so nothing can be entered there.");
    }

    @Test
    void theSuppliersCodeFindsTheLot() throws IOException {
        JsonNode lot = new JsonMapper()
                .readTree(folder.resolve("shelf/lots/A-2409.json").toFile());
        enter("phone", 0, weigh(1, "part A", "340", lot.get("code").asText().toLowerCase(java.util.Locale.ROOT)));
        assertThat(record().at("/layers/0/cups/0/weighed/0/lot").asText()).isEqualTo("A-2409");
    }

    @Test
    void anotherPhonesEntryIsToldBeforeThisOnesIsKept() throws IOException {
        enter("one", 0, weigh(1, "part A", "340", "A-2409"));
        HttpResponse<String> blind = enter("two", 0, weigh(1, "part A", "341", "A-2409"));
        assertThat(blind.statusCode()).isEqualTo(409);
        assertThat(blind.body()).startsWith("Another phone entered 340 g of part A meanwhile.");
        assertThat(record().get("log")).hasSize(1);
        assertThat(enter("two", 1, weigh(1, "amber-paste", "5", "AP-07")).statusCode())
                .isEqualTo(200);
    }

    /** f = max(actual/target): the other targets follow, as the record shows. */
    @Test
    void afterAnOverPourTheTargetsFollow() throws IOException {
        JsonNode items = record().at("/plan/layers/0/cups/0/items");
        double target = Double.parseDouble(items.get(0).get("target").asText().replace(" g", ""));
        enter(
                "phone",
                0,
                weigh(1, "part A", String.valueOf(target * 1.25), "A-2409"),
                act("follow", 1, ""),
                weigh(1, "amber-paste", "7", "AP-07"));
        JsonNode paste = record().at("/layers/0/cups/0/weighed/1");
        double planned = Double.parseDouble(items.get(1).get("target").asText().replace(" g", ""));
        assertThat(Double.parseDouble(paste.get("target").asText().replace(" g", "")))
                .isCloseTo(planned * 1.25, org.assertj.core.api.Assertions.within(1e-3));
    }

    /** Stock adds up whatever was weighed, undone and thrown away: left = received − weighed, thrown cups too. */
    @Test
    void stockAddsUpWhateverIsWeighedUndoneAndThrownAway() throws Exception {
        Random random = new Random(11);
        double before = left("A-2409");
        double took = 0;
        double inCup = 0;
        String last = "";
        double lastGrams = 0;
        int base = 0;
        for (int i = 0; i < 60; i++) {
            String entry;
            int kind = random.nextInt(6);
            if (kind == 0 && !last.isEmpty()) {
                entry = "{\"id\":\"e" + next++ + "\",\"what\":\"undo\",\"of\":\"" + last + "\"}";
                took -= lastGrams;
                inCup -= lastGrams;
                last = "";
            } else if (kind == 1 && inCup > 0) {
                entry = act("throw", 1, "");
                inCup = 0;
                last = "";
            } else {
                lastGrams = Math.rint(random.nextDouble() * 1000) / 10 + 0.1;
                last = "e" + next;
                entry = weigh(1, "part A", pigmentbook.quantity.Numbers.plain(lastGrams), "A-2409");
                took += lastGrams;
                inCup += lastGrams;
            }
            assertThat(enter("phone", base, entry).statusCode()).isEqualTo(200);
            base++;
        }
        assertThat(before - left("A-2409")).isCloseTo(took, org.assertj.core.api.Assertions.within(1e-3));
    }

    private double left(String lot) throws Exception {
        Opened opened = new BookFolder(folder).open();
        assertThat(opened.problems()).isEmpty();
        return opened.book()
                .leftGrams(java.util.Objects.requireNonNull(opened.book().lots().get(lot)));
    }

    /**
     * What a batch record holds (21 CFR 211.188(b), 211.184(c); EU GMP chapter 4, 4.20): dates, what was weighed and
     * from which lot, by whom and checked by whom, deviations, and nothing wiped out.
     */
    @Test
    void theRecordHoldsWhatABatchRecordHolds() throws IOException {
        enter("phone", 0, weigh(1, "part A", "340", "A-2409"));
        enter("phone", 1, act("note", 1, ",\"item\":\"part A\",\"text\":\"cup was wet\",\"by\":\"Ida\""));
        enter("phone", 2, act("check", 1, ",\"by\":\"Jo\""));
        enter("phone", 3, "{\"id\":\"u1\",\"what\":\"undo\",\"of\":\"e0\"}");
        JsonNode record = record();
        assertThat(record.get("started").asText()).isEqualTo("2026-11-25T08:30");
        assertThat(record.get("recipe").asText()).isEqualTo("ember");
        assertThat(record.get("revision").asInt()).isEqualTo(4);
        JsonNode weighing = record.get("log").get(0);
        assertThat(weighing.get("at").asText()).isEqualTo("2026-11-25T08:30Z");
        assertThat(weighing.get("by").asText()).isEqualTo("Ida");
        assertThat(weighing.get("lot").asText()).isEqualTo("A-2409");
        assertThat(weighing.get("grams").asText()).isEqualTo("340 g");
        assertThat(record.get("log").get(1).get("text").asText()).isEqualTo("cup was wet");
        assertThat(record.get("log").get(2).get("by").asText()).isEqualTo("Jo");
        // What is undone is still on record; it only counts no more.
        assertThat(record.get("log")).hasSize(4);
        assertThat(record.get("layers")).isEmpty();
        assertThat(record.at("/plan/layers/0/cups/0/items/0/low").asText()).endsWith(" g");
    }

    @Test
    void thePlanHoldsTheRecipesStepsAndWhatAScaleIsTooCoarseFor() throws IOException {
        JsonNode steps = record().at("/plan/steps");
        assertThat(steps).hasSize(3);
        assertThat(steps.get(0).get("text").asText()).isEqualTo("Wet the mica out in a little part A first");
        assertThat(steps.get(0).get("when").asText()).isEqualTo("before part B");
        // 1 kg in two cups: the parts are far above 82 g, which 1 % of a step of 1 g asks for (USP 41: 2 × 0.41 d / 1
        // %).
        assertThat(record().at("/plan/layers/0/cups/0/items/0").has("coarse")).isFalse();
        pour = served.post("/recipes/ember/bench?lead=total&total=30+g", "")
                .body()
                .split("/")[2];
        JsonNode items = record().at("/plan/layers/0/cups/0/items");
        assertThat(items.get(items.size() - 1).get("coarse").asText())
                .contains(" of part B is less than the 82 g its scale weighs to 1 %");
    }

    /** Two layers may lie on either side of midnight and of summer time: times are moments, told with their offset. */
    @Test
    void whenAnEntryWasMadeIsTheBooksClockWhateverThePhonesSays() throws IOException {
        String entry = weigh(1, "part A", "340", "A-2409").replace("\"by\"", "\"at\":\"1999-01-01T00:00:00Z\",\"by\"");
        served.post(
                "/pours/" + pour + "/log",
                "{\"device\":\"phone\",\"base\":0,\"ago\":90000,\"entries\":[" + entry + "]}");
        assertThat(record().get("log").get(0).get("at").asText()).isEqualTo("2026-11-25T08:28:30Z");
    }

    /**
     * The plan counts on AP-07, which is 104 % strong; AP-05 is as strong as the reference lot, so it takes 1.04 times
     * as much.
     */
    @Test
    void aWeakerLotTakesMoreToTheSameTarget() throws IOException {
        JsonNode planned = record().at("/plan/layers/0/cups/0/items/1");
        assertThat(planned.get("lot").asText() + " " + planned.get("strength").asText())
                .isEqualTo("AP-07 104 %");
        double target = grams(planned.get("target"));
        enter("phone", 0, weigh(1, "amber-paste", "2 g", "AP-07"), weigh(1, "amber-paste", "1 g", "AP-05"));
        JsonNode weighed = record().at("/layers/0/cups/0/weighed");
        assertThat(grams(weighed.get(0).get("target"))).isCloseTo(2 + (target - 2) * 1.04, within(1e-4));
        assertThat(weighed.get(1).get("target").isNull()).isTrue();
    }

    private static double grams(JsonNode text) {
        return Mass.parse(text.asText()).grams();
    }
}
