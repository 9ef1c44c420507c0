package pigmentbook.store;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.channels.FileChannel;
import java.nio.file.DirectoryStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.nio.file.StandardOpenOption;
import java.nio.file.attribute.PosixFileAttributeView;

/** The steps by which a file is replaced. Each may fail; a test makes them fail one by one. */
class Disk {

    /** Writes a new file and waits until the disk holds it. */
    void write(Path temporary, byte[] bytes) throws IOException {
        try (FileChannel channel =
                FileChannel.open(temporary, StandardOpenOption.CREATE_NEW, StandardOpenOption.WRITE)) {
            ByteBuffer buffer = ByteBuffer.wrap(bytes);
            while (buffer.hasRemaining()) {
                channel.write(buffer);
            }
            channel.force(true);
        }
    }

    /** Lets the new file be read and written by those who may read and write the old one. */
    void keepRights(Path old, Path temporary) throws IOException {
        PosixFileAttributeView from = Files.getFileAttributeView(old, PosixFileAttributeView.class);
        PosixFileAttributeView to = Files.getFileAttributeView(temporary, PosixFileAttributeView.class);
        if (from != null && to != null) {
            to.setPermissions(from.readAttributes().permissions());
        }
    }

    /** Puts the new file in the place of the old one, at once. */
    void rename(Path temporary, Path target) throws IOException {
        Files.move(temporary, target, StandardCopyOption.ATOMIC_MOVE);
    }

    /** Waits until the disk holds the folder's list of names. */
    void force(Path folder) throws IOException {
        try (FileChannel channel = FileChannel.open(folder, StandardOpenOption.READ)) {
            channel.force(true);
        }
    }

    /** Takes away what a save that was cut short left behind. */
    void takeAway(Path folder, String prefix) throws IOException {
        try (DirectoryStream<Path> old = Files.newDirectoryStream(
                folder, each -> each.getFileName().toString().startsWith(prefix))) {
            for (Path each : old) {
                Files.delete(each);
            }
        }
    }
}
