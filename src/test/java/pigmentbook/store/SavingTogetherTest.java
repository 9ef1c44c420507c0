package pigmentbook.store;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.JsonNodeFactory;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.nio.channels.FileChannel;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.atomic.AtomicInteger;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import pigmentbook.book.Book;

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

    /** Stops as a kill does: at one step of the disk, and nothing after it is done either. */
    private static final class StoppingDisk extends SteppingDisk {
        private int left;

        StoppingDisk(int steps) {
            this.left = steps;
        }

        @Override
        void step() {
            if (left-- <= 0) {
                throw new Stopped();
            }
        }
    }

    private static final class Stopped extends Error {
        private static final long serialVersionUID = 1L;
    }

    private static ObjectNode moved(ObjectNode lot, String change) {
        ((ArrayNode) lot.get("corrections")).addObject().put("change", change).put("why", "moved");
        return lot;
    }

    private void moveInto(BookWriter writer, String id) throws Exception {
        ObjectNode mixed =
                JsonNodeFactory.instance.objectNode().put("of", "amber-paste").put("quantity", "100 g");
        writer.together(List.of(
                new BookWriter.Part(Kind.LOT, id, true, none -> mixed),
                new BookWriter.Part(Kind.LOT, "AP-05", false, now -> moved(now, "-40 g")),
                new BookWriter.Part(Kind.LOT, "AP-07", false, now -> moved(now, "-60 g"))));
    }

    /** A file that could never be read again would stand in the way of every later change. */
    @Test
    void recordsTooLongToBeReadAgainAreNotChanged() throws Exception {
        String long1 = "x".repeat(1024 * 1024);
        assertThatThrownBy(() -> writer.together(List.of(
                        new BookWriter.Part(Kind.LOT, "AP-05", false, now -> now.put("notes", long1)),
                        new BookWriter.Part(Kind.LOT, "AP-07", false, now -> now.put("notes", "short")))))
                .isInstanceOf(SaveFailedException.class)
                .hasMessage("These records are too long to be changed together: AP-05, AP-07."
                        + " Shorten their notes. Nothing was changed.");
        assertThat(folder.resolve(Together.FILE)).doesNotExist();
    }

    private double allPaste() throws Exception {
        Book book = new BookFolder(folder).open().book();
        return book.lots().values().stream()
                .filter(lot -> lot.of().equals("amber-paste"))
                .mapToDouble(book::leftGrams)
                .sum();
    }

    /** What is put together leaves two lots and is in the third, or nothing happened; never one without the other. */
    @Test
    void aStopAtAnyStepLosesAndDoublesNothing() throws Exception {
        double before = allPaste();
        int begun = 0;
        int steps = 0;
        boolean whole = false;
        while (!whole) {
            String id = "AP-MIX-" + steps;
            try {
                moveInto(new BookWriter(folder, new StoppingDisk(steps)), id);
                whole = true;
            } catch (Stopped e) {
                begun += Files.exists(folder.resolve(Together.FILE)) ? 1 : 0;
            }
            assertThat(allPaste()).as("after %d steps", steps).isCloseTo(before, within(1e-9));
            assertThat(folder.resolve(Together.FILE)).doesNotExist();
            steps++;
        }
        assertThat(steps).isGreaterThan(15);
        assertThat(begun).isGreaterThan(5);
        assertThat(Files.exists(folder.resolve("shelf/lots/AP-MIX-0.json"))).isFalse();
        assertThat(new BookFolder(folder).open().problems()).isEmpty();
    }

    /** Somebody else wrote into one of the records between the stop and the next start: their words stay. */
    @Test
    void whatWasWrittenMeanwhileStays() throws Exception {
        int steps = 0;
        while (!Files.exists(folder.resolve(Together.FILE))) {
            try {
                moveInto(new BookWriter(folder, new StoppingDisk(steps++)), "AP-MIX");
            } catch (Stopped e) {
                Thread.onSpinWait();
            }
        }
        Path lot = folder.resolve("shelf/lots/AP-05.json");
        Files.writeString(lot, Files.readString(lot).replaceFirst("\\{", "{ \"seen\": true,"));
        writer.change(Kind.LOT, "AP-07", now -> now.put("code", "on"));
        assertThat(Files.readString(lot)).contains("\"seen\": true").doesNotContain("moved");
        assertThat(folder.resolve("shelf/lots/AP-MIX.json")).exists();
        assertThat(folder.resolve(Together.FILE)).doesNotExist();
    }

    @Test
    void whatIsBegunButCanNotBeReadIsToldAndTheRecordsStay() throws Exception {
        Files.writeString(
                folder.resolve(Together.FILE), "{ \"together\": [ { \"kind\": \"LOT\", \"id\": \"../x\" } ] }");
        assertThatThrownBy(() -> writer.change(Kind.LOT, "AP-07", now -> now.put("code", "on")))
                .isInstanceOf(SaveFailedException.class)
                .hasMessageContaining("Move it away");
        Files.writeString(folder.resolve(Together.FILE), "{");
        assertThatThrownBy(() -> writer.change(Kind.LOT, "AP-07", now -> now.put("code", "on")))
                .hasMessageContaining("Move it away");
        assertThat(new BookFolder(folder).open().problems()).singleElement().satisfies(problem -> {
            assertThat(problem.file() + " " + problem.code()).isEqualTo(".together unfinished-change");
            assertThat(problem.text()).contains("Move it away");
        });
        assertThat(new BookFolder(folder).open().book().lots()).containsKey("AP-07");
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
