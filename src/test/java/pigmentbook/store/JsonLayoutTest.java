package pigmentbook.store;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.node.ObjectNode;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/** How records are laid out in their files, and what a change does to a file that a person laid out. */
class JsonLayoutTest {

    static List<Path> theDemoBook() throws IOException {
        try (Stream<Path> files = Files.walk(Path.of("recipes"))) {
            return files.filter(each -> each.toString().endsWith(".json"))
                    .sorted()
                    .toList();
        }
    }

    @ParameterizedTest
    @MethodSource("theDemoBook")
    void newFilesLookLikeThoseOfTheDemoBook(Path file) throws IOException, RefusedException {
        byte[] bytes = Files.readAllBytes(file);
        assertThat(JsonLayout.file(JsonFile.read(bytes))).isEqualTo(new String(bytes, StandardCharsets.UTF_8));
    }

    private static String spliced(String text, String after) throws RefusedException {
        return JsonSplice.apply(text, read(text), read(after));
    }

    private static ObjectNode read(String text) throws RefusedException {
        return JsonFile.read(text.getBytes(StandardCharsets.UTF_8));
    }

    @Test
    void anAddedFieldStandsLastOnALineOfItsOwn() throws RefusedException {
        assertThat(spliced("{\r\n\t\"a\": 1,\r\n\t\"b\": 2\r\n}\r\n", "{\"a\":1,\"b\":2,\"c\":{\"d\":[1,2]}}"))
                .isEqualTo("{\r\n\t\"a\": 1,\r\n\t\"b\": 2,\r\n\t\"c\": { \"d\": [1, 2] }\r\n}\r\n");
    }

    @Test
    void aTightFileStaysTight() throws RefusedException {
        assertThat(spliced("{\"a\":1}", "{\"a\":1,\"c\":{\"d\":[1,2]}}")).isEqualTo("{\"a\":1,\"c\":{\"d\":[1,2]}}");
    }

    @Test
    void aFieldTakenOutGoesWithItsComma() throws RefusedException {
        String text = "{\n  \"a\": 1,\n  \"b\": 2,\n  \"c\": 3\n}\n";
        assertThat(spliced(text, "{\"b\":2,\"c\":3}")).isEqualTo("{\n  \"b\": 2,\n  \"c\": 3\n}\n");
        assertThat(spliced(text, "{\"a\":1,\"c\":3}")).isEqualTo("{\n  \"a\": 1,\n  \"c\": 3\n}\n");
        assertThat(spliced(text, "{\"a\":1,\"b\":2}")).isEqualTo("{\n  \"a\": 1,\n  \"b\": 2\n}\n");
    }

    @Test
    void anAddedRevisionIsLaidOutLikeTheOthers() throws RefusedException {
        String text = "{\n    \"revisions\": [\n        { \"number\": 1 }\n    ]\n}\n";
        assertThat(spliced(text, "{\"revisions\":[{\"number\":1},{\"number\":2,\"why\":\"warmer\"}]}"))
                .isEqualTo("{\n    \"revisions\": [\n        { \"number\": 1 },\n"
                        + "        { \"number\": 2, \"why\": \"warmer\" }\n    ]\n}\n");
    }

    @Test
    void aLongAddedValueTakesSeveralLines() throws RefusedException {
        String why = "w".repeat(120);
        assertThat(spliced("{\n  \"a\": [\n    1\n  ]\n}\n", "{\"a\":[1,{\"why\":\"" + why + "\",\"b\":2}]}"))
                .isEqualTo("{\n  \"a\": [\n    1,\n    {\n      \"why\": \"" + why
                        + "\",\n      \"b\": 2\n    }\n  ]\n}\n");
    }

    @Test
    void anAmountKeepsItsSpellingWhereItsNeighbourChanges() throws RefusedException {
        String text = "{ \"lab\": [41.20, 2.28E1 , 36.1] }";
        assertThat(spliced(text, "{\"lab\":[41.2,22.8,37]}")).isEqualTo("{ \"lab\": [41.20, 2.28E1 , 37] }");
    }

    @Test
    void aValueAddedInTheMiddleLeavesTheOthersAlone() throws RefusedException {
        assertThat(spliced("{ \"tags\": [ \"warm\",\"pearl\" ] }", "{\"tags\":[\"warm\",\"deep\",\"pearl\"]}"))
                .isEqualTo("{ \"tags\": [ \"warm\",\"deep\",\"pearl\" ] }");
        assertThat(spliced("{ \"tags\": [\"warm\"] }", "{\"tags\":[\"deep\",\"warm\"]}"))
                .isEqualTo("{ \"tags\": [\"deep\", \"warm\"] }");
    }
}
