package pigmentbook.store;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.concurrent.atomic.AtomicInteger;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Unpacking: what comes in is a record of a book, lies where it belongs, and takes nobody's place unasked. */
class UnpackTest {

    private static final String AMBER = "{ \"id\": \"amber\", \"name\": \"Amber\", \"kind\": \"paste\" }";

    @TempDir
    Path temp;

    private Path book;
    private Path zip;

    @BeforeEach
    void aBookOfOnePigment() {
        book = temp.resolve("book");
        zip = temp.resolve("from.zip");
        Folders.put(book, "shelf/pigments/amber.json", AMBER);
    }

    private Path packed(Path of) throws Exception {
        ByteArrayOutputStream out = new ByteArrayOutputStream();
        Pack.whole(of, null).write(out);
        return Files.write(zip, out.toByteArray());
    }

    private String why(RawZip raw) throws Exception {
        Map<String, String> before = Folders.of(temp);
        raw.to(zip);
        Unpack.Found found = Unpack.save(book, zip, true);
        Files.delete(zip);
        assertThat(Folders.of(temp)).isEqualTo(before);
        assertThat(found.fresh()).isEmpty();
        return found.setAside().get(0).why();
    }

    @Test
    void aPackOfTheDemoBookUnpacksIntoAFolderThatIsNotThereYet() throws Exception {
        Path demo = DemoBook.copyTo(temp.resolve("demo"));
        packed(demo);
        Path second = temp.resolve("second");
        Unpack.Found seen = Unpack.look(second, zip);
        assertThat(second).doesNotExist();
        assertThat(seen.fresh()).containsExactlyElementsOf(Folders.of(demo).keySet());
        assertThat(seen.setAside()).isEmpty();
        Unpack.Found saved = Unpack.save(second, zip, false);
        assertThat(saved.saved()).isEqualTo(seen.fresh());
        assertThat(Folders.of(second)).isEqualTo(Folders.of(demo));
        Unpack.Found again = Unpack.save(second, zip, false);
        assertThat(again.fresh()).isEmpty();
        assertThat(again.different()).isEmpty();
        assertThat(again.same()).isEqualTo(seen.fresh());
    }

    @Test
    void whatDiffersIsToldByItsFieldsAndLeftAsItIs() throws Exception {
        String theirs = "{ \"id\": \"amber\", \"name\": \"Amber paste\", \"kind\": \"paste\", \"notes\": \"thick\" }";
        new RawZip().add("shelf/pigments/amber.json", theirs).to(zip);
        Map<String, String> before = Folders.of(book);
        Unpack.Found found = Unpack.save(book, zip, false);
        assertThat(found.different())
                .containsExactly(new Unpack.Different("shelf/pigments/amber.json", List.of("name", "notes")));
        assertThat(Folders.of(book)).isEqualTo(before);
    }

    @Test
    void takingTheirsKeepsOursInPutAway() throws Exception {
        for (int number = 1; number <= 2; number++) {
            String theirs = "{ \"id\": \"amber\", \"name\": \"Amber " + number + "\" }";
            new RawZip().add("shelf/pigments/amber.json", theirs).to(zip);
            Unpack.Found found = Unpack.save(book, zip, true);
            String kept = "put-away/replaced/shelf/pigments/amber" + (number == 1 ? "" : "-2") + ".json";
            assertThat(found.replaced()).containsExactly(new Unpack.Replaced("shelf/pigments/amber.json", kept));
            assertThat(Folders.of(book).get("shelf/pigments/amber.json")).isEqualTo(theirs);
        }
        assertThat(Folders.of(book))
                .containsEntry("put-away/replaced/shelf/pigments/amber.json", AMBER)
                .containsEntry(
                        "put-away/replaced/shelf/pigments/amber-2.json", "{ \"id\": \"amber\", \"name\": \"Amber 1\" }")
                .hasSize(3);
        assertThat(new PutAway(book).ids(Kind.PIGMENT)).isEmpty();
    }

    @Test
    void theSameRecordInAnotherLayoutIsTheSame() throws Exception {
        new RawZip()
                .add("shelf/pigments/amber.json", AMBER.replace(", ", ",\n"))
                .to(zip);
        assertThat(Unpack.look(book, zip).same()).containsExactly("shelf/pigments/amber.json");
    }

    @Test
    void aBookFileThatCantBeReadDiffersAndCanBeReplaced() throws Exception {
        Folders.put(book, "shelf/pigments/amber.json", "{ torn");
        new RawZip().add("shelf/pigments/amber.json", AMBER).to(zip);
        assertThat(Unpack.look(book, zip).different())
                .containsExactly(new Unpack.Different("shelf/pigments/amber.json", List.of()));
        Unpack.save(book, zip, true);
        assertThat(Folders.of(book))
                .containsEntry("shelf/pigments/amber.json", AMBER)
                .containsEntry("put-away/replaced/shelf/pigments/amber.json", "{ torn");
    }

    @Test
    void aPourThatLiesInAnotherYearsFolderIsFoundThere() throws Exception {
        String pour = "{ \"id\": \"2026-01-02-ember-1\", \"recipe\": \"ember\" }";
        Folders.put(book, "pours/2025/2026-01-02-ember-1.json", pour);
        new RawZip().add("pours/2026/2026-01-02-ember-1.json", pour).to(zip);
        assertThat(Unpack.look(book, zip).same()).containsExactly("pours/2026/2026-01-02-ember-1.json");
    }

    @ParameterizedTest
    @CsvSource(delimiter = '|', textBlock = """
            ../amber.json               | Its name leads out of its folder; a book's file lies inside the book.
            molds/../../amber.json      | Its name leads out of its folder; a book's file lies inside the book.
            molds//amber.json           | Its name leads out of its folder; a book's file lies inside the book.
            /etc/amber.json             | Its name begins at the top of a disk; a book's file lies inside the book.
            C:/amber.json               | Its name begins at the top of a disk; a book's file lies inside the book.
            c:amber.json                | Its name begins at the top of a disk; a book's file lies inside the book.
            \\\\server\\amber.json      | Its name begins at the top of a disk; a book's file lies inside the book.
            molds\\amber.json           | Its name can't stand on every computer. Rename it with letters, digits and hyphens.
            nul.json                    | Its name can't stand on every computer. Rename it with letters, digits and hyphens.
            amber.json:stream.txt       | Its name can't stand on every computer. Rename it with letters, digits and hyphens.
            .git/hooks/pre-commit.txt   | Its name begins with a dot; no file of a book is hidden.
            start.bat                   | It is no record, photo or paper of a book.
            Amber.json                  | Its name is no id. An id has 1 to 64 of the characters a-z 0-9 and the hyphen. Rename it.
            shelf/amber.json            | It lies where no record of a book lies. Records lie at the top, in shelf/resins, shelf/pigments, shelf/lots, molds and pours/YEAR.
            recipes/amber.json          | It lies where no record of a book lies. Records lie at the top, in shelf/resins, shelf/pigments, shelf/lots, molds and pours/YEAR.
            """)
    void aNameThatIsATrickOrNoPlaceOfABookIsSetAside(String name, String why) throws Exception {
        assertThat(why(new RawZip().add(name.replace("\\\\", "\\"), AMBER))).isEqualTo(why);
    }

    @Test
    void whatIsNoRecordIsSetAsideWithItsLine() throws Exception {
        assertThat(why(new RawZip().add("molds/tray.json", "{ \"id\": \"tray\",\n  \"shape\": [ }")))
                .startsWith("Line 2: This line is no JSON");
        assertThat(why(new RawZip().add("molds/tray.json", "{\n\"id\": \"other\" }")))
                .isEqualTo("Line 2: id is \"other\", but the file is named tray.json. Make the two the same.");
        assertThat(why(new RawZip().add("ember.json", "{ \"id\": \"ember\" }"))).contains("The recipe has no revision");
        assertThat(why(new RawZip().add("put-away/ember.json", "[]"))).contains("Here stands no record");
    }

    @Test
    void aBookOfALaterFormatIsSetAsideWhole() throws Exception {
        RawZip later = new RawZip().add("book.json", "{ \"format\": 2 }").add("molds/tray.json", AMBER);
        assertThat(why(later))
                .isEqualTo("The pack's book is of format 2; this program reads 1. Use a newer program for it.");
        later.to(zip);
        assertThat(Unpack.look(book, zip).setAside()).hasSize(2);
    }

    @Test
    void aPackOfALaterFormatIsRefused() throws Exception {
        new RawZip().add("pack.manifest", "{ \"pack\": 2 }").to(zip);
        assertThatThrownBy(() -> Unpack.look(book, zip))
                .isInstanceOf(BadPackException.class)
                .hasMessage("This pack is of format 2; this program reads 1. Use a newer program for it."
                        + " Nothing was changed.");
    }

    @Test
    void bytesThatAreNotThoseOnTheListAreSetAside() throws Exception {
        String list = "{ \"pack\": 1, \"files\": [ { \"file\": \"notes.txt\", \"sha256\": \"00\" },"
                + " { \"file\": \"gone.txt\", \"sha256\": \"00\" } ] }";
        new RawZip().add("pack.manifest", list).add("notes.txt", "abc").to(zip);
        assertThat(Unpack.look(book, zip).setAside())
                .containsExactly(
                        new SetAside(
                                "gone.txt",
                                "The pack's list names it, but it is not in the pack. Fetch the pack again."),
                        new SetAside("notes.txt", "Its bytes are not those that were packed. Fetch the pack again."));
    }

    @Test
    void namesThatStandTwiceOrDifferOnlyByCapitalsAreSetAside() throws Exception {
        RawZip twice = new RawZip().add("molds/tray.json", AMBER).add("molds/tray.json", "{}");
        assertThat(why(twice)).isEqualTo("It stands in the pack more than once; which one is meant can't be told.");
        String lot = "{ \"of\": \"amber\", \"quantity\": \"1 kg\" }";
        new RawZip()
                .add("shelf/lots/AP-1.json", lot)
                .add("shelf/lots/ap-1.json", lot)
                .to(zip);
        Unpack.Found found = Unpack.look(book, zip);
        assertThat(found.fresh()).containsExactly("shelf/lots/AP-1.json");
        assertThat(found.setAside())
                .containsExactly(new SetAside(
                        "shelf/lots/ap-1.json",
                        "Its name differs from shelf/lots/AP-1.json only in a way that some computers can't tell apart."
                                + " Rename one of the two."));
        Folders.put(book, "shelf/lots/aP-1.json", lot);
        assertThat(Unpack.look(book, zip).setAside().get(0).why())
                .isEqualTo("Its name differs from aP-1.json in the book only in a way that some computers can't tell"
                        + " apart. Rename one of the two.");
    }

    @Test
    void linksInThePackAndInTheWayAreNotFollowed() throws Exception {
        assertThat(why(new RawZip().link("photos/front.jpg", "/etc/passwd")))
                .isEqualTo("It is a link or a device; a book's file is a plain file.");
        Files.createSymbolicLink(book.resolve("ember.txt"), temp.resolve("nowhere"));
        new RawZip().add("ember.txt", "x").to(zip);
        assertThat(Unpack.save(book, zip, true).setAside().get(0).why())
                .isEqualTo("A folder, or a link that leads nowhere, stands in its place. Take that away.");
        assertThat(temp.resolve("nowhere")).doesNotExist();
    }

    @Test
    void aFileWhereAFolderIsWantedIsLeftAsItIs() throws Exception {
        Folders.put(book, "molds", "a file");
        String tray = "{ \"shape\": { \"kind\": \"volume\", \"volume\": \"1 L\" } }";
        new RawZip().add("molds/tray.json", tray).to(zip);
        assertThat(Unpack.save(book, zip, false).setAside())
                .containsExactly(new SetAside(
                        "molds/tray.json", "A file stands where its folder was expected. Move that away."));
    }

    @Test
    void whatIsSavedIsWholeWhenTheDiskFillsUp() throws Exception {
        AtomicInteger left = new AtomicInteger(1);
        Disk full = new Disk() {
            @Override
            void write(Path temporary, byte[] bytes) throws IOException {
                if (left.getAndDecrement() <= 0) {
                    throw new IOException("No space left on device");
                }
                super.write(temporary, bytes);
            }
        };
        List<Batch.Write> writes = List.of(
                new Batch.Write("a.txt", null, () -> new byte[1]), new Batch.Write("b.txt", null, () -> new byte[1]));
        assertThatThrownBy(() -> Batch.run(book, full, writes))
                .hasMessage("The disk is full. Make room and save again. 1 of 2 files were written before that and are"
                        + " whole; the others are as they were. Then do it again for the rest.");
        // Files are written several at a time: either may be the one that still found room.
        assertThat(Folders.of(book)).hasSize(2).containsKey("shelf/pigments/amber.json");
    }
}
