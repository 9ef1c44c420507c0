package pigmentbook.web;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.nio.file.Path;
import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.time.ZoneId;
import java.time.ZoneOffset;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/**
 * A helper's phone gets the bench and the sheets, by a link that holds for a time; a second loopback address stands for
 * the network.
 */
class SharingTest {

    @TempDir
    Path folder;

    private final Later clock = new Later();
    private final HttpClient client = HttpClient.newHttpClient();
    private WebServer server;

    /** A clock that is put forward. */
    private static final class Later extends Clock {
        private Instant now = Instant.parse("2026-11-25T08:30:00Z");

        @Override
        public ZoneId getZone() {
            return ZoneOffset.UTC;
        }

        @Override
        public Clock withZone(ZoneId zone) {
            return this;
        }

        @Override
        public Instant instant() {
            return now;
        }
    }

    @BeforeEach
    void start() throws Exception {
        server = WebServer.start(new LiveBook(Served.copyOfTheBook(folder)), 0, clock, "127.0.0.2");
    }

    @AfterEach
    void stop() {
        server.close();
    }

    private HttpResponse<String> send(HttpRequest.Builder request) throws IOException, InterruptedException {
        return client.send(request.build(), HttpResponse.BodyHandlers.ofString());
    }

    private static HttpRequest.Builder to(String url) {
        return HttpRequest.newBuilder(URI.create(url));
    }

    private String cookie(String link) throws IOException, InterruptedException {
        HttpResponse<String> answer = send(to(link));
        assertThat(answer.statusCode()).isEqualTo(302);
        String cookie = answer.headers().firstValue("Set-Cookie").orElseThrow();
        assertThat(cookie).contains("HttpOnly").contains("SameSite=Strict");
        return cookie.substring(0, cookie.indexOf(';'));
    }

    private static String base(String link) {
        return link.substring(0, link.indexOf("/share/"));
    }

    @Test
    void nothingListensOnTheNetworkUntilALinkIsGivenAndAgainOnceAllAreEnded() throws Exception {
        assertThat(server.sharing().links()).isEmpty();
        String link = server.sharing().share("Jo", Duration.ofHours(1));
        assertThat(link).startsWith("http://127.0.0.2:");
        cookie(link);
        assertThat(server.sharing().links().get(0).seen()).contains("1 times");
        server.sharing().end(server.sharing().links().get(0).number());
        assertThat(org.assertj.core.api.Assertions.catchThrowable(() -> send(to(link))))
                .isInstanceOf(java.net.ConnectException.class);
    }

    @Test
    void theLinkOpensTheBenchAndTheSheetsAndNothingElse() throws Exception {
        String link = server.sharing().share("Jo", Duration.ofHours(1));
        String cookie = cookie(link);
        assertThat(send(to(base(link) + "/bench").header("Cookie", cookie)).body())
                .contains("Nothing is being weighed");
        assertThat(send(to(base(link) + "/recipes/ember/sheet/csv?lead=total&total=500+g")
                                .header("Cookie", cookie))
                        .statusCode())
                .isEqualTo(200);
        for (String path :
                new String[] {"/recipes", "/shelf", "/molds", "/recipes/ember", "/pours/2026-03-02-ember-1"}) {
            assertThat(send(to(base(link) + path).header("Cookie", cookie)).statusCode())
                    .as(path)
                    .isEqualTo(404);
        }
        assertThat(send(to(base(link) + "/edits")
                                .header("Cookie", cookie)
                                .header(
                                        "X-Book-Token",
                                        send(to(base(link) + "/token").header("Cookie", cookie))
                                                .body())
                                .POST(HttpRequest.BodyPublishers.ofString("{}")))
                        .statusCode())
                .isEqualTo(404);
    }

    @Test
    void withoutTheTokenOrWithAnEndedOneOrOneWhoseTimeIsOverNothingIsShown() throws Exception {
        String link = server.sharing().share("Jo", Duration.ofHours(1));
        int first = server.sharing().links().get(0).number();
        server.sharing().share("Ida", Duration.ofHours(2));
        String cookie = cookie(link);
        assertThat(send(to(base(link) + "/bench")).statusCode()).isEqualTo(403);
        assertThat(send(to(base(link) + "/bench").header("Cookie", "bench=guessed"))
                        .statusCode())
                .isEqualTo(403);
        clock.now = clock.now.plus(Duration.ofMinutes(61));
        HttpResponse<String> over = send(to(base(link) + "/bench").header("Cookie", cookie));
        assertThat(over.statusCode()).isEqualTo(403);
        assertThat(over.body())
                .isEqualTo("This link is not one of the bench's, or its time is over. Ask for a new one.");
        String other = server.sharing().share("Bo", Duration.ofHours(1));
        String others = cookie(other);
        // A page that was shown before the first link's time was over ends that one, not the one in its place now.
        server.sharing().end(first);
        assertThat(server.sharing().links()).extracting(Sharing.Shown::name).containsExactly("Ida", "Bo");
        server.sharing().end(server.sharing().links().get(1).number());
        assertThat(send(to(base(other) + "/bench").header("Cookie", others)).statusCode())
                .isEqualTo(403);
    }

    @Test
    void guessingGetsSlower() throws Exception {
        String link = server.sharing().share("Jo", Duration.ofHours(1));
        long start = System.nanoTime();
        for (int i = 0; i < 4; i++) {
            send(to(base(link) + "/share/guess-" + i));
        }
        // 100 + 200 + 400 + 800 ms of waiting: how fast the machine is plays no part.
        assertThat(System.nanoTime() - start).isGreaterThan(1_400_000_000L);
    }

    @Test
    void anotherHostAForeignOriginAndAMissingTokenAreRefused() throws Exception {
        String link = server.sharing().share("Jo", Duration.ofHours(1));
        String cookie = cookie(link);
        String token = send(to(base(link) + "/token").header("Cookie", cookie)).body();
        String log = base(link) + "/pours/2026-03-02-ember-1/log";
        assertThat(send(to(log).header("Cookie", cookie).POST(HttpRequest.BodyPublishers.ofString("{}")))
                        .statusCode())
                .isEqualTo(403);
        assertThat(send(to(log).header("Cookie", cookie)
                                .header("X-Book-Token", token)
                                .header("Origin", "http://elsewhere.example")
                                .POST(HttpRequest.BodyPublishers.ofString("{}")))
                        .statusCode())
                .isEqualTo(403);
        assertThat(send(to(log).header("Cookie", cookie)
                                .header("X-Book-Token", token)
                                .header("Origin", base(link))
                                .POST(HttpRequest.BodyPublishers.ofString("{}")))
                        .statusCode())
                .isEqualTo(400);
        // The token of this computer's own page is none on the network, and the other way about.
        String own = send(to(server.url() + "token")).body();
        assertThat(send(to(log).header("Cookie", cookie)
                                .header("X-Book-Token", own)
                                .POST(HttpRequest.BodyPublishers.ofString("{}")))
                        .statusCode())
                .isEqualTo(403);
    }
}
