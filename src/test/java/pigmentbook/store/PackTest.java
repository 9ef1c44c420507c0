package pigmentbook.store;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.zip.ZipEntry;
import java.util.zip.ZipFile;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Packing: every file goes along as it is, and nothing from outside the book does. */
class PackTest {

    @TempDir
    Path temp;

    private Path book;

    @BeforeEach
    void aCopyOfTheDemoBook() {
        book = DemoBook.copyTo(temp.resolve("book"));
    }

    private static byte[] bytes(Pack pack) throws IOException {
        ByteArrayOutputStream out = new ByteArrayOutputStream();
        pack.write(out);
        return out.toByteArray();
    }

    private Pack.Packed written(Path to) throws Exception {
        ByteArrayOutputStream out = new ByteArrayOutputStream();
        Pack.Packed packed = Pack.whole(book, null).write(out);
        Files.write(to, out.toByteArray());
        return packed;
    }

    private static Map<String, String> unzipped(Path zip) throws IOException {
        Map<String, String> files = new TreeMap<>();
        try (ZipFile file = new ZipFile(zip.toFile())) {
            for (ZipEntry each : Collections.list(file.entries())) {
                files.put(
                        each.getName(),
                        new String(file.getInputStream(each).readAllBytes(), StandardCharsets.ISO_8859_1));
            }
        }
        return files;
    }

    @Test
    void everyFileOfTheBookIsInThePackByteForByte() throws Exception {
        Folders.put(book, "put-away/old-amber.json", "{ \"id\": \"old-amber\" }");
        Folders.put(book, "photos/2026-11-18-ember-1.jpg", new byte[] {(byte) 0xff, (byte) 0xd8, 0, 13, 10});
        Path zip = temp.resolve("workshop.zip");
        Pack.Packed packed = written(zip);
        Map<String, String> inPack = unzipped(zip);
        String list = inPack.remove("pack.manifest");
        assertThat(inPack).isEqualTo(Folders.of(book));
        assertThat(packed.files()).containsExactlyElementsOf(inPack.keySet());
        assertThat(packed.setAside()).isEmpty();
        JsonNode manifest = new ObjectMapper().readTree(list);
        assertThat(manifest.get("pack").intValue()).isEqualTo(1);
        assertThat(manifest.get("book").textValue()).isEqualTo("Workshop book (made up)");
        assertThat(manifest.get("files").size()).isEqualTo(inPack.size());
    }

    /** The sums in the list are those of FIPS 180-4: {@code "abc"} is its example. */
    @Test
    void theListHoldsTheSha256OfEachFile() throws Exception {
        Path small = temp.resolve("small");
        Folders.put(small, "notes.txt", "abc");
        Path zip = Files.write(temp.resolve("small.zip"), bytes(Pack.whole(small, null)));
        assertThat(unzipped(zip).get("pack.manifest"))
                .contains("ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad");
    }

    @Test
    void theSameBookGivesTheSameBytes() throws Exception {
        byte[] first = bytes(Pack.whole(book, null));
        Path copy = DemoBook.copyTo(temp.resolve("copy"));
        assertThat(bytes(Pack.whole(copy, null))).isEqualTo(first);
    }

    @Test
    void aPackInsideTheBookIsNotPackedIntoItself() throws Exception {
        Path inside = Folders.put(book, "notes.txt", "an older pack lay here");
        assertThat(Pack.whole(book, inside).files()).doesNotContain("notes.txt").contains("ember.json");
        Folders.put(book, "backup.zip", "an older pack");
        assertThat(written(temp.resolve("all.zip")).setAside())
                .containsExactly(new SetAside("backup.zip", "It is no record, photo or paper of a book."));
    }

    @Test
    void linksOutOfTheBookAreNotFollowed() throws Exception {
        Path outside = Folders.put(temp, "outside/secret.json", "{ \"id\": \"secret\" }");
        Files.createSymbolicLink(book.resolve("secret.json"), outside);
        Files.createSymbolicLink(book.resolve("photos"), outside.getParent());
        Files.createSymbolicLink(book.resolve("again.txt"), book.resolve("README.md"));
        Pack.Packed packed = written(temp.resolve("all.zip"));
        assertThat(packed.files())
                .doesNotContain("secret.json", "photos/secret.json")
                .contains("again.txt");
        assertThat(packed.setAside()).extracting(SetAside::file).containsExactly("photos", "secret.json");
        assertThat(packed.setAside().get(0).why())
                .isEqualTo("It is a link that leads out of the book, to a folder or nowhere; links are not followed."
                        + " Put the file itself there.");
    }

    @Test
    void hiddenFilesStayAtHome() throws Exception {
        Folders.put(book, ".git/config", "x");
        Folders.put(book, ".ember.json.new-1-1", "x");
        assertThat(written(temp.resolve("all.zip")).files()).noneMatch(file -> file.contains(".git"));
        assertThat(written(temp.resolve("all.zip")).files()).noneMatch(file -> file.startsWith("."));
    }

    @Test
    void aRecordThatCantBeReadIsPackedAllTheSame() throws Exception {
        Folders.put(book, "torn.json", "{ \"id\": ");
        assertThat(written(temp.resolve("all.zip")).files()).contains("torn.json");
    }

    @Test
    void oneRecipeComesWithAllThatItNeedsAndNothingElse() throws Exception {
        Opened opened = new BookFolder(book).open();
        List<String> files = new ArrayList<>(Pack.of(opened, "clear-coat").files());
        assertThat(files)
                .contains("book.json", "clear-coat.json", "pours/2026/2026-03-10-clear-coat-1.json")
                .doesNotContain("ember.json", "shelf/pigments/copper-mica.json");
        Path second = temp.resolve("second");
        Path zip = Files.write(temp.resolve("one.zip"), bytes(Pack.of(opened, "ember")));
        Unpack.save(second, zip, false);
        Opened alone = new BookFolder(second).open();
        assertThat(alone.check()).isEmpty();
        assertThat(alone.book().recipes().keySet()).contains("ember");
        assertThat(alone.book().poursOf("ember")).isEqualTo(opened.book().poursOf("ember"));
    }

    @Test
    void onePourComesWithItsRecipeAndTheLotsThatWereWeighed() throws Exception {
        Opened opened = new BookFolder(book).open();
        Path second = temp.resolve("second");
        Path zip = Files.write(temp.resolve("one.zip"), bytes(Pack.of(opened, "2026-03-02-ember-1")));
        Unpack.save(second, zip, false);
        Opened alone = new BookFolder(second).open();
        assertThat(alone.check()).isEmpty();
        assertThat(alone.book().recipes().keySet()).containsExactly("ember");
        assertThat(alone.book().pours().keySet()).contains("2026-03-02-ember-1");
        assertThat(alone.book().lots().size()).isLessThan(opened.book().lots().size());
    }

    @Test
    void thePhotosOfAPourGoAlongAndMissingOnesAreTold() throws Exception {
        Path pour = book.resolve("pours/2026/2026-03-02-ember-1.json");
        String text = Files.readString(pour);
        int at = text.indexOf("\"photos\"");
        Files.writeString(
                pour,
                text.substring(0, at) + "\"photos\": [\"front.jpg\", \"gone.jpg\", \"../../../etc/passwd\"]"
                        + text.substring(text.indexOf(']', at) + 1));
        Folders.put(book, "photos/front.jpg", "jpg");
        ByteArrayOutputStream out = new ByteArrayOutputStream();
        Pack.Packed packed =
                Pack.of(new BookFolder(book).open(), "2026-03-02-ember-1").write(out);
        assertThat(packed.files()).contains("photos/front.jpg");
        assertThat(packed.setAside())
                .containsExactly(
                        new SetAside(
                                "../../../etc/passwd",
                                "The pour 2026-03-02-ember-1 names this photo; the book has no such file."),
                        new SetAside(
                                "gone.jpg",
                                "The pour 2026-03-02-ember-1 names this photo; the book has no such file."));
    }

    @Test
    void aFolderThatIsNotThereOrHoldsNothingIsRefused() throws Exception {
        assertThatThrownBy(() -> Pack.whole(temp.resolve("none"), null))
                .hasMessage("The folder \"" + temp.resolve("none")
                        + "\" can't be read. Name the book's folder with --book.");
        Path empty = Files.createDirectory(temp.resolve("empty"));
        assertThatThrownBy(() -> Pack.whole(empty, null))
                .hasMessage("The folder \"" + empty + "\" holds nothing to pack.");
    }
}
