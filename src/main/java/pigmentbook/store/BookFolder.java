package pigmentbook.store;

import java.nio.file.Path;

/** A book's folder. */
public record BookFolder(Path folder) {}
