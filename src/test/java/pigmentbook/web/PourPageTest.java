package pigmentbook.web;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.json.JsonMapper;
import java.awt.image.BufferedImage;
import java.io.ByteArrayInputStream;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.nio.charset.StandardCharsets;
import javax.imageio.ImageIO;
import org.junit.jupiter.api.Test;

/** Afterwards: how it came out, its readings, its photos, the room it measured. */
class PourPageTest extends ServedCopy {

    private static final String POUR = "2026-11-18-ember-1";

    private HttpResponse<String> form(String path, String... fields) {
        return served.form(path, fields);
    }

    private HttpResponse<String> photo(byte[] bytes) {
        return served.send(served.request("/pours/" + POUR + "/photos")
                .header("X-Book-Token", served.get("/token").body())
                .POST(HttpRequest.BodyPublishers.ofByteArray(bytes))
                .build());
    }

    private JsonNode record() throws IOException {
        return new JsonMapper()
                .readTree(folder.resolve("pours/2026/" + POUR + ".json").toFile());
    }

    @Test
    void aResultIsKeptAndAWrongAmountInItIsToldWithTheRestKept() throws IOException {
        HttpResponse<String> told = form(
                "/pours/" + POUR + "/result",
                "/result/rating",
                "5",
                "was:/result/rating",
                String.valueOf(record().at("/result/rating").asText()),
                "/result/text",
                "Deep and even.",
                "was:/result/text",
                record().at("/result/text").asText(),
                "/left",
                "a spoonful",
                "was:/left",
                record().path("left").asText(""));
        assertThat(told.statusCode()).isEqualTo(422);
        assertThat(told.body()).contains("a spoonful").endsWith("All else you typed is kept.");
        assertThat(record().at("/result/text").asText()).isEqualTo("Deep and even.");
        assertThat(record().at("/result/rating").asInt()).isEqualTo(5);
    }

    @Test
    void whatSomebodyElseWroteMeanwhileIsShownAndStands() {
        HttpResponse<String> told =
                form("/pours/" + POUR + "/result", "/result/text", "Mine.", "was:/result/text", "What I had seen.");
        assertThat(told.statusCode()).isEqualTo(422);
        assertThat(told.body()).startsWith("Somebody else wrote ").contains("and you \"Mine.\"");
    }

    @Test
    void aReadingIsTypedAsLabOrHexAndAnImpossibleOneIsRefused() throws IOException {
        int before = record().get("readings").size();
        assertThat(form(
                                "/pours/" + POUR + "/readings",
                                "colour",
                                "41.2, 22.8, 36.1",
                                "depth",
                                "6 mm",
                                "backing",
                                "black")
                        .statusCode())
                .isEqualTo(200);
        JsonNode reading = record().get("readings").get(before);
        assertThat(reading.get("lab").get(2).doubleValue()).isEqualTo(36.1);
        assertThat(reading.get("backing").asText()).isEqualTo("black");
        assertThat(form("/pours/" + POUR + "/readings", "colour", "140, 0, 0").body())
                .contains("140");
        assertThat(form("/pours/" + POUR + "/readings", "colour", "brown").statusCode())
                .isEqualTo(422);
        assertThat(form("/pours/" + POUR + "/readings", "colour", "#aa5522", "depth", "deep")
                        .statusCode())
                .isEqualTo(422);
        assertThat(record().get("readings")).hasSize(before + 1);
    }

    @Test
    void aPhotoIsKeptSmallUprightAndWithoutWhereItWasTaken() throws IOException {
        BufferedImage lying = new BufferedImage(3000, 1000, BufferedImage.TYPE_INT_RGB);
        for (int x = 0; x < 1500; x++) {
            for (int y = 0; y < 1000; y++) {
                lying.setRGB(x, y, 0xC02020);
            }
        }
        ByteArrayOutputStream jpeg = new ByteArrayOutputStream();
        ImageIO.write(lying, "jpeg", jpeg);
        assertThat(photo(held(jpeg.toByteArray(), 6)).statusCode()).isEqualTo(200);
        byte[] kept = served.bytes("/pours/" + POUR + "/photos/0").body();
        assertThat(new String(kept, StandardCharsets.ISO_8859_1))
                .doesNotContain("Exif")
                .doesNotContain("SECRETPLACE");
        BufferedImage upright = ImageIO.read(new ByteArrayInputStream(kept));
        // Orientation 6: the picture's left side is the top of what was seen (Exif 2.3, tag 0x0112).
        assertThat(upright.getHeight()).isEqualTo(1600);
        assertThat((upright.getRGB(100, 100) >> 16) & 0xFF).isGreaterThan(150);
        assertThat((upright.getRGB(100, 1500) >> 16) & 0xFF).isLessThan(60);
        assertThat(record().get("photos")).hasSize(1);
        assertThat(served.get("/pours/" + POUR + "/photos/7").statusCode()).isEqualTo(404);
        assertThat(served.get("/pours/" + POUR + "/photos/..%2f..%2fbook.json").statusCode())
                .isGreaterThanOrEqualTo(400);
    }

    /** Puts an Exif part with an orientation and some words into a JPEG. */
    private static byte[] held(byte[] jpeg, int orientation) {
        byte[] place = "SECRETPLACE".getBytes(StandardCharsets.US_ASCII);
        ByteArrayOutputStream out = new ByteArrayOutputStream();
        int length = 2 + 6 + 8 + 2 + 12 + 4 + place.length;
        byte[] part = {
            (byte) 0xFF,
            (byte) 0xD8,
            (byte) 0xFF,
            (byte) 0xE1,
            (byte) (length >> 8),
            (byte) length,
            'E',
            'x',
            'i',
            'f',
            0,
            0,
            'M',
            'M',
            0,
            42,
            0,
            0,
            0,
            8,
            0,
            1,
            1,
            0x12,
            0,
            3,
            0,
            0,
            0,
            1,
            0,
            (byte) orientation,
            0,
            0,
            0,
            0,
            0,
            0
        };
        out.writeBytes(part);
        out.writeBytes(place);
        out.write(jpeg, 2, jpeg.length - 2);
        return out.toByteArray();
    }

    @Test
    void whatIsNoPhotoOrTooLargeAPictureIsRefused() throws IOException {
        assertThat(photo("no photo".getBytes(StandardCharsets.UTF_8)).body())
                .isEqualTo("This is no photo that can be read; a JPEG or a PNG was expected.");
        assertThat(photo(new byte[0]).statusCode()).isEqualTo(422);
        BufferedImage one = new BufferedImage(1, 1, BufferedImage.TYPE_INT_RGB);
        ByteArrayOutputStream png = new ByteArrayOutputStream();
        ImageIO.write(one, "png", png);
        byte[] claims = png.toByteArray();
        // The head of a PNG that claims 20 000 × 10 000 points: refused before any of them is made room for.
        claims[18] = 0x4E;
        claims[19] = 0x20;
        claims[22] = 0x27;
        claims[23] = 0x10;
        assertThat(photo(claims).body())
                .isEqualTo("The photo has 20000 × 10000 points; at most 60 million can be taken in.");
        assertThat(record().get("photos")).isEmpty();
    }

    @Test
    void thePageShowsPlanWeighedAndTheRatioReached() {
        String page = served.get("/pours/" + POUR).body();
        assertThat(page).contains("Ratio reached:").contains("Percent of mixed resin, as weighed:");
        assertThat(served.get("/pours/no-such-pour").statusCode()).isEqualTo(404);
        assertThat(served.get("/bench").body()).contains("Nothing is being weighed");
    }
}
