package pigmentbook.store;

import java.io.IOException;
import java.nio.file.AccessDeniedException;
import java.nio.file.FileSystemException;
import java.nio.file.Files;
import java.nio.file.Path;

/** Says why the disk did not take a file. */
final class SaveFailures {

    /** Less room than this is none: a file system keeps some for itself. */
    private static final long NO_ROOM_BYTES = 64 * 1024;

    private SaveFailures() {}

    static SaveFailedException of(Path folder, IOException e) {
        if (e instanceof AccessDeniedException) {
            return new SaveFailedException(
                    "The folder \"" + folder
                            + "\" can't be written to. Check who may write there. Nothing was changed.",
                    e);
        }
        String reason = e instanceof FileSystemException file && file.getReason() != null
                ? file.getReason()
                : String.valueOf(e.getMessage());
        if (reason.contains("No space left") || reason.contains("quota") || full(folder)) {
            return new SaveFailedException("The disk is full. Make room and save again. Nothing was changed.", e);
        }
        if (reason.contains("Read-only")) {
            return new SaveFailedException(
                    "The disk with \"" + folder
                            + "\" can only be read. Move the book to one that can be written. Nothing was changed.",
                    e);
        }
        return new SaveFailedException(
                "The disk did not take the file (" + Records.shown(reason) + "). Try again. Nothing was changed.", e);
    }

    private static boolean full(Path folder) {
        try {
            return Files.exists(folder) && Files.getFileStore(folder).getUsableSpace() < NO_ROOM_BYTES;
        } catch (IOException e) {
            return false;
        }
    }
}
