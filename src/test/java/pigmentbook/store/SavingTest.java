package pigmentbook.store;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.catchThrowableOfType;

import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.AccessDeniedException;
import java.nio.file.FileSystemException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.PosixFilePermissions;
import java.util.List;
import java.util.Map;
import java.util.concurrent.atomic.AtomicInteger;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** Saving: what is kept, what is refused, and that nothing is lost whatever goes wrong. */
class SavingTest {

    @TempDir
    Path folder;

    private BookWriter writer;

    @BeforeEach
    void book() {
        DemoBook.copyTo(folder);
        writer = new BookWriter(folder);
    }

    private String text(String file) throws IOException {
        return Files.readString(folder.resolve(file));
    }

    private static ObjectNode json(String text) throws RefusedException {
        return JsonFile.read(text.getBytes(StandardCharsets.UTF_8));
    }

    @Test
    void aChangedNoteLeavesTheRestOfTheFileAsItWas() throws Exception {
        String before = text("ember.json");
        BookWriter.Current ember = writer.read(Kind.RECIPE, "ember");
        BookWriter.Current saved = writer.save(
                Kind.RECIPE, "ember", ember.version(), ember.record().put("notes", "Ask for \"Größe\"."));
        assertThat(text("ember.json"))
                .isEqualTo(before.replace("\"The colour people ask for again.\"", "\"Ask for \\\"Größe\\\".\""));
        assertThat(saved.version()).isEqualTo(writer.read(Kind.RECIPE, "ember").version());
        assertThat(saved.record().get("notes").textValue()).isEqualTo("Ask for \"Größe\".");
    }

    @Test
    void aFileWithAByteOrderMarkKeepsIt() throws Exception {
        Path file = folder.resolve("molds/tray.json");
        Files.writeString(
                file,
                "\ufeff{\r\n\t\"shape\" : {\"kind\":\"box\", \"length\":\"8 1/2 in\",\"width\":\"4 in\",\"depth\":\"1 in\"},\r\n\t\"extra\" : 1\r\n}");
        BookWriter.Current tray = writer.read(Kind.MOLD, "tray");
        writer.save(Kind.MOLD, "tray", tray.version(), tray.record().put("count", 2));
        assertThat(text("molds/tray.json"))
                .isEqualTo(
                        "\ufeff{\r\n\t\"shape\" : {\"kind\":\"box\", \"length\":\"8 1/2 in\",\"width\":\"4 in\",\"depth\":\"1 in\"},\r\n\t\"extra\" : 1,\r\n\t\"count\" : 2\r\n}");
    }

    @Test
    void aNewPourMakesTheFolderOfItsYear() throws Exception {
        ObjectNode pour = json("{\"recipe\":\"ember\",\"revision\":4,\"started\":\"2027-01-05T09:00\",\"layers\":[]}");
        BookWriter.Current saved = writer.create(Kind.POUR, "2027-01-05-ember-1", pour);
        assertThat(saved.file()).isEqualTo("pours/2027/2027-01-05-ember-1.json");
        assertThat(text(saved.file())).isEqualTo("""
                {
                  "id": "2027-01-05-ember-1",
                  "recipe": "ember",
                  "revision": 4,
                  "started": "2027-01-05T09:00",
                  "layers": []
                }
                """);
        assertThat(new BookFolder(folder).open().book().pours()).containsKey("2027-01-05-ember-1");
    }

    @Test
    void aPourThatLiesInAnotherYearIsSavedWhereItLies() throws Exception {
        Files.createDirectories(folder.resolve("pours/older"));
        Files.writeString(
                folder.resolve("pours/older/2025-12-31-ember-1.json"), "{\"recipe\":\"ember\",\"layers\":[]}");
        BookWriter.Current pour = writer.read(Kind.POUR, "2025-12-31-ember-1");
        writer.save(
                Kind.POUR, "2025-12-31-ember-1", pour.version(), pour.record().put("by", "Jonas"));
        assertThat(text("pours/older/2025-12-31-ember-1.json"))
                .isEqualTo("{\"recipe\":\"ember\",\"layers\":[],\"by\":\"Jonas\"}");
        assertThat(folder.resolve("pours/2025")).doesNotExist();
    }

    @Test
    void aSaveBasedOnAnOlderVersionShowsBothSides() throws Exception {
        BookWriter.Current mine = writer.read(Kind.RECIPE, "ember");
        String theirs = text("ember.json").replace("ask for again", "keep asking for");
        Files.writeString(folder.resolve("ember.json"), theirs);
        ConflictException conflict = catchThrowableOfType(
                ConflictException.class,
                () -> writer.save(
                        Kind.RECIPE, "ember", mine.version(), mine.record().put("name", "Embers")));
        assertThat(conflict)
                .hasMessage("The recipe \"ember\" was changed meanwhile; both versions are kept to choose from.");
        assertThat(conflict.there()).isEqualTo(json(theirs));
        assertThat(conflict.wanted()).isEqualTo(mine.record());
        assertThat(new String(conflict.theirs(), StandardCharsets.UTF_8)).isEqualTo(theirs);
        assertThat(conflict.version()).isEqualTo(Versions.of(conflict.theirs()));
        assertThat(new String(conflict.yours(), StandardCharsets.UTF_8))
                .contains("\"name\": \"Embers\"")
                .contains("ask for again");
        assertThat(text("ember.json")).isEqualTo(theirs);
    }

    @Test
    void aSaveOfAFileThatWentAwayIsToldAndNotMadeAnew() throws Exception {
        BookWriter.Current mine = writer.read(Kind.RECIPE, "ember");
        Files.delete(folder.resolve("ember.json"));
        assertThatThrownBy(() -> writer.save(Kind.RECIPE, "ember", mine.version(), mine.record()))
                .isInstanceOf(SaveFailedException.class)
                .hasMessage("ember.json is not there any more. Look where it went, or save it as a new one."
                        + " Nothing was changed.");
        assertThat(folder.resolve("ember.json")).doesNotExist();
    }

    @Test
    void aFileThatCanNotBeReadIsNeverWrittenOver() throws Exception {
        BookWriter.Current mine = writer.read(Kind.RECIPE, "ember");
        Files.writeString(folder.resolve("ember.json"), "{ \"id\": \"em");
        for (String version : List.of(mine.version(), Versions.of("{ \"id\": \"em".getBytes(StandardCharsets.UTF_8)))) {
            assertThatThrownBy(() -> writer.save(Kind.RECIPE, "ember", version, mine.record()))
                    .isInstanceOf(SaveFailedException.class)
                    .hasMessage("ember.json can't be read, so it is left as it is. The file ends in the middle of a"
                            + " record. Fetch it again or complete it.");
        }
        assertThat(text("ember.json")).isEqualTo("{ \"id\": \"em");
    }

    @Test
    void creatingWhatIsThereIsAConflict() throws Exception {
        Map<String, String> before = DemoBook.content(folder);
        ObjectNode ember = writer.read(Kind.RECIPE, "ember").record();
        assertThatThrownBy(() -> writer.create(Kind.RECIPE, "ember", ember))
                .isInstanceOf(ConflictException.class)
                .hasMessage("There is a recipe \"ember\" already; give the new one another id.");
        assertThat(DemoBook.content(folder)).isEqualTo(before);
    }

    private Problem refused(org.assertj.core.api.ThrowableAssert.ThrowingCallable save) {
        Map<String, String> before = DemoBook.content(folder);
        SaveFailedException refused = catchThrowableOfType(SaveFailedException.class, save);
        assertThat(refused.problem()).isNotNull();
        assertThat(DemoBook.content(folder)).isEqualTo(before);
        return refused.problem();
    }

    @Test
    void aSavedRevisionStaysAsItIs() throws Exception {
        BookWriter.Current ember = writer.read(Kind.RECIPE, "ember");
        ArrayNode revisions = (ArrayNode) ember.record().get("revisions");
        ((ObjectNode) revisions.get(1)).put("why", "a little deeper than the first");
        Problem changed = refused(() -> writer.save(Kind.RECIPE, "ember", ember.version(), ember.record()));
        assertThat(changed)
                .isEqualTo(new Problem(
                        "ember.json",
                        0,
                        "revision-kept",
                        "Revision 2 is saved and stays as it is; make a new revision for the change."));
        ObjectNode fewer = writer.read(Kind.RECIPE, "ember").record();
        ((ArrayNode) fewer.get("revisions")).remove(0);
        assertThat(refused(() -> writer.save(Kind.RECIPE, "ember", ember.version(), fewer))
                        .text())
                .isEqualTo("Revision 1 is saved and stays as it is; make a new revision for the change.");
    }

    @Test
    void aNewRevisionIsAdded() throws Exception {
        BookWriter.Current ember = writer.read(Kind.RECIPE, "ember");
        ArrayNode revisions = (ArrayNode) ember.record().get("revisions");
        revisions.add(((ObjectNode) revisions.get(3).deepCopy())
                .put("number", 5)
                .put("date", "2026-11-25")
                .put("why", "cooler again"));
        String before = text("ember.json");
        writer.save(Kind.RECIPE, "ember", ember.version(), ember.record());
        String after = text("ember.json");
        assertThat(new BookFolder(folder)
                        .open()
                        .book()
                        .recipes()
                        .get("ember")
                        .current()
                        .number())
                .isEqualTo(5);
        String added = """
                    },
                    {
                      "number": 5,
                      "date": "2026-11-25",
                      "resin": "slow-cast",
                      "percentOf": "mixed resin",
                      "pigments": [
                        { "pigment": "amber-paste", "percent": "1.2 %" },
                        { "pigment": "copper-mica", "percent": "0.35 %" },
                        { "pigment": "rust-paste", "percent": "0.18 %" },
                        { "pigment": "smoke-paste", "percent": "0.06 %" }
                      ],
                      "why": "cooler again"
                    }
                  ],
                  "steps": [
                """;
        assertThat(after).isEqualTo(before.replace("    }\n  ],\n  \"steps\": [\n", added));
    }

    @Test
    void whatCouldNotBeReadAgainIsNotWritten() throws Exception {
        BookWriter.Current mold = writer.read(Kind.MOLD, "lamp-panel");
        Problem problem = refused(() -> writer.save(
                Kind.MOLD, "lamp-panel", mold.version(), mold.record().put("fill", "12")));
        assertThat(problem.file()).isEqualTo("molds/lamp-panel.json");
        assertThat(problem.line()).isEqualTo(5);
        assertThat(problem.code()).isEqualTo("bad-amount");
        assertThat(refused(() -> writer.save(
                                Kind.MOLD,
                                "lamp-panel",
                                mold.version(),
                                mold.record().put("id", "other")))
                        .text())
                .isEqualTo("id is \"other\", but the file is named lamp-panel.json. Make the two the same.");
        assertThat(refused(() -> writer.save(
                                Kind.MOLD,
                                "lamp-panel",
                                mold.version(),
                                mold.record().put("count", Double.NaN)))
                        .code())
                .isEqualTo("not-json");
    }

    @ParameterizedTest
    @ValueSource(strings = {"", "Ember", "../ember", "a/b", "a\\b", "part-a", "con.", "é", "a b"})
    void anIdThatIsNoneIsNotWritten(String id) throws Exception {
        Map<String, String> before = DemoBook.content(folder);
        assertThatThrownBy(() -> writer.create(Kind.PIGMENT, id, json("{\"kind\":\"paste\"}")))
                .isInstanceOf(SaveFailedException.class)
                .hasMessage("\"" + id + "\" is no id. " + Kind.PIGMENT.wrongWithId(id));
        assertThat(Kind.PIGMENT.wrongWithId(id)).isNotEmpty();
        assertThat(DemoBook.content(folder)).isEqualTo(before);
    }

    @Test
    void anIdThatDiffersByCapitalsIsNotWritten() throws Exception {
        ObjectNode lot = json("{\"of\":\"slow-cast\",\"part\":\"A\",\"quantity\":\"4.5 kg\"}");
        assertThatThrownBy(() -> writer.create(Kind.LOT, "a-2402", lot))
                .isInstanceOf(SaveFailedException.class)
                .hasMessage(
                        "This name differs from A-2402.json only by capitals, which some computers can't tell apart."
                                + " Choose another id.");
    }

    @Test
    void aLinkedRecordStaysALink(@TempDir Path elsewhere) throws Exception {
        Path real = elsewhere.resolve("shared[1].json");
        Files.move(folder.resolve("ember.json"), real);
        Files.createSymbolicLink(folder.resolve("ember.json"), real);
        BookWriter.Current ember = writer.read(Kind.RECIPE, "ember");
        writer.save(Kind.RECIPE, "ember", ember.version(), ember.record().put("notes", "shared"));
        assertThat(folder.resolve("ember.json")).isSymbolicLink();
        assertThat(Files.readString(real)).contains("\"notes\": \"shared\"");
    }

    @Test
    void thoseWhoMayWriteTheOldFileMayWriteTheNew() throws Exception {
        Path file = folder.resolve("ember.json");
        org.junit.jupiter.api.Assumptions.assumeTrue(
                file.getFileSystem().supportedFileAttributeViews().contains("posix"));
        Files.setPosixFilePermissions(file, PosixFilePermissions.fromString("rw-rw----"));
        BookWriter.Current ember = writer.read(Kind.RECIPE, "ember");
        writer.save(Kind.RECIPE, "ember", ember.version(), ember.record().put("notes", ""));
        assertThat(PosixFilePermissions.toString(Files.getPosixFilePermissions(file)))
                .isEqualTo("rw-rw----");
    }

    /** A disk that fails at one step. */
    private static final class FailingDisk extends SteppingDisk {
        private final int step;
        private final IOException failure;
        private final AtomicInteger steps = new AtomicInteger();

        FailingDisk(int step, IOException failure) {
            this.step = step;
            this.failure = failure;
        }

        @Override
        void step() throws IOException {
            if (steps.incrementAndGet() == step) {
                throw failure;
            }
        }
    }

    @ParameterizedTest
    @ValueSource(ints = {1, 2, 3, 4, 5, 6})
    void aFailureAtAnyStepChangesNothing(int step) throws Exception {
        Map<String, String> before = DemoBook.content(folder);
        BookWriter failing = new BookWriter(folder, new FailingDisk(step, new IOException("the plug was pulled")));
        BookWriter.Current ember = writer.read(Kind.RECIPE, "ember");
        assertThatThrownBy(() -> failing.save(
                        Kind.RECIPE, "ember", ember.version(), ember.record().put("notes", "new")))
                .isInstanceOf(SaveFailedException.class)
                .hasMessage("The disk did not take the file (the plug was pulled). Try again. Nothing was changed.");
        assertThat(DemoBook.content(folder)).isEqualTo(before);
        writer.save(Kind.RECIPE, "ember", ember.version(), ember.record().put("notes", "new"));
        assertThat(text("ember.json")).contains("\"notes\": \"new\"");
    }

    @Test
    void aFolderThatCanNotBeForcedIsNoFailure() throws Exception {
        BookWriter onThatDisk = new BookWriter(folder, new Disk() {
            @Override
            void force(Path in) throws IOException {
                throw new AccessDeniedException(in.toString());
            }
        });
        BookWriter.Current ember = writer.read(Kind.RECIPE, "ember");
        onThatDisk.save(Kind.RECIPE, "ember", ember.version(), ember.record().put("notes", "new"));
        assertThat(text("ember.json")).contains("\"notes\": \"new\"");
    }

    private String failure(IOException why) throws Exception {
        BookWriter failing = new BookWriter(folder, new FailingDisk(2, why));
        BookWriter.Current ember = writer.read(Kind.RECIPE, "ember");
        return catchThrowableOfType(
                        SaveFailedException.class,
                        () -> failing.save(
                                Kind.RECIPE,
                                "ember",
                                ember.version(),
                                ember.record().put("notes", "new")))
                .getMessage();
    }

    @Test
    void theReasonIsTold() throws Exception {
        assertThat(failure(new AccessDeniedException("x")))
                .isEqualTo("The folder \"" + folder.toRealPath()
                        + "\" can't be written to. Check who may write there. Nothing was changed.");
        assertThat(failure(new IOException("No space left on device")))
                .isEqualTo("The disk is full. Make room and save again. Nothing was changed.");
        assertThat(failure(new FileSystemException("x", null, "Disk quota exceeded")))
                .isEqualTo("The disk is full. Make room and save again. Nothing was changed.");
        assertThat(failure(new FileSystemException("x", null, "Read-only file system")))
                .isEqualTo("The disk with \"" + folder.toRealPath()
                        + "\" can only be read. Move the book to one that can be written. Nothing was changed.");
    }

    @Test
    void aFileWhereAFolderShouldBeIsTold() throws Exception {
        Files.writeString(folder.resolve("pours/2027"), "here");
        ObjectNode pour = json("{\"recipe\":\"ember\"}");
        assertThatThrownBy(() -> writer.create(Kind.POUR, "2027-01-05-ember-1", pour))
                .isInstanceOf(SaveFailedException.class)
                .hasMessage("Here stands a file where the folder \"" + folder.resolve("pours/2027")
                        + "\" was expected. Move it away. Nothing was changed.");
        assertThat(Files.readString(folder.resolve("pours/2027"))).isEqualTo("here");
    }

    @Test
    void aFolderWhereAFileShouldBeIsTold() throws Exception {
        Files.createDirectory(folder.resolve("dusk.json"));
        ObjectNode ember = writer.read(Kind.RECIPE, "ember").record().put("id", "dusk");
        assertThatThrownBy(() -> writer.create(Kind.RECIPE, "dusk", ember))
                .isInstanceOf(SaveFailedException.class)
                .hasMessage("Here stands a folder where the file \"" + folder.resolve("dusk.json")
                        + "\" was expected. Move it away. Nothing was changed.");
    }

    @Test
    void aDeadLinkIsNotWrittenOver() throws Exception {
        Files.createSymbolicLink(folder.resolve("dusk.json"), folder.resolve("nowhere.json"));
        ObjectNode ember = writer.read(Kind.RECIPE, "ember").record().put("id", "dusk");
        assertThatThrownBy(() -> writer.create(Kind.RECIPE, "dusk", ember))
                .isInstanceOf(SaveFailedException.class)
                .hasMessage("A link that leads nowhere stands where the file \"" + folder.resolve("dusk.json")
                        + "\" was expected. Take it away. Nothing was changed.");
    }

    @Test
    void aBookThatWentAwayIsTold(@TempDir Path empty) {
        Path gone = empty.resolve("gone");
        assertThatThrownBy(() -> new BookWriter(gone).create(Kind.RECIPE, "ember", json("{}")))
                .isInstanceOf(SaveFailedException.class)
                .hasMessage(
                        "There is no folder \"" + gone + "\" any more. Look where the book went. Nothing was changed.");
    }

    @Test
    void whatAnEarlierSaveLeftBehindIsTakenAwayByTheNext() throws Exception {
        Path left = folder.resolve(".ember.json.new-1-1");
        Files.writeString(left, "{ \"id\": \"em");
        assertThat(new BookFolder(folder).open().problems()).isEmpty();
        BookWriter.Current ember = writer.read(Kind.RECIPE, "ember");
        writer.save(Kind.RECIPE, "ember", ember.version(), ember.record().put("notes", ""));
        assertThat(left).doesNotExist();
    }
}
