package pigmentbook.web;

import io.javalin.config.JavalinConfig;
import io.javalin.http.Context;
import io.javalin.http.HttpStatus;
import java.io.IOException;
import java.nio.file.Path;
import java.time.Clock;
import java.time.LocalDate;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.concurrent.Semaphore;
import java.util.concurrent.TimeUnit;
import org.jspecify.annotations.Nullable;
import pigmentbook.sheet.BadTableException;
import pigmentbook.sheet.TableReader;
import pigmentbook.store.BadPackException;
import pigmentbook.store.BookUnavailableException;
import pigmentbook.store.Import;
import pigmentbook.store.ImportRefusedException;
import pigmentbook.store.SaveFailedException;
import pigmentbook.store.Table;
import pigmentbook.store.Unpack;

/**
 * Brings a table or a pack in: what would come of it is shown, and kept only when a person says so. The file is handed
 * in a second time to be kept, so nothing of it waits on the server meanwhile.
 */
final class BringIn {

    private static final long WAIT_SECONDS = 20;

    private static final Import.Ways WAYS = new Import.Ways(
            "choose under “Columns” what they hold",
            "Choose it under “Columns”, or what the columns hold",
            "choose one for all under “What the table does not say”",
            "let it be made: tick that under “What the table does not say”",
            pigment -> "type it under “What the table does not say”");

    private final LiveBook live;
    private final Clock clock;

    /** One file at a time, so that several large ones together don't fill the memory. */
    private final Semaphore one = new Semaphore(1);

    private BringIn(LiveBook live, Clock clock) {
        this.live = live;
        this.clock = clock;
    }

    static void addTo(JavalinConfig config, LiveBook live, Clock clock) {
        BringIn in = new BringIn(live, clock);
        config.routes.post("/bring-and-take/look", context -> in.take(context, false));
        config.routes.post("/bring-and-take/keep", context -> in.take(context, true));
    }

    private void take(Context context, boolean keep)
            throws IOException, BookUnavailableException, InterruptedException, BadTableException, BadPackException,
                    ImportRefusedException, SaveFailedException {
        if (!one.tryAcquire(WAIT_SECONDS, TimeUnit.SECONDS)) {
            Refusals.tell(
                    context, HttpStatus.SERVICE_UNAVAILABLE, "Another file is being taken in. Try again in a moment.");
            return;
        }
        try (Handed handed = Handed.of(context)) {
            if (TableReader.isOtherZip(handed.file())) {
                pack(context, handed, keep);
            } else {
                table(context, handed, keep);
            }
        } finally {
            one.release();
        }
    }

    private void table(Context context, Handed handed, boolean keep)
            throws BadTableException, ImportRefusedException, BookUnavailableException, SaveFailedException {
        Path folder = live.now().folder();
        Import.Request request = request(handed, TableReader.read(handed.file()));
        Import.Found found = Import.look(folder, request);
        String seen = seen(handed, found.fresh(), found.different());
        if (!keep || !seen.equals(handed.text("seen"))) {
            show(
                    context,
                    handed,
                    BroughtIn.of(found),
                    BroughtColumns.of(found, request, live.now().book()),
                    seen,
                    keep);
            return;
        }
        Import.Found kept = Import.save(folder, request);
        live.reread();
        kept(context, BroughtIn.kept(kept), !request.columns().isEmpty());
    }

    private void pack(Context context, Handed handed, boolean keep)
            throws BadPackException, SaveFailedException, BookUnavailableException {
        Path folder = live.now().folder();
        Unpack.Found found = Unpack.look(folder, handed.file());
        String seen = seen(handed, found.fresh(), found.different());
        if (!keep || !seen.equals(handed.text("seen"))) {
            show(context, handed, BroughtIn.of(found), null, seen, keep);
            return;
        }
        Unpack.Found kept = Unpack.save(folder, handed.file(), handed.is("theirs"));
        live.reread();
        kept(context, BroughtIn.kept(kept), false);
    }

    /** Says what was shown: where it is something else by the time of keeping, that is shown first. */
    private static String seen(Handed handed, Object... lists) {
        return handed.sum() + "-" + Integer.toHexString(Objects.hash(lists));
    }

    private Import.Request request(Handed handed, List<Table> tables) {
        String resin = handed.text("resin");
        return new Import.Request(
                tables,
                as(handed.text("as")),
                handed.pairs("columns"),
                resin.isEmpty() ? null : resin,
                handed.pairs("drops"),
                handed.is("add"),
                LocalDate.now(clock),
                handed.text("name"),
                WAYS);
    }

    private static Import.@Nullable As as(String word) {
        for (Import.As each : Import.As.values()) {
            if (BroughtIn.word(each).equals(word)) {
                return each;
            }
        }
        return null;
    }

    private static void show(
            Context context,
            Handed handed,
            BroughtIn brought,
            @Nullable BroughtColumns columns,
            String seen,
            boolean changedMeanwhile) {
        Map<String, Object> values = new HashMap<>();
        values.put("name", handed.text("name"));
        values.put("brought", brought);
        values.put("columns", columns);
        values.put("seen", seen);
        values.put("theirs", handed.is("theirs"));
        values.put("meanwhile", changedMeanwhile);
        Pages.show(context, "brought.jte", values);
    }

    private static void kept(Context context, BroughtIn brought, boolean remembered) {
        Pages.show(context, "kept.jte", Map.of("brought", brought, "remembered", remembered));
    }
}
