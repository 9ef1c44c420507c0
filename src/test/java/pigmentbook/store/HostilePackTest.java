package pigmentbook.store;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import com.sun.management.ThreadMXBean;
import java.lang.management.ManagementFactory;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.concurrent.Callable;
import java.util.concurrent.TimeUnit;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Files made to fill memory or disk, or broken: refused within a second or two, in little memory, nothing written. */
class HostilePackTest {

    private static final String BOMB =
            "This file would unpack to far more than a book holds, or its entries share their"
                    + " bytes: it is made to fill memory or disk. Nothing was unpacked.";
    private static final String DAMAGED =
            "This file is cut short or damaged, or no zip file. Fetch it again. Nothing was changed.";
    private static final long LITTLE_BYTES = 48L * 1024 * 1024;

    /** Of this thread's own time, however busy the computer is. */
    private static final long SHORT_NANOS = TimeUnit.SECONDS.toNanos(3);

    @TempDir
    Path temp;

    private Path zip;

    @BeforeEach
    void aPack() {
        zip = temp.resolve("from.zip");
    }

    private static void quicklyInLittleMemory(Callable<Void> what) throws Exception {
        ThreadMXBean threads = (ThreadMXBean) ManagementFactory.getThreadMXBean();
        long bytes = threads.getCurrentThreadAllocatedBytes();
        long nanos = threads.getCurrentThreadCpuTime();
        what.call();
        assertThat(threads.getCurrentThreadCpuTime() - nanos).isLessThan(SHORT_NANOS);
        assertThat(threads.getCurrentThreadAllocatedBytes() - bytes).isLessThan(LITTLE_BYTES);
    }

    private void refused(String message) throws Exception {
        quicklyInLittleMemory(() -> {
            assertThatThrownBy(() -> Unpack.save(temp.resolve("book"), zip, true))
                    .isInstanceOf(BadPackException.class)
                    .hasMessage(message);
            return null;
        });
        assertThat(temp.resolve("book")).doesNotExist();
    }

    private String setAside(Path file) throws Exception {
        List<SetAside> setAside = new ArrayList<>();
        quicklyInLittleMemory(() -> {
            setAside.addAll(Unpack.save(temp.resolve("book"), file, true).setAside());
            return null;
        });
        assertThat(temp.resolve("book")).doesNotExist();
        return setAside.get(0).why();
    }

    @Test
    void oneEntryThatUnpacksToAThousandTimesItsSize() throws Exception {
        new RawZip().add("notes.txt", new byte[100 * 1024 * 1024]).to(zip);
        refused(BOMB);
    }

    @Test
    void manyEntriesThatTogetherUnpackToFarMoreThanTheFile() throws Exception {
        RawZip many = new RawZip();
        byte[] zeros = new byte[1024 * 1024];
        for (int i = 0; i < 200; i++) {
            many.add("photos/" + i + ".jpg", zeros);
        }
        many.to(zip);
        refused(BOMB);
    }

    /** As in David Fifield, A better zip bomb, WOOT 2019: many names for the same bytes. */
    @Test
    void entriesThatShareTheirBytes() throws Exception {
        RawZip sharing = new RawZip();
        byte[] noise = new byte[20_000];
        new java.util.Random(7).nextBytes(noise);
        sharing.add("photos/first.jpg", noise);
        for (int i = 0; i < 500; i++) {
            sharing.sharing("photos/" + i + ".jpg", noise);
        }
        sharing.to(zip);
        refused(BOMB);
    }

    @Test
    void anEntryThatUnpacksToMoreThanItSays() throws Exception {
        new RawZip().lying("notes.txt", new byte[100 * 1024 * 1024], 100).to(zip);
        assertThat(setAside(zip)).isEqualTo("It unpacks to another size than the pack says. Fetch the pack again.");
    }

    @Test
    void aRecordLargerThanAnyRecordIs() throws Exception {
        byte[] noise = new byte[9 * 1024 * 1024];
        new java.util.Random(7).nextBytes(noise);
        new RawZip().add("ember.json", noise).to(zip);
        assertThat(setAside(zip)).isEqualTo("It is larger than 8 MiB; no such file of a book is.");
    }

    @Test
    void moreEntriesThanAnyBookHas() throws Exception {
        RawZip many = new RawZip();
        for (int i = 0; i < 65_000; i++) {
            many.add(i + ".txt", new byte[0]);
        }
        many.to(zip);
        assertThat(Unpack.look(temp.resolve("book"), zip).fresh()).hasSize(65_000);
        byte[] bytes = Files.readAllBytes(zip);
        // The end says it has the numbers in its larger form, and that form says 300 000.
        byte[] more = RawZip.withLargeEnd(bytes, 300_000);
        Files.write(zip, more);
        refused("This file holds more than 200000 entries, or says so; no book does. Nothing was changed.");
    }

    @Test
    void aFileThatIsCutShortIsRefusedWhereverItIsCut() throws Exception {
        byte[] whole = new RawZip().add("a.txt", "abc").add("b.txt", "def").bytes();
        for (int size = 0; size < whole.length; size++) {
            Files.write(zip, Arrays.copyOf(whole, size));
            refused(DAMAGED);
        }
    }

    @Test
    void anyDamagedByteIsNoticedOrDoesNoHarm() throws Exception {
        byte[] whole =
                new RawZip().add("a.txt", "abcabcabc").add("b.txt", "def").bytes();
        for (int at = 0; at < whole.length; at++) {
            byte[] damaged = whole.clone();
            damaged[at] ^= 0x55;
            Files.write(zip, damaged);
            try {
                Unpack.Found found = Unpack.look(temp.resolve("book"), zip);
                assertThat(found.fresh().size() + found.setAside().size()).isBetween(1, 2);
            } catch (BadPackException e) {
                assertThat(e).hasMessageContaining("Nothing was");
            }
        }
    }

    @Test
    void aFileThatIsLockedIsNamedAsSuch() throws Exception {
        new RawZip().locked("ember.json").to(zip);
        refused("This file is locked with a password. Unlock it with the program that made it. Nothing was changed.");
    }

    @Test
    void whatIsNoZipFileAtAllIsRefused() throws Exception {
        Files.writeString(zip, "{ \"id\": \"ember\" }");
        refused(DAMAGED);
        Files.delete(zip);
        assertThatThrownBy(() -> Unpack.look(temp, zip)).hasMessage("There is no file \"" + zip + "\". Name the pack.");
    }
}
