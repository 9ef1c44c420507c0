package pigmentbook.web;

import com.fasterxml.jackson.databind.node.ObjectNode;
import io.javalin.config.JavalinConfig;
import io.javalin.http.Context;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.HashMap;
import java.util.Map;
import pigmentbook.sheet.NoMixSheetException;
import pigmentbook.sheet.ReadBack;
import pigmentbook.sheet.SheetFile;
import pigmentbook.store.BookUnavailableException;
import pigmentbook.store.PourKeeper;
import pigmentbook.store.SaveFailedException;

/** A filled-in sheet is taken in: what it tells is shown, and kept only when a person says so. */
public final class ReadBackPage {

    private static final int MOST_BYTES = 16 * 1024 * 1024;
    private static final int DAY = 10;

    private ReadBackPage() {}

    static void addTo(JavalinConfig config, LiveBook book) {
        config.routes.post("/read-back", context -> read(context, book, false));
        config.routes.post("/read-back/keep", context -> read(context, book, true));
    }

    private static void read(Context context, LiveBook live, boolean keep)
            throws IOException, BookUnavailableException, SaveFailedException, NoMixSheetException {
        byte[] bytes = context.bodyInputStream().readNBytes(MOST_BYTES + 1);
        if (bytes.length > MOST_BYTES) {
            throw new SaveFailedException("The file is larger than 16 MB; a mix sheet was expected. Nothing was kept.");
        }
        Path file = Files.createTempFile("sheet", ".tmp");
        try {
            Files.write(file, bytes);
            ReadBack.Draft draft =
                    ReadBack.of(SheetFile.read(file, "This file"), live.now().book());
            if (keep) {
                keep(context, live, draft);
            } else {
                show(context, draft);
            }
        } finally {
            Files.deleteIfExists(file);
        }
    }

    private static void show(Context context, ReadBack.Draft draft) {
        Map<String, Object> values = new HashMap<>();
        values.put("sheet", draft.mixId());
        values.put("differences", draft.differences());
        values.put("hindrances", draft.hindrances());
        values.put("notes", draft.notes());
        values.put("started", draft.started() == null ? "" : draft.started());
        Pages.show(context, "readback.jte", values);
    }

    private static void keep(Context context, LiveBook live, ReadBack.Draft draft)
            throws SaveFailedException, BookUnavailableException {
        String started = draft.started();
        if (!draft.hindrances().isEmpty() || started == null) {
            throw new SaveFailedException(String.join("\n", draft.hindrances()));
        }
        ObjectNode pour = draft.pour();
        String kept = new PourKeeper(live.now().folder())
                .keep(started.substring(0, DAY), pour.path("recipe").asText(), pour)
                .record()
                .path("id")
                .asText();
        live.reread();
        context.contentType("text/plain; charset=utf-8").result("/pours/" + kept);
    }
}
