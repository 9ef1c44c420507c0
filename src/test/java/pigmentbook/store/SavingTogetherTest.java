package pigmentbook.store;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.node.ObjectNode;
import java.nio.channels.FileChannel;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.atomic.AtomicInteger;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Many who save in one book at once, in one program and in several, lose nothing. */
class SavingTogetherTest {

    @TempDir
    Path folder;

    private BookWriter writer;

    @BeforeEach
    void book() {
        DemoBook.copyTo(folder);
        writer = new BookWriter(folder);
    }

    @Test
    void ofManyWhoSaveAtOnceOneWinsEachRound() throws Exception {
        String base = writer.read(Kind.RECIPE, "ember").version();
        AtomicInteger won = new AtomicInteger();
        AtomicInteger conflicts = new AtomicInteger();
        List<Thread> threads = new ArrayList<>();
        for (int i = 0; i < 8; i++) {
            ObjectNode changed = writer.read(Kind.RECIPE, "ember").record().put("notes", "by " + i);
            Thread thread = new Thread(() -> {
                try {
                    writer.save(Kind.RECIPE, "ember", base, changed);
                    won.incrementAndGet();
                } catch (ConflictException e) {
                    conflicts.incrementAndGet();
                } catch (SaveFailedException e) {
                    throw new IllegalStateException(e);
                }
            });
            threads.add(thread);
            thread.start();
        }
        for (Thread thread : threads) {
            thread.join();
        }
        assertThat(won).hasValue(1);
        assertThat(conflicts).hasValue(7);
    }

    @Test
    void aLockHeldByThisProgramIsWaitedForOnlySoLong() throws Exception {
        BookLock held = BookLock.take(folder, 100);
        List<Throwable> thrown = new ArrayList<>();
        Thread other = new Thread(() -> {
            try {
                BookLock.take(folder, 50).close();
            } catch (SaveFailedException e) {
                thrown.add(e);
            }
        });
        other.start();
        other.join();
        held.close();
        assertThat(thrown)
                .singleElement()
                .isInstanceOf(SaveFailedException.class)
                .extracting(Throwable::getMessage)
                .isEqualTo("Another program is saving in this book just now. Try again in a moment.");
        BookLock.take(folder, 50).close();
        try (FileChannel channel = FileChannel.open(folder.resolve(BookLock.FILE), StandardOpenOption.WRITE)) {
            assertThat(channel.tryLock()).isNotNull();
        }
    }

    /** Two programs that both count in one record lose no count: the one that comes second reads again. */
    @Test
    void twoProgramsThatSaveAtOnceLoseNothing() throws Exception {
        BookWriter.Current ember = writer.read(Kind.RECIPE, "ember");
        writer.save(Kind.RECIPE, "ember", ember.version(), ember.record().put("count", 0));
        List<Process> programs = new ArrayList<>();
        for (int i = 0; i < 2; i++) {
            programs.add(new ProcessBuilder(
                            Path.of(System.getProperty("java.home"), "bin", "java")
                                    .toString(),
                            "-cp",
                            System.getProperty("java.class.path"),
                            Counter.class.getName(),
                            folder.toString())
                    .inheritIO()
                    .start());
        }
        for (Process each : programs) {
            assertThat(each.waitFor(60, TimeUnit.SECONDS)).isTrue();
            assertThat(each.exitValue()).isZero();
        }
        assertThat(writer.read(Kind.RECIPE, "ember").record().get("count").intValue())
                .isEqualTo(2 * Counter.TIMES);
    }

    /** Counts up in a record, reading it again whenever somebody else was faster. */
    static final class Counter {
        static final int TIMES = 60;

        public static void main(String[] args) throws Exception {
            BookWriter writer = new BookWriter(Path.of(args[0]));
            int counted = 0;
            while (counted < TIMES) {
                BookWriter.Current now = writer.read(Kind.RECIPE, "ember");
                int count = now.record().get("count").intValue();
                try {
                    writer.save(
                            Kind.RECIPE, "ember", now.version(), now.record().put("count", count + 1));
                    counted++;
                } catch (ConflictException e) {
                    Thread.onSpinWait();
                }
            }
        }
    }
}
