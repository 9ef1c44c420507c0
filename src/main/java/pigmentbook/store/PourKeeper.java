package pigmentbook.store;

import com.fasterxml.jackson.databind.node.ObjectNode;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.DirectoryStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;

/**
 * Keeps the pour that a mix sheet tells of: under an id of its own, and each sheet only once, whoever else keeps one.
 */
public final class PourKeeper {

    private static final int MOST_ID = 64;
    private static final int MOST_A_DAY = 10_000;

    private final Path folder;
    private final RecordFiles files;
    private final BookWriter writer;

    /** Keeps pours in a book's folder. */
    public PourKeeper(Path folder) {
        this.folder = folder;
        this.files = new RecordFiles(folder, new Disk());
        this.writer = new BookWriter(folder);
    }

    /**
     * Keeps a pour under the id {@code DAY-RECIPE-N}, with the first N that is free.
     *
     * @param day the day it began, {@code 2026-03-02}
     * @param recipeId the recipe's id
     * @param pour the pour without an id; its {@code mix_id} is that of the sheet
     * @return the pour as kept
     * @throws SaveFailedException if the sheet was kept before, or the pour can't be written; nothing is written then
     */
    public BookWriter.Current keep(String day, String recipeId, ObjectNode pour) throws SaveFailedException {
        BookLock lock = files.lock();
        try {
            String mixId = pour.path("mix_id").asText();
            String kept = keptBefore(mixId);
            if (kept != null) {
                throw new SaveFailedException("The sheet " + Records.shown(mixId) + " is kept already, in " + kept
                        + ". Correct that pour instead. Nothing was changed.");
            }
            return writer.createWithin(lock, Kind.POUR, freeId(day, recipeId), pour);
        } catch (ConflictException e) {
            throw new SaveFailedException(String.valueOf(e.getMessage()));
        } finally {
            lock.close();
        }
    }

    private String freeId(String day, String recipeId) throws SaveFailedException {
        for (int number = 1; number <= MOST_A_DAY; number++) {
            String end = "-" + number;
            String start = day + "-" + recipeId;
            String id = start.substring(0, Math.min(start.length(), MOST_ID - end.length())) + end;
            if (!Files.exists(files.find(Kind.POUR, id))) {
                return id;
            }
        }
        throw new SaveFailedException("There are " + MOST_A_DAY + " pours of " + recipeId + " on " + day + " already.");
    }

    /**
     * Returns the file that holds a pour of this sheet, or null. Looked for in the files as they are now, also in those
     * that a synchronised folder put aside under a name that is no id.
     */
    private @Nullable String keptBefore(String mixId) throws SaveFailedException {
        Pattern field = Pattern.compile("\"mix_id\"\\s*:\\s*\"" + Pattern.quote(mixId) + "\"");
        Path pours = folder.resolve(Kind.POUR.folder());
        if (!Files.isDirectory(pours)) {
            return null;
        }
        try (DirectoryStream<Path> years = Files.newDirectoryStream(pours, Files::isDirectory)) {
            for (Path year : years) {
                try (DirectoryStream<Path> others = Files.newDirectoryStream(year, "*" + Listing.SUFFIX)) {
                    for (Path other : others) {
                        if (holds(other, mixId, field)) {
                            return files.name(other);
                        }
                    }
                }
            }
            return null;
        } catch (IOException e) {
            throw SaveFailures.of(pours, e);
        }
    }

    private static boolean holds(Path file, String mixId, Pattern field) throws SaveFailedException {
        byte[] bytes = RecordFiles.bytes(file);
        String text = bytes == null ? "" : new String(bytes, StandardCharsets.ISO_8859_1);
        return text.contains(mixId) && field.matcher(text).find();
    }
}
