package pigmentbook.store;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.catchThrowableOfType;

import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.concurrent.TimeUnit;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** Saving: nothing that was written is lost, and nothing is changed that nobody changed. */
class BookWriterTest {

    /** How a person might have typed it: tabs, fields in no order, unknown ones, an escape, spaces here and there. */
    private static final String ODD = "{\t\"name\" : \"Slow \\u00e9\",\n"
            + "   \"colour of the can\": [ 1,2,  {\"x\":null} ],\n"
            + "\t\"batchMost\":\"1,5 kg\"  ,\n"
            + "\"ratio\": {\"b\":\"1\",  \"a\":\"2\",\"by\":\"weight\"} , \"id\":\"slow\"\n}\n\n";

    @TempDir
    Path book;

    private Path put(String name, String text) throws IOException {
        Path path = book.resolve(name);
        Files.createDirectories(path.getParent());
        return Files.writeString(path, text);
    }

    private BookWriter writer() {
        return new BookWriter(book);
    }

    @ParameterizedTest
    @ValueSource(strings = {"\n", "\r\n"})
    void oneChangedValueIsTheOnlyChangeInTheFile(String lineEnd) throws Exception {
        String odd = ODD.replace("\n", lineEnd);
        Path file = put("shelf/resins/slow.json", odd);
        BookWriter.Current now = writer().read(Kind.RESIN, "slow");
        ObjectNode changed = now.record().deepCopy();
        changed.put("batchMost", "2 kg");
        writer().save(Kind.RESIN, "slow", now.version(), changed);
        assertThat(Files.readString(file)).isEqualTo(odd.replace("1,5 kg", "2 kg"));
    }

    @Test
    void savingWithoutAChangeLeavesEveryByte() throws Exception {
        Path file = put("shelf/resins/slow.json", "\ufeff" + ODD);
        BookWriter.Current now = writer().read(Kind.RESIN, "slow");
        writer().save(Kind.RESIN, "slow", now.version(), now.record().deepCopy());
        assertThat(Files.readString(file)).isEqualTo("\ufeff" + ODD);
    }

    @Test
    void everyFileOfTheDemoBookSurvivesAChangeAndBackAgain() throws Exception {
        Path demo = Path.of("recipes");
        try (Stream<Path> files = Files.walk(demo)) {
            for (Path from :
                    files.filter(each -> each.toString().endsWith(".json")).toList()) {
                String text = Files.readString(from);
                ObjectNode before = JsonFile.read(text.getBytes(StandardCharsets.UTF_8));
                ObjectNode after = before.deepCopy();
                after.put("notes", "changed");
                after.putArray("added").add("x").addObject().put("y", 1);
                after.remove("id");
                String there = JsonSplice.apply(text, before, after);
                assertThat(JsonFile.read(there.getBytes(StandardCharsets.UTF_8)))
                        .as(from.toString())
                        .isEqualTo(after);
                String back = JsonSplice.apply(there, after, before);
                assertThat(JsonFile.read(back.getBytes(StandardCharsets.UTF_8)))
                        .as(from.toString())
                        .isEqualTo(before);
            }
        }
    }

    @Test
    void listsGrowAndShrinkInTheMiddle() throws Exception {
        String text = "{ \"a\": [\n  { \"n\": 1 },\n  { \"n\": 2 },\n  { \"n\": 3 }\n] }";
        ObjectNode before = JsonFile.read(text.getBytes(StandardCharsets.UTF_8));
        ObjectNode after = before.deepCopy();
        ((ArrayNode) after.get("a")).remove(1);
        assertThat(JsonSplice.apply(text, before, after)).isEqualTo("{ \"a\": [\n  { \"n\": 1 },\n  { \"n\": 3 }\n] }");
        ((ArrayNode) after.get("a")).insertObject(1).put("n", 9).put("why", "new");
        ((ArrayNode) after.get("a")).insertObject(1).put("n", 8);
        assertThat(JsonSplice.apply(text, before, after))
                .isEqualTo(
                        "{ \"a\": [\n  { \"n\": 1 },\n  { \"n\": 8 },\n  { \"n\": 9, \"why\": \"new\" },\n  { \"n\": 3 }\n] }");
        ((ArrayNode) after.get("a")).remove(0);
        assertThat(JsonFile.read(JsonSplice.apply(text, before, after).getBytes(StandardCharsets.UTF_8)))
                .isEqualTo(after);
    }

    @Test
    void aSaveBasedOnAnOlderVersionIsRefusedWithBothSides() throws Exception {
        Path file = put("shelf/resins/slow.json", ODD);
        BookWriter.Current mine = writer().read(Kind.RESIN, "slow");
        Files.writeString(file, ODD.replace("1,5 kg", "3 kg"));
        ObjectNode changed = mine.record().deepCopy();
        changed.put("batchMost", "2 kg");
        ConflictException conflict = catchThrowableOfType(
                ConflictException.class, () -> writer().save(Kind.RESIN, "slow", mine.version(), changed));
        assertThat(conflict)
                .hasMessage("The resin \"slow\" was changed meanwhile; both versions are kept to choose from.");
        assertThat(conflict.there().get("batchMost").textValue()).isEqualTo("3 kg");
        assertThat(conflict.wanted().get("batchMost").textValue()).isEqualTo("2 kg");
        assertThat(Files.readString(file)).contains("3 kg");
    }

    @Test
    void whatCouldNotBeReadAgainIsNotWritten() throws Exception {
        Path file = put("shelf/resins/slow.json", ODD);
        BookWriter.Current now = writer().read(Kind.RESIN, "slow");
        ObjectNode changed = now.record().deepCopy();
        changed.put("batchMost", "1,500 g");
        assertThatThrownBy(() -> writer().save(Kind.RESIN, "slow", now.version(), changed))
                .isInstanceOf(SaveFailedException.class)
                .hasMessageStartingWith("This can't be saved. batchMost: ");
        assertThat(Files.readString(file)).isEqualTo(ODD);
        assertThat(Files.exists(file.resolveSibling(".slow.json.new"))).isFalse();
    }

    @Test
    void aSavedRevisionStaysAsItIsAndANewOneIsAdded() throws Exception {
        Files.copy(Path.of("recipes/ember.json"), book.resolve("ember.json"));
        BookWriter.Current now = writer().read(Kind.RECIPE, "ember");
        ObjectNode changed = now.record().deepCopy();
        ((ObjectNode) changed.get("revisions").get(1)).put("why", "rewritten");
        assertThatThrownBy(() -> writer().save(Kind.RECIPE, "ember", now.version(), changed))
                .hasMessage("Revision 2 is saved and stays as it is; make a new revision for the change.");
        ObjectNode added = now.record().deepCopy();
        ObjectNode revision = ((ArrayNode) added.get("revisions")).get(3).deepCopy();
        ((ArrayNode) added.get("revisions")).add(revision.put("number", 5).put("why", "paler"));
        String before = Files.readString(book.resolve("ember.json"));
        writer().save(Kind.RECIPE, "ember", now.version(), added);
        String after = Files.readString(book.resolve("ember.json"));
        String end = before.substring(before.indexOf("\"steps\""));
        assertThat(after)
                .startsWith(before.substring(0, before.indexOf("],\n  \"steps\"") - 1)
                        .stripTrailing());
        assertThat(after).endsWith(end).contains("\"number\": 5");
    }

    @Test
    void aNewRecordIsWrittenForPeopleAndNeverOverAnother() throws Exception {
        ObjectNode lot = new ObjectMapper().createObjectNode();
        lot.put("id", "A-1").put("of", "slow").put("part", "A").put("quantity", "1 kg");
        lot.putObject("price").put("amount", "12.00").put("currency", "EUR");
        writer().create(Kind.LOT, "A-1", lot);
        assertThat(book.resolve("shelf/lots/A-1.json"))
                .hasContent(
                        "{\n  \"id\": \"A-1\",\n  \"of\": \"slow\",\n  \"part\": \"A\",\n  \"quantity\": \"1 kg\",\n"
                                + "  \"price\": { \"amount\": \"12.00\", \"currency\": \"EUR\" }\n}\n");
        assertThatThrownBy(() -> writer().create(Kind.LOT, "A-1", lot))
                .isInstanceOf(ConflictException.class)
                .hasMessage("There is a lot \"A-1\" already; give the new one another id.");
        for (String bad : List.of("../x", "a/b", "", "x".repeat(65), "ä", "a.b", "con:x")) {
            assertThatThrownBy(() -> writer().create(Kind.LOT, bad, lot))
                    .isInstanceOf(SaveFailedException.class)
                    .hasMessageContaining("is no id.");
        }
    }

    @Test
    void aFileWhereAFolderShouldBeChangesNothing() throws Exception {
        put("shelf/lots", "a file");
        ObjectNode lot = new ObjectMapper().createObjectNode();
        lot.put("of", "slow").put("part", "A").put("quantity", "1 kg");
        assertThatThrownBy(() -> writer().create(Kind.LOT, "A-1", lot))
                .isInstanceOf(SaveFailedException.class)
                .hasMessageStartingWith("Here stands a file where the folder ");
        assertThat(book.resolve("shelf/lots")).hasContent("a file");
    }

    /** Kills a program in the middle of its saves, again and again: the old or the new is there, whole. */
    @Test
    void aKilledSaveLeavesTheOldOrTheNew() throws Exception {
        int kills = Integer.getInteger("pigmentbook.kills", 12);
        Path file = put("shelf/resins/slow.json", ODD);
        for (int i = 0; i < kills; i++) {
            Process saver = new ProcessBuilder(
                            Path.of(System.getProperty("java.home"), "bin", "java")
                                    .toString(),
                            "-cp",
                            System.getProperty("java.class.path"),
                            Saver.class.getName(),
                            book.toString())
                    .redirectErrorStream(true)
                    .start();
            assertThat(saver.getInputStream().read()).isEqualTo('s');
            Thread.sleep(3 + (i * 7919L) % 60);
            saver.destroyForcibly();
            assertThat(saver.waitFor(10, TimeUnit.SECONDS)).isTrue();
            ObjectNode there = JsonFile.read(Files.readAllBytes(file));
            assertThat(there.get("batchMost").textValue()).matches("(1,5|[0-9]+) kg");
            assertThat(there.get("colour of the can")).hasSize(3);
        }
        // The lock of a killed program is gone with it.
        BookWriter.Current now = writer().read(Kind.RESIN, "slow");
        writer().save(Kind.RESIN, "slow", now.version(), now.record().put("batchMost", "7 kg"));
        assertThat(Files.readString(file)).contains("7 kg");
    }

    /** Saves the same record without end. */
    static final class Saver {
        public static void main(String[] args) throws Exception {
            BookWriter writer = new BookWriter(Path.of(args[0]));
            for (int i = 1; ; i++) {
                BookWriter.Current now = writer.read(Kind.RESIN, "slow");
                writer.save(Kind.RESIN, "slow", now.version(), now.record().put("batchMost", i + " kg"));
                if (i == 1) {
                    System.out.print('s');
                    System.out.flush();
                }
            }
        }
    }
}
