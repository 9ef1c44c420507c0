package pigmentbook.cli;

import java.io.BufferedOutputStream;
import java.io.IOException;
import java.io.OutputStream;
import java.nio.channels.Channels;
import java.nio.channels.FileChannel;
import java.nio.file.AccessDeniedException;
import java.nio.file.FileAlreadyExistsException;
import java.nio.file.FileSystemException;
import java.nio.file.Files;
import java.nio.file.LinkOption;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.nio.file.StandardOpenOption;
import java.util.ArrayList;
import java.util.List;

/** Writes exported files: whole or not at all, and never over another one unasked. */
final class Exports {

    private static final int MOST_NAMES = 10_000;

    private Exports() {}

    /** Writes a file's content. */
    interface Content {
        void write(OutputStream out) throws IOException;
    }

    /** Writes the content of a file with an ending. */
    interface ContentByEnding {
        void write(String ending, OutputStream out) throws IOException;
    }

    /**
     * Writes files of one new name into a folder: {@code stem.xlsx}, else {@code stem-2.xlsx} and so on, the same for
     * each ending.
     *
     * @return the files
     * @throws RequestException if the folder can't take them; none is left then
     */
    static List<Path> write(Path folder, String stem, List<String> endings, ContentByEnding content) {
        for (int number = 1; number <= MOST_NAMES; number++) {
            String name = number == 1 ? stem : stem + "-" + number;
            List<Path> files = new ArrayList<>();
            for (String ending : endings) {
                files.add(folder.resolve(name + "." + ending));
            }
            if (files.stream().noneMatch(Files::exists) && writeAll(files, endings, content)) {
                return files;
            }
        }
        throw new RequestException(
                "The folder \"" + folder + "\" holds " + MOST_NAMES + " sheets of this name. Tidy it up.");
    }

    private static boolean writeAll(List<Path> files, List<String> endings, ContentByEnding content) {
        List<Path> written = new ArrayList<>();
        for (int i = 0; i < files.size(); i++) {
            String ending = endings.get(i);
            boolean done = false;
            try {
                done = create(files.get(i), out -> content.write(ending, out));
            } finally {
                if (!done) {
                    written.forEach(Exports::remove);
                }
            }
            if (!done) {
                return false;
            }
            written.add(files.get(i));
        }
        return true;
    }

    /** Writes a new file; returns false, with nothing written, if one of that name appeared meanwhile. */
    private static boolean create(Path file, Content content) {
        boolean whole = false;
        boolean ours = false;
        try (OutputStream out = new BufferedOutputStream(Files.newOutputStream(file, StandardOpenOption.CREATE_NEW))) {
            ours = true;
            content.write(out);
            out.flush();
            whole = true;
        } catch (FileAlreadyExistsException e) {
            return false;
        } catch (IOException e) {
            throw refused(file, e);
        } finally {
            if (ours && !whole) {
                remove(file);
            }
        }
        return true;
    }

    /**
     * Writes one file of a given name.
     *
     * @param replace whether it may take the place of one that is there
     * @throws RequestException if it is there and may not be replaced, or can't be written; it stays as it was then
     */
    static void writeFile(Path file, boolean replace, Content content) {
        if (Files.isDirectory(file)) {
            throw new RequestException("\"" + file + "\" is a folder.");
        }
        if (!replace) {
            if (!create(file, content)) {
                throw new RequestException("The file \"" + file.getFileName()
                        + "\" is there already. Add --replace to write over it, or give another name.");
            }
            return;
        }
        Path beside = file.resolveSibling("." + file.getFileName() + ".new");
        try {
            Files.deleteIfExists(beside);
        } catch (IOException e) {
            throw refused(file, e);
        }
        if (!create(beside, content)) {
            throw new RequestException("The file \"" + file.getFileName() + "\" is being written by another run.");
        }
        try {
            Files.move(beside, file, StandardCopyOption.REPLACE_EXISTING);
        } catch (IOException e) {
            remove(beside);
            throw refused(file, e);
        }
    }

    /**
     * Requires that a file may be written.
     *
     * @throws RequestException if it is a folder, or is there and may not be replaced
     */
    static void requireFree(Path file, boolean replace) {
        if (Files.isDirectory(file)) {
            throw new RequestException("\"" + file + "\" is a folder.");
        }
        if (!replace && Files.exists(file, LinkOption.NOFOLLOW_LINKS)) {
            throw new RequestException("The file \"" + file.getFileName()
                    + "\" is there already. Add --replace to write over it, or give another name.");
        }
    }

    /**
     * Writes a file beside its place, waits until the disk holds it, and only then gives it its name: whatever stops
     * the program, the name stands for the old file or the whole new one.
     *
     * @throws RequestException as {@link #requireFree}, or if it can't be written
     */
    static void writeWhole(Path file, boolean replace, Content content) {
        Path beside = file.resolveSibling(
                "." + file.getFileName() + ".new-" + ProcessHandle.current().pid());
        boolean done = false;
        try (FileChannel channel = FileChannel.open(beside, StandardOpenOption.CREATE_NEW, StandardOpenOption.WRITE)) {
            OutputStream out = new BufferedOutputStream(Channels.newOutputStream(channel));
            content.write(out);
            out.flush();
            channel.force(true);
            done = true;
        } catch (IOException e) {
            throw refused(file, e);
        } finally {
            if (!done) {
                remove(beside);
            }
        }
        try {
            requireFree(file, replace);
            if (replace) {
                Files.move(beside, file, StandardCopyOption.REPLACE_EXISTING);
            } else {
                Files.move(beside, file);
            }
        } catch (IOException e) {
            throw refused(file, e);
        } finally {
            remove(beside);
        }
    }

    private static void remove(Path file) {
        try {
            Files.deleteIfExists(file);
        } catch (IOException e) {
            throw refused(file, e);
        }
    }

    private static RequestException refused(Path file, IOException e) {
        Path folder = file.getParent();
        String where = "\"" + file + "\"";
        if (folder != null && Files.exists(folder) && !Files.isDirectory(folder)) {
            return new RequestException(
                    "\"" + folder + "\" is a file, so nothing can be written into it. Name a folder.");
        }
        if (folder != null && !Files.exists(folder)) {
            return new RequestException("There is no folder \"" + folder + "\". Make it first, or name another one.");
        }
        if (e instanceof AccessDeniedException || (folder != null && !Files.isWritable(folder))) {
            return new RequestException("The folder \"" + folder + "\" can't be written to. Name another one.");
        }
        String reason = e instanceof FileSystemException system ? system.getReason() : e.getMessage();
        return new RequestException(where + " could not be written" + (reason == null ? "" : " (" + reason + ")")
                + "; nothing of it is left. Make room or name another folder.");
    }
}
