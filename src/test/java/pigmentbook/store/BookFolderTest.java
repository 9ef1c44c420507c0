package pigmentbook.store;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.Arguments;
import org.junit.jupiter.params.provider.MethodSource;

/** Opening a book: every bad file is told, and the rest works. Every refusal stands here with its text. */
class BookFolderTest {

    @TempDir
    Path book;

    private static final String RESIN = "{ \"id\": \"slow\", \"name\": \"Slow\",\n"
            + "  \"ratio\": { \"by\": \"weight\", \"a\": \"2\", \"b\": \"1\" } }";
    private static final String RECIPE = "{ \"id\": \"ember\", \"name\": \"Ember\",\n"
            + "  \"revisions\": [ { \"number\": 1, \"resin\": \"slow\", \"pigments\": [] } ] }";

    private void file(String name, String text) throws IOException {
        file(name, text.getBytes(StandardCharsets.UTF_8));
    }

    private void file(String name, byte[] bytes) throws IOException {
        Path path = book.resolve(name);
        Files.createDirectories(path.getParent());
        Files.write(path, bytes);
    }

    private List<Problem> problems() throws BookUnavailableException {
        return new BookFolder(book).open().check();
    }

    private static String pigments(String inside) {
        return "{\n  \"revisions\": [ { \"number\": 1, \"resin\": \"slow\", \"pigments\": [\n    " + inside
                + " ] } ] }";
    }

    /** The catalogue: a file, what is in it, and the problem that is told. */
    static Stream<Arguments> catalogue() {
        String cup = "{ \"recipe\": \"ember\", \"layers\": [ { \"cups\": [ { \"weighed\": [\n  ";
        return Stream.of(
                problem(
                        "x.json",
                        "{ \"name\": \"X\",\n \"tags\": [ }",
                        2,
                        "not-json",
                        "This line is no JSON: look for a missing or extra comma, quote or bracket here or on the line above."),
                problem(
                        "x.json",
                        "{ \"name\": \"X\",\n",
                        2,
                        "truncated",
                        "The file ends in the middle of a record. Fetch it again or complete it."),
                problem("x.json", " \n", 1, "empty", "The file is empty. Fetch it again, or take it away."),
                problem(
                        "x.json",
                        "[]",
                        1,
                        "not-a-record",
                        "Here stands no record; a file begins with { and ends with }."),
                problem("x.json", "{} {}", 1, "not-json", "After the closing } something follows; take it out."),
                problem(
                        "x.json",
                        "{ \"name\": \"X\",\n \"name\": \"Y\" }",
                        2,
                        "duplicate-field",
                        "\"name\" stands here a second time. Keep one of the two."),
                problem(
                        "x.json",
                        "{ \"a\": " + "[".repeat(70) + "]".repeat(70) + " }",
                        1,
                        "too-large",
                        "The file is nested too deeply or holds too long a text; no record needs that."),
                problem(
                        "x.json",
                        "{ \"id\": \"y\" }",
                        1,
                        "other-id",
                        "id is \"y\", but the file is named x.json. Make the two the same."),
                problem(
                        "x.json",
                        "{ \"id\": 7 }",
                        1,
                        "wrong-type",
                        "id is 7; a text in quotes was expected, such as \"7\"."),
                problem(
                        "x.json",
                        "{ \"revisions\": [] }",
                        1,
                        "missing-field",
                        "The recipe has no revision; at least one was expected."),
                problem("x.json", pigments("{ \"pigment\": \"amber\", \"percent\": \"1.2\" }"), 3, "bad-amount", null),
                problem(
                        "x.json",
                        pigments("{ \"pigment\": \"amber\", \"percent\": 1.2 }"),
                        3,
                        "wrong-type",
                        "percent is 1.2; an amount with its unit in quotes was expected."),
                problem(
                        "x.json",
                        pigments("{ \"pigment\": \"amber\" }"),
                        3,
                        "missing-field",
                        "\"percent\" is missing. Write it in."),
                problem(
                        "x.json",
                        pigments(
                                "{ \"pigment\": \"amber\", \"percent\": \"1 %\" },\n  { \"pigment\": \"amber\", \"percent\": \"2 %\" }"),
                        4,
                        "pigment-twice",
                        "The pigment \"amber\" stands here a second time. Add the two percents up."),
                problem(
                        "x.json",
                        "{ \"revisions\": [ { \"number\": 2, \"resin\": \"slow\" },\n { \"number\": 1, \"resin\": \"slow\" } ] }",
                        2,
                        "revision-order",
                        "number is 1; revisions count upwards, so more than 2 was expected."),
                problem(
                        "x.json",
                        "{ \"revisions\": [ { \"number\": \"1\", \"resin\": \"slow\" } ] }",
                        1,
                        "wrong-type",
                        "number is \"1\"; a whole number without quotes was expected."),
                problem(
                        "x.json",
                        "{ \"revisions\": [ { \"number\": 1, \"resin\": \"slow\", \"percentOf\": \"all\" } ] }",
                        1,
                        "unknown-word",
                        "percentOf is \"all\"; one of mixed resin, part a was expected."),
                problem(
                        "x.json",
                        "{ \"revisions\": [ { \"number\": 1, \"resin\": \"slow\", \"date\": \"2026-02-30\" } ] }",
                        1,
                        "bad-date",
                        "date is \"2026-02-30\"; a day such as \"2026-03-31\" was expected."),
                problem(
                        "x.json",
                        "{ \"name\": \"a\\u202eb\", \"revisions\": [ { \"number\": 1, \"resin\": \"slow\" } ] }",
                        1,
                        "bad-name",
                        "name holds an invisible character at place 2; a plain name on one line was expected. Type it anew."),
                problem(
                        "x.json",
                        "{ \"name\": \"" + "n".repeat(300)
                                + "\", \"revisions\": [ { \"number\": 1, \"resin\": \"slow\" } ] }",
                        1,
                        "bad-name",
                        "name has 300 characters; at most 200 were expected."),
                problem(
                        "shelf/pigments/part-a.json",
                        "{}",
                        0,
                        "bad-id",
                        "This name is no id. \"part-a\" can't be a pigment's id; it is kept for the resin's parts. Rename the"
                                + " file."),
                problem(
                        "shelf/pigments/Amber.json",
                        "{}",
                        0,
                        "bad-id",
                        "This name is no id. An id has 1 to 64 of the characters a-z 0-9 and the hyphen. Rename the file."),
                problem(
                        "shelf/pigments/a.json",
                        "{ \"carrier\": { \"is\": \"part A\", \"share\": \"101 %\" } }",
                        1,
                        "bad-value",
                        "A carrier's share of 101 % is above 100 %."),
                problem(
                        "shelf/pigments/a.json",
                        "{ \"kind\": \"glitter\" }",
                        1,
                        "unknown-word",
                        "kind is \"glitter\"; one of paste, powder, mica, dye, ink, glow, concentrate, other was expected."),
                problem(
                        "shelf/lots/A-1.json",
                        "{ \"of\": \"slow\", \"part\": \"A\", \"quantity\": \"1 kg\",\n \"strength\": \"0 %\" }",
                        1,
                        "bad-value",
                        "A strength of 0 % must be above 0 %; 100 % is as strong as the reference lot."),
                problem(
                        "molds/m.json",
                        "{ \"shape\": { \"kind\": \"egg\" } }",
                        1,
                        "unknown-word",
                        "kind is \"egg\"; one of box, taperedBox, cylinder, cone, dome, outline, stations, prism, volume, water"
                                + " was expected."),
                problem(
                        "molds/m.json",
                        "{ \"fill\": \"2 in\", \"shape\": { \"kind\": \"box\", \"length\": \"1 in\", \"width\": \"1 in\", \"depth\": \"1 in\" } }",
                        1,
                        "bad-value",
                        "A fill of \"2 in\" is outside the depth of \"1 in\"; give a height above zero and up to that."),
                problem(
                        "pours/2026/p.json",
                        cup + "{ \"item\": \"part A\", \"actual\": \"many\" } ] } ] } ] }",
                        2,
                        "bad-amount",
                        null),
                problem(
                        "pours/2026/p.json",
                        "{ \"recipe\": \"ember\", \"result\": { \"rating\": 7 } }",
                        1,
                        "bad-value",
                        "rating is 7; 1 to 5 was expected."),
                problem(
                        "pours/2026/p.json",
                        "{ \"recipe\": \"ember\", \"readings\": [ { \"lab\": [140, 0, 0] } ] }",
                        1,
                        "bad-value",
                        "lab: A colour of [140.0, 0.0, 0.0] cannot be; L* goes from 0 to 100, a* and b* from -200 to 200."),
                problem(
                        "pours/2026/p.json",
                        "{ \"recipe\": \"ember\", \"readings\": [ { \"lab\": [14, \"0\", 0] } ] }",
                        1,
                        "wrong-type",
                        "lab is no colour; three numbers [L, a, b] were expected, such as [41.2, 22.8, 36.1]."),
                problem(
                        "book.json",
                        "{ \"format\": 2 }",
                        1,
                        "unknown-format",
                        "format is 2; this program reads 1. Use a newer program for this book."),
                // What reads well but does not fit together.
                problem(
                        "x.json",
                        "{ \"revisions\": [ { \"number\": 1, \"resin\": \"slwo\" } ] }",
                        1,
                        "unknown-resin",
                        "There is no resin \"slwo\" in the book. Nearest: slow. Correct the name, or add the resin."),
                problem(
                        "x.json",
                        pigments("{ \"pigment\": \"amber\", \"percent\": \"1 %\" }"),
                        3,
                        "unknown-pigment",
                        "There is no pigment \"amber\" in the book. Correct the name, or add the pigment."),
                problem(
                        "shelf/pigments/a.json",
                        "{ \"contains\": { \"pigment\": \"a\", \"share\": \"10 %\" } }",
                        1,
                        "looping-link",
                        "This concentrate contains itself by way of a. Name the pure pigment."),
                problem(
                        "shelf/lots/L1.json",
                        "{ \"of\": \"slow\", \"quantity\": \"1 kg\" }",
                        1,
                        "missing-part",
                        "\"part\" is missing; A or B was expected for a lot of a resin."),
                problem(
                        "shelf/lots/L1.json",
                        "{ \"of\": \"slow\", \"part\": \"A\", \"quantity\": \"1 kg\","
                                + "\n\"shares\": [ { \"lot\": \"L1\", \"mass\": \"1 kg\" } ] }",
                        2,
                        "looping-link",
                        "This lot was put together from itself by way of L1. Name the lots it was made from."),
                problem(
                        "shelf/lots/L1.json",
                        "{ \"of\": \"slow\", \"part\": \"A\", \"quantity\": \"1 kg\","
                                + "\n\"shares\": [ { \"lot\": \"L0\", \"mass\": \"1 kg\" } ] }",
                        2,
                        "unknown-lot",
                        "There is no lot \"L0\" in the book. Nearest: L1. Correct the name, or add the lot."),
                problem(
                        "pours/2026/p.json",
                        "{ \"recipe\": \"ember\", \"revision\": 3 }",
                        1,
                        "unknown-revision",
                        "The recipe ember has no revision 3; its last one is 1."),
                problem(
                        "pours/2026/p.json",
                        cup + "{ \"item\": \"part A\", \"lot\": \"A-9\", \"actual\": \"1 g\" } ] } ] } ] }",
                        2,
                        "unknown-lot",
                        "There is no lot \"A-9\" in the book. Correct the name, or add the lot."));
    }

    private static Arguments problem(String file, String text, int line, String code, String said) {
        return Arguments.of(file, text, line, code, said);
    }

    @ParameterizedTest(name = "{0}: {3}")
    @MethodSource("catalogue")
    void aBadFileIsToldAndTheRestWorks(String file, String text, int line, String code, String said) throws Exception {
        file("shelf/resins/slow.json", RESIN);
        file("ember.json", RECIPE);
        file(file, text);
        byte[] before = Files.readAllBytes(book.resolve(file));
        Opened opened = new BookFolder(book).open();
        assertThat(opened.check()).hasSize(1);
        Problem problem = opened.check().get(0);
        assertThat(problem.file()).isEqualTo(file);
        assertThat(problem.line()).isEqualTo(line);
        if (said != null) {
            assertThat(problem.code()).isEqualTo(code);
            assertThat(problem.text()).isEqualTo(said);
        }
        assertThat(problem.text()).endsWith(".").doesNotContain("Exception");
        assertThat(opened.book().recipes()).containsKey("ember");
        assertThat(book.resolve(file)).hasBinaryContent(before);
    }

    @Test
    void textThatIsNotUtf8IsNamedAsSuch() throws Exception {
        file("ember.json", RECIPE);
        file("shelf/resins/slow.json", RESIN);
        file("a.json", "{ \"name\": \"ä\" }".getBytes(StandardCharsets.ISO_8859_1));
        file("b.json", "{ }".getBytes(StandardCharsets.UTF_16));
        assertThat(problems()).extracting(Problem::code).containsExactly("not-utf-8", "not-utf-8");
        assertThat(problems())
                .extracting(Problem::text)
                .containsExactly(
                        "This line holds bytes that are no UTF-8 text. Save the file again as UTF-8.",
                        "The file is UTF-16 text. Save it again as UTF-8.");
    }

    @Test
    void aByteOrderMarkIsNoProblem() throws Exception {
        file("shelf/resins/slow.json", "\ufeff" + RESIN);
        assertThat(problems()).isEmpty();
    }

    @Test
    void aHugeFileIsNotRead() throws Exception {
        file("shelf/resins/slow.json", RESIN);
        file("a.json", new byte[JsonFile.MOST_BYTES + 1]);
        assertThat(problems())
                .containsExactly(
                        new Problem("a.json", 1, "too-large", "The file is larger than 8 MiB; no record needs that."));
    }

    @ParameterizedTest
    @org.junit.jupiter.params.provider.ValueSource(
            strings = {
                "ember (conflicted copy 2026-11-02).json",
                "ember.sync-conflict-20261102-101112-ABC.json",
                "ember~HOST.json",
                "ember (1).json",
                "ember-HOST's conflicting copy.json"
            })
    void aConflictCopyIsToldAndNotMerged(String name) throws Exception {
        file("shelf/resins/slow.json", RESIN);
        file("ember.json", RECIPE);
        file(name, RECIPE);
        assertThat(problems())
                .containsExactly(new Problem(
                        name,
                        0,
                        "conflict-copy",
                        "This looks like a second version that a synchronised folder put aside beside ember.json. Compare the"
                                + " two, keep what is right in the original, and move this one away."));
    }

    @Test
    void lotsThatDifferOnlyByCapitalsAreTold() throws Exception {
        file("shelf/resins/slow.json", RESIN);
        file("shelf/lots/A-1.json", "{ \"of\": \"slow\", \"part\": \"A\", \"quantity\": \"1 kg\" }");
        file("shelf/lots/a-1.json", "{ \"of\": \"slow\", \"part\": \"A\", \"quantity\": \"1 kg\" }");
        assertThat(problems()).extracting(Problem::code).containsExactly("same-name");
    }

    @Test
    void linksThatLeadNowhereOrRoundAreTold() throws Exception {
        file("shelf/resins/slow.json", RESIN);
        Files.createSymbolicLink(book.resolve("gone.json"), Path.of("nowhere.json"));
        Files.createSymbolicLink(book.resolve("round.json"), Path.of("round.json"));
        assertThat(problems()).extracting(Problem::code).containsExactly("dead-link", "dead-link");
    }

    @Test
    void noBookAtAllIsToldInOneSentence() throws Exception {
        assertThatThrownBy(() -> new BookFolder(book.resolve("none")).open())
                .isInstanceOf(BookUnavailableException.class)
                .hasMessageStartingWith("There is no folder ");
        assertThatThrownBy(() -> new BookFolder(book).open())
                .hasMessageEndingWith("is empty; a book holds at least a book.json, a resin and a recipe.");
        file("file", "x");
        assertThatThrownBy(() -> new BookFolder(book.resolve("file")).open())
                .hasMessageEndingWith("is a file; a book is a folder. Name its folder.");
    }

    @Test
    void whatIsNoRecordIsLeftAlone() throws Exception {
        file("shelf/resins/slow.json", RESIN);
        file("README.md", "words");
        file(".hidden.json", "{");
        file("photos/a.json", "{");
        file(".ember.json.new", "{");
        assertThat(problems()).isEmpty();
    }

    @Test
    void aFormulaSignInANameIsOnlyAName() throws Exception {
        file("shelf/resins/slow.json", RESIN.replace("\"Slow\"", "\"=Slow+1\""));
        assertThat(new BookFolder(book).open().book().resins().get("slow").name())
                .isEqualTo("=Slow+1");
    }
}
