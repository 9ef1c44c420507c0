package pigmentbook.store;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;

/** A disk that may stop at each of its steps, also with half a file written. */
abstract class SteppingDisk extends Disk {

    /** Comes before each step; what it throws is how the disk stops. */
    abstract void step() throws IOException;

    @Override
    void takeAway(Path folder, String prefix) throws IOException {
        step();
        super.takeAway(folder, prefix);
    }

    @Override
    void write(Path temporary, byte[] bytes) throws IOException {
        step();
        Files.write(temporary, new byte[] {bytes[0]});
        step();
        Files.delete(temporary);
        super.write(temporary, bytes);
        step();
    }

    @Override
    void keepRights(Path old, Path temporary) throws IOException {
        step();
        super.keepRights(old, temporary);
    }

    @Override
    void rename(Path temporary, Path target) throws IOException {
        step();
        super.rename(temporary, target);
    }

    @Override
    void force(Path folder) throws IOException {
        step();
        super.force(folder);
    }
}
