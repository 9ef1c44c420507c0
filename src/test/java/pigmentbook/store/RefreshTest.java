package pigmentbook.store;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.FileTime;
import java.time.Instant;
import java.util.stream.Stream;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** A file changed from outside is noticed; what did not change is not read again. */
class RefreshTest {

    @TempDir
    Path folder;

    private BookFolder book;
    private Opened opened;

    @BeforeEach
    void anOpenBookThatLayStillForADay() throws Exception {
        DemoBook.copyTo(folder);
        try (Stream<Path> files = Files.walk(folder)) {
            for (Path each : files.filter(Files::isRegularFile).toList()) {
                age(each);
            }
        }
        book = new BookFolder(folder);
        opened = book.open();
    }

    private static void age(Path file) throws IOException {
        Files.setLastModifiedTime(file, FileTime.from(Instant.now().minusSeconds(86_400)));
    }

    @Test
    void anUntouchedBookIsTheSame() throws Exception {
        assertThat(book.refresh(opened)).isSameAs(opened);
        assertThat(book.refresh(opened)).isSameAs(opened);
    }

    @Test
    void aChangedFileIsReadAndTheOthersAreNot() throws Exception {
        Path file = folder.resolve("ember.json");
        Files.writeString(file, Files.readString(file).replace("\"Ember\"", "\"Glow\""));
        Opened after = book.refresh(opened);
        assertThat(after.book().recipes().get("ember").name()).isEqualTo("Glow");
        assertThat(after.book().recipes().get("dusk-hours"))
                .isSameAs(opened.book().recipes().get("dusk-hours"));
        assertThat(opened.book().recipes().get("ember").name()).isEqualTo("Ember");
    }

    /** Within one tick of a coarse clock a file can change twice and keep its time and its size. */
    @Test
    void aFreshFileOfTheSameTimeAndSizeIsReadAgain() throws Exception {
        Path file = folder.resolve("ember.json");
        String text = Files.readString(file);
        FileTime now = FileTime.from(Instant.now());
        Files.writeString(file, text.replace("\"Ember\"", "\"Embar\""));
        Files.setLastModifiedTime(file, now);
        Opened first = book.refresh(opened);
        Files.writeString(file, text.replace("\"Ember\"", "\"Embor\""));
        Files.setLastModifiedTime(file, now);
        assertThat(book.refresh(first).book().recipes().get("ember").name()).isEqualTo("Embor");
    }

    @Test
    void aTouchedFileThatSaysTheSameIsNoChange() throws Exception {
        Files.setLastModifiedTime(folder.resolve("ember.json"), FileTime.from(Instant.now()));
        assertThat(book.refresh(opened)).isSameAs(opened);
        assertThat(book.refresh(opened)).isSameAs(opened);
    }

    @Test
    void anAddedAndARemovedFileAreNoticed() throws Exception {
        Files.copy(folder.resolve("molds/lamp-panel.json"), folder.resolve("molds/lamp-panel (1).json"));
        Files.delete(folder.resolve("plum-dusk.json"));
        Opened after = book.refresh(opened);
        assertThat(after.book().recipes())
                .doesNotContainKey("plum-dusk")
                .hasSize(opened.book().recipes().size() - 1);
        assertThat(after.problems()).extracting(Problem::code).containsExactly("conflict-copy");
        Files.delete(folder.resolve("molds/lamp-panel (1).json"));
        assertThat(book.refresh(after).problems()).isEmpty();
    }

    @Test
    void aBrokenFileIsToldAndAMendedOneIsBack() throws Exception {
        Path file = folder.resolve("ember.json");
        String text = Files.readString(file);
        Files.writeString(file, text.substring(0, 200));
        Opened broken = book.refresh(opened);
        assertThat(broken.problems())
                .extracting(Problem::file, Problem::code)
                .containsExactly(org.assertj.core.groups.Tuple.tuple("ember.json", "truncated"));
        assertThat(book.refresh(broken)).isSameAs(broken);
        Files.writeString(file, text);
        assertThat(book.refresh(broken).problems()).isEmpty();
    }

    @Test
    void whatWasSavedIsThereAtTheNextLook() throws Exception {
        BookWriter writer = new BookWriter(folder);
        BookWriter.Current ember = writer.read(Kind.RECIPE, "ember");
        writer.save(Kind.RECIPE, "ember", ember.version(), ember.record().put("name", "Glow"));
        assertThat(book.refresh(opened).book().recipes().get("ember").name()).isEqualTo("Glow");
    }

    @Test
    void theFileOfARecordIsNamed() {
        assertThat(opened.fileOf(Kind.RECIPE, "ember")).isEqualTo("ember.json");
        assertThat(opened.fileOf(Kind.SETTINGS, "book")).isEqualTo("book.json");
        assertThat(opened.fileOf(Kind.POUR, "2026-03-02-ember-1")).isEqualTo("pours/2026/2026-03-02-ember-1.json");
        assertThat(opened.fileOf(Kind.MOLD, "none")).isNull();
    }
}
