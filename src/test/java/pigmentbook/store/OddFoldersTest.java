package pigmentbook.store;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.concurrent.TimeUnit;
import org.junit.jupiter.api.Assumptions;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** Books as they come out of memory sticks, synchronised folders and editors: told, and the rest works. */
class OddFoldersTest {

    @TempDir
    Path book;

    @BeforeEach
    void aSmallBook() throws IOException {
        file("shelf/resins/slow.json", "{ \"ratio\": { \"by\": \"weight\", \"a\": \"2\", \"b\": \"1\" } }");
        file("ember.json", "{ \"revisions\": [ { \"number\": 1, \"resin\": \"slow\" } ] }");
    }

    private void file(String name, String text) throws IOException {
        file(name, text.getBytes(StandardCharsets.UTF_8));
    }

    private void file(String name, byte[] bytes) throws IOException {
        Path path = book.resolve(name);
        Files.createDirectories(path.getParent());
        Files.write(path, bytes);
    }

    private List<Problem> problems() throws BookUnavailableException {
        Opened opened = new BookFolder(book).open();
        assertThat(opened.book().recipes()).containsKey("ember");
        return opened.check();
    }

    private Problem problem() throws BookUnavailableException {
        assertThat(problems()).hasSize(1);
        return problems().get(0);
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "ember (2)",
                "ember(1)",
                "ember (copy)",
                "ember copy",
                "ember copy 2",
                "ember - Copy",
                "ember - Copy (3)",
                "ember - Kopie",
                "ember (Jonas's conflicted copy 2026-11-02)",
                "ember (Konflikt-Kopie 2026-11-02)",
                "ember (copie en conflit)",
                "ember [conflicted]",
                "ember_conflict-20261102-101112",
                "ember.conflict",
                "ember.sync-conflict-20261102-101112-QWERTYU",
                "ember~DESK-2",
                "ember-DESK-2’s conflicting copy"
            })
    void aSecondVersionIsToldBesideItsOriginal(String name) throws Exception {
        file(name + ".json", "{ \"id\": \"ember\" }");
        file("em.json", "{ \"revisions\": [ { \"number\": 1, \"resin\": \"slow\" } ] }");
        assertThat(problem())
                .isEqualTo(new Problem(
                        name + ".json",
                        0,
                        "conflict-copy",
                        "This looks like a second version that a synchronised folder put aside beside ember.json."
                                + " Compare the two, keep what is right in the original, and move this one away."));
    }

    @Test
    void aSecondVersionWithoutItsOriginalIsToldToo() throws Exception {
        file("dusk (1).json", "{}");
        assertThat(problem().text())
                .isEqualTo("This looks like a second version that a synchronised folder put aside. Compare the two,"
                        + " keep what is right in the original, and move this one away.");
    }

    @ParameterizedTest
    @ValueSource(strings = {"My ember", "Conflict red", "émbre", "ember.old", "ember_2", "copy of ember", "Copyist"})
    void aWrongNameIsOnlyAWrongName(String name) throws Exception {
        file("molds/" + name + ".json", "{}");
        assertThat(problem())
                .isEqualTo(new Problem(
                        "molds/" + name + ".json",
                        0,
                        "bad-id",
                        "This name is no id. An id has 1 to 64 of the characters a-z 0-9 and the hyphen. Rename the"
                                + " file."));
    }

    @Test
    void aNameWithALineBreakIsToldOnOneLine() throws Exception {
        Assumptions.assumeTrue(book.getFileSystem().getSeparator().equals("/"));
        file("em\nber\u202e.json", "{}");
        assertThat(problem().file()).isEqualTo("em·ber·.json");
    }

    @Test
    void capitalsInTheEndingAreTold() throws Exception {
        file("dusk.JSON", "{}");
        assertThat(problem())
                .isEqualTo(new Problem(
                        "dusk.JSON",
                        0,
                        "bad-id",
                        "This name is no id. A file's name ends with .json in small letters. Rename the file."));
    }

    @ParameterizedTest
    @ValueSource(strings = {"shelf/lots", "molds", "pours"})
    void aFileWhereAFolderShouldBeIsTold(String name) throws Exception {
        file(name, "here");
        assertThat(problem().file()).isEqualTo(name);
        assertThat(problem().code()).isEqualTo("not-a-folder");
        assertThat(problem().text())
                .isEqualTo("Here stands a file or a dead link where the folder of the "
                        + name.substring(name.indexOf('/') + 1) + " was expected. Move it away.");
    }

    @Test
    void aFileInPlaceOfTheShelfIsTold() throws Exception {
        Files.delete(book.resolve("shelf/resins/slow.json"));
        Files.delete(book.resolve("shelf/resins"));
        Files.delete(book.resolve("shelf"));
        Files.createSymbolicLink(book.resolve("shelf"), Path.of("gone"));
        assertThat(new BookFolder(book).open().problems())
                .containsExactly(new Problem(
                        "shelf",
                        0,
                        "not-a-folder",
                        "Here stands a file or a dead link where the folder of the shelf was expected. Move it away."));
    }

    @Test
    void recordsBesideTheirFoldersAreTold() throws Exception {
        file("pours/2026-11-02-ember-1.json", "{ \"recipe\": \"ember\" }");
        file("shelf/A-1.json", "{ \"of\": \"slow\" }");
        assertThat(problems())
                .containsExactly(
                        new Problem(
                                "pours/2026-11-02-ember-1.json",
                                0,
                                "misplaced",
                                "A pour lies in the folder of its year, such as pours/2026. Move this file there."),
                        new Problem(
                                "shelf/A-1.json",
                                0,
                                "misplaced",
                                "A resin, pigment or lot lies in a folder of the shelf, such as shelf/lots. Move this"
                                        + " file there."));
    }

    @Test
    void aFolderNamedLikeARecordIsTold() throws Exception {
        Files.createDirectory(book.resolve("dusk.json"));
        assertThat(problem())
                .isEqualTo(new Problem(
                        "dusk.json",
                        0,
                        "not-a-file",
                        "Here stands a folder, or something else that is no file, where the file of a recipe was"
                                + " expected. Move it away."));
    }

    /** A pipe without a writer would be waited for without end. */
    @Test
    @Timeout(20)
    void aPipeIsNotReadFrom() throws Exception {
        Assumptions.assumeTrue(Files.isExecutable(Path.of("/usr/bin/mkfifo")));
        Process made =
                new ProcessBuilder("/usr/bin/mkfifo", book.resolve("dusk.json").toString()).start();
        assertThat(made.waitFor(5, TimeUnit.SECONDS)).isTrue();
        assertThat(problem().code()).isEqualTo("not-a-file");
    }

    @Test
    void aFileThatMayNotBeReadIsTold() throws Exception {
        file("dusk.json", "{}");
        Assumptions.assumeTrue(book.resolve("dusk.json").toFile().setReadable(false));
        Assumptions.assumeFalse(Files.isReadable(book.resolve("dusk.json")), "this person may read everything");
        assertThat(problem())
                .isEqualTo(
                        new Problem("dusk.json", 0, "unreadable", "This file can't be read. Check who may read it."));
    }

    @Test
    void bytesThatOnlyLookLikeUtf8AreTold() throws Exception {
        // A quote spelled in two bytes and half a surrogate pair spelled in three: both forbidden by RFC 3629, 3.
        file("dusk.json", new byte[] {'{', '\n', '"', (byte) 0xc0, (byte) 0xa2, '"', ':', '1', '}'});
        file("plum.json", new byte[] {'{', '"', (byte) 0xed, (byte) 0xa0, (byte) 0x80, '"', ':', '1', '}'});
        assertThat(problems())
                .containsExactly(
                        new Problem(
                                "dusk.json",
                                2,
                                "not-utf-8",
                                "This line holds bytes that are no UTF-8 text. Save the file again as UTF-8."),
                        new Problem(
                                "plum.json",
                                1,
                                "not-utf-8",
                                "This line holds bytes that are no UTF-8 text. Save the file again as UTF-8."));
    }

    @Test
    void aLongOrInvisibleTextIsShownShortAndSeen() throws Exception {
        String shown = "a·b" + "c".repeat(57) + "…";
        String odd = "a\\u202eb" + "c".repeat(5000);
        file("dusk.json", "{ \"id\": \"" + odd + "\" }");
        file("molds/tray.json", "{ \"shape\": { \"kind\": \"" + odd + "\" } }");
        file("plum.json", "{ \"" + odd + "\": 1, \"" + odd + "\": 2 }");
        file("rust.json", "{ \"revisions\": [ { \"number\": 1, \"resin\": \"" + odd + "\" } ] }");
        assertThat(problems())
                .extracting(Problem::text)
                .containsExactly(
                        "id is \"" + shown + "\", but the file is named dusk.json. Make the two the same.",
                        "kind is \"" + shown + "\"; one of box, taperedBox, cylinder, cone, dome, outline, stations,"
                                + " prism, volume, water was expected.",
                        "\"" + shown + "\" stands here a second time. Keep one of the two.",
                        "There is no resin \"" + shown + "\" in the book. Correct the name, or add the resin.");
    }

    @Test
    void aCornerThatIsNoneIsTold() throws Exception {
        String shape =
                "{ \"shape\": { \"kind\": \"outline\", \"depth\": \"1 cm\", \"points\": [%s],\n \"holes\": [%s] } }";
        String square = "[\"0 mm\",\"0 mm\"], [\"9 mm\",\"0 mm\"], [\"9 mm\",\"9 mm\"], [\"0 mm\",\"9 mm\"]";
        file(
                "molds/a.json",
                shape.replaceFirst("%s", square + ", {\"x\":\"1 mm\"}").replace("%s", ""));
        file("molds/b.json", shape.replaceFirst("%s", square).replace("%s", "\"none\""));
        file("molds/c.json", shape.replaceFirst("%s", square).replace("%s", "[[\"1 mm\",\"2 mm\",\"3 mm\"]]"));
        assertThat(problems())
                .containsExactly(
                        new Problem(
                                "molds/a.json",
                                1,
                                "wrong-type",
                                "A corner is {…}; two lengths [\"0 mm\", \"0 mm\"] were expected."),
                        new Problem(
                                "molds/b.json",
                                2,
                                "wrong-type",
                                "An outline is \"none\"; a list of corners [[\"0 mm\", \"0 mm\"], …] was expected."),
                        new Problem(
                                "molds/c.json",
                                2,
                                "wrong-type",
                                "A corner is […]; two lengths [\"0 mm\", \"0 mm\"] were expected."));
    }

    @Test
    void twoPoursOfOneNameAreTold() throws Exception {
        file("pours/2025/p.json", "{ \"recipe\": \"ember\" }");
        file("pours/2026/p.json", "{ \"recipe\": \"ember\" }");
        assertThat(problem())
                .isEqualTo(new Problem(
                        "pours/2026/p.json",
                        0,
                        "same-name",
                        "A pour of this name lies in pours/2025/p.json too. Rename one of the two."));
    }

    /** What a synchronised folder looks like while it is being filled. */
    @Test
    void aHalfSynchronisedBookOpensWithWhatIsThere() throws Exception {
        file("dusk.json", "{ \"revisions\": [ { \"number\": 1, \"resin\": \"quick\" } ] }");
        file("plum.json", new byte[0]);
        file("rust.json", "{ \"revisions\": [ { \"num");
        file(".syncing.slow.json.part", "{");
        file(".~ember.json", "{");
        file("shelf/resins/quick.json.part", "{");
        Opened opened = new BookFolder(book).open();
        assertThat(opened.book().recipes()).containsOnlyKeys("ember", "dusk");
        assertThat(opened.check())
                .extracting(Problem::file, Problem::code)
                .containsExactly(
                        org.assertj.core.groups.Tuple.tuple("dusk.json", "unknown-resin"),
                        org.assertj.core.groups.Tuple.tuple("plum.json", "empty"),
                        org.assertj.core.groups.Tuple.tuple("rust.json", "truncated"));
    }
}
