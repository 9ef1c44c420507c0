package pigmentbook.store;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import pigmentbook.book.Book;
import pigmentbook.book.Mold;

/**
 * What is typed into a cell: kept in the record as it is now, refused alone, and told where somebody else was there.
 */
class EditsTest {

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

    private static Edit set(String path, String was, String now) {
        return new Edit(Edit.What.SET, path, was, now);
    }

    private List<Edit.State> states(Kind kind, String id, Edit... edits) throws SaveFailedException {
        return writer.edit(kind, id, List.of(edits)).outcomes().stream()
                .map(Edit.Outcome::state)
                .toList();
    }

    @Test
    void onlyTheTypedValueChangesInTheFile() throws Exception {
        String before = text("molds/lamp-panel.json");
        assertThat(states(Kind.MOLD, "lamp-panel", set("/shape/length", "16 in", "17 1/2 in")))
                .containsExactly(Edit.State.SAVED);
        assertThat(text("molds/lamp-panel.json"))
                .isEqualTo(before.replace("\"length\": \"16 in\"", "\"length\": \"17 1/2 in\""));
    }

    @Test
    void aValueThatCanNotBeReadIsRefusedAloneAndTheOthersAreKept() throws Exception {
        BookWriter.Edited edited = writer.edit(
                Kind.MOLD,
                "lamp-panel",
                List.of(set("/shape/length", "16 in", "long"), set("/shape/width", "10 in", "11 in")));
        assertThat(edited.outcomes().get(0).state()).isEqualTo(Edit.State.REFUSED);
        assertThat(edited.outcomes().get(0).text()).contains("\"long\"");
        assertThat(edited.outcomes().get(1).state()).isEqualTo(Edit.State.SAVED);
        assertThat(text("molds/lamp-panel.json"))
                .contains("\"length\": \"16 in\"")
                .contains("\"width\": \"11 in\"");
    }

    @Test
    void whatIsOnlyRightTogetherIsKeptTogether() throws Exception {
        // A copper mica has no carrier; its kind alone or its share alone is none either.
        assertThat(states(Kind.PIGMENT, "copper-mica", set("/carrier/share", "", "40 %")))
                .containsExactly(Edit.State.REFUSED);
        assertThat(states(
                        Kind.PIGMENT,
                        "copper-mica",
                        set("/carrier/share", "", "40 %"),
                        set("/carrier/is", "", "part A")))
                .containsExactly(Edit.State.SAVED, Edit.State.SAVED);
        assertThat(states(
                        Kind.PIGMENT,
                        "copper-mica",
                        set("/carrier/share", "40 %", ""),
                        set("/carrier/is", "part A", "")))
                .containsExactly(Edit.State.SAVED, Edit.State.SAVED);
        assertThat(text("shelf/pigments/copper-mica.json")).contains("\"carrier\": null");
    }

    @Test
    void theSameValueChangedElsewhereIsToldAndAnotherOneIsNoObstacle() throws Exception {
        Path file = folder.resolve("molds/lamp-panel.json");
        Files.writeString(file, text("molds/lamp-panel.json").replace("\"16 in\"", "\"420 mm\""));
        BookWriter.Edited edited = writer.edit(
                Kind.MOLD,
                "lamp-panel",
                List.of(set("/shape/length", "16 in", "17 in"), set("/shape/width", "10 in", "11 in")));
        assertThat(edited.outcomes().get(0).state()).isEqualTo(Edit.State.CHANGED_ELSEWHERE);
        assertThat(edited.outcomes().get(0).text()).isEqualTo("420 mm");
        assertThat(text("molds/lamp-panel.json")).contains("\"420 mm\"").contains("\"width\": \"11 in\"");
        // The same wish twice is no conflict.
        assertThat(states(Kind.MOLD, "lamp-panel", set("/shape/length", "16 in", "420 mm")))
                .containsExactly(Edit.State.SAVED);
    }

    @Test
    void anEntryIsTakenOutAndPutBackWhereItWas() throws Exception {
        String before = text("molds/lamp-panel-large.json");
        String entry = writer.read(Kind.MOLD, "lamp-panel-large")
                .record()
                .at("/inserts/0")
                .toString();
        assertThat(states(Kind.MOLD, "lamp-panel-large", new Edit(Edit.What.TAKE_OUT, "/inserts/0", entry, "")))
                .containsExactly(Edit.State.SAVED);
        // Another entry stands at that place now: it is not the one that was seen.
        assertThat(states(Kind.MOLD, "lamp-panel-large", new Edit(Edit.What.TAKE_OUT, "/inserts/0", entry, "")))
                .containsExactly(Edit.State.CHANGED_ELSEWHERE);
        assertThat(states(Kind.MOLD, "lamp-panel-large", new Edit(Edit.What.ADD, "/inserts/0", "", entry)))
                .containsExactly(Edit.State.SAVED);
        assertThat(JsonSplice.same(
                        JsonFile.read(
                                text("molds/lamp-panel-large.json").getBytes(java.nio.charset.StandardCharsets.UTF_8)),
                        JsonFile.read(before.getBytes(java.nio.charset.StandardCharsets.UTF_8))))
                .isTrue();
    }

    @ParameterizedTest
    @ValueSource(
            strings = {"/id", "", "shape", "/a/b/c/d/e/f/g/h/i", "/shape/../id", "/inserts/99999", "/inserts/x/name"})
    void aPathThatIsNoneIsRefusedAndTheFileStays(String path) throws Exception {
        Map<String, String> before = DemoBook.content(folder);
        assertThat(states(Kind.MOLD, "lamp-panel-large", set(path, "", "1"))).doesNotContain(Edit.State.SAVED);
        assertThat(DemoBook.content(folder)).isEqualTo(before);
    }

    @Test
    void aSavedRevisionCanNotBeEdited() throws Exception {
        Map<String, String> before = DemoBook.content(folder);
        assertThatThrownBy(() -> writer.edit(
                        Kind.RECIPE, "ember", List.of(set("/revisions/0/why", "first pour", "another reason"))))
                .isInstanceOf(SaveFailedException.class)
                .hasMessage("Revision 1 is saved and stays as it is; make a new revision for the change.");
        assertThat(DemoBook.content(folder)).isEqualTo(before);
    }

    @Test
    void aRecordThatIsTriedIsNotWritten() throws Exception {
        Map<String, String> before = DemoBook.content(folder);
        Mold mold = (Mold) writer.tried(Kind.MOLD, "lamp-panel", List.of(set("/fill", "1/2 in", "5 mm")));
        assertThat(java.util.Objects.requireNonNull(mold.cavity().fillOrDepth()).mm())
                .isEqualTo(5);
        assertThat(DemoBook.content(folder)).isEqualTo(before);
    }

    private Book opened() throws BookUnavailableException {
        return new BookFolder(folder).open().book();
    }

    @Test
    void whatTheBookNamesStaysWhereItIs() throws Exception {
        Map<String, String> before = DemoBook.content(folder);
        assertThatThrownBy(() -> new PutAway(folder).put(opened(), Kind.PIGMENT, "amber-paste"))
                .hasMessageEndingWith(" more, so it stays.");
        assertThat(DemoBook.content(folder)).isEqualTo(before);
    }

    @Test
    void whatIsPutAwayKeepsItsBytesAndComesBack() throws Exception {
        Map<String, String> before = DemoBook.content(folder);
        String mold = text("molds/lamp-panel-large.json");
        PutAway away = new PutAway(folder);
        away.put(opened(), Kind.MOLD, "lamp-panel-large");
        assertThat(text("put-away/molds/lamp-panel-large.json")).isEqualTo(mold);
        assertThat(away.ids(Kind.MOLD)).containsExactly("lamp-panel-large");
        assertThat(new BookFolder(folder).open().book().molds()).doesNotContainKey("lamp-panel-large");
        assertThatThrownBy(() -> away.put(opened(), Kind.MOLD, "lamp-panel-large"))
                .hasMessage("There is no mold \"lamp-panel-large\" in the book.");
        away.takeOut(Kind.MOLD, "lamp-panel-large");
        assertThat(DemoBook.content(folder)).isEqualTo(before);
        assertThatThrownBy(() -> away.takeOut(Kind.MOLD, "lamp-panel-large"))
                .hasMessage("There is no mold \"lamp-panel-large\" among what was put away.");
    }

    @Test
    void whatIsPutAwayNeverTakesThePlaceOfAnother() throws Exception {
        PutAway away = new PutAway(folder);
        String mold = text("molds/lamp-panel-large.json");
        away.put(opened(), Kind.MOLD, "lamp-panel-large");
        Files.writeString(folder.resolve("molds/lamp-panel-large.json"), mold);
        assertThatThrownBy(() -> away.takeOut(Kind.MOLD, "lamp-panel-large"))
                .hasMessage("There is a mold \"lamp-panel-large\" already in the book. Nothing was changed.");
        assertThatThrownBy(() -> away.put(opened(), Kind.MOLD, "lamp-panel-large"))
                .hasMessage(
                        "There is a mold \"lamp-panel-large\" already among what was put away. Nothing was changed.");
    }
}
