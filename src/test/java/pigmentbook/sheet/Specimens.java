package pigmentbook.sheet;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;

/** Writes sheets of several kinds into a folder, to be looked at. */
final class Specimens {

    private Specimens() {}

    public static void main(String[] args) throws IOException {
        Path folder = Files.createDirectories(Path.of(args[0]));
        for (Paper paper : Paper.values()) {
            save(folder, "one-" + paper, Studio.sheet(Studio.mix(Studio.Order.total("940 g")), paper));
            save(folder, "cups-" + paper, Studio.sheet(Studio.mix(Studio.Order.volume("1.5 L")), paper));
            save(
                    folder,
                    "three-" + paper,
                    Studio.sheet(Studio.mix(Studio.Order.volume("5 L").inLayers(3)), paper));
            save(folder, "tiny-" + paper, Studio.sheet(Studio.mix(Studio.Order.total("3 g")), paper));
            save(
                    folder,
                    "ounces-" + paper,
                    Studio.sheet(Studio.mix(Studio.Order.total("29.5 oz").onScales("1/8 oz", "1 grain")), paper));
            save(
                    folder,
                    "long-" + paper,
                    Studio.sheet(
                            Studio.mix(
                                    Studio.Order.total("900 g"),
                                    "Ember for the lamp panel of the reading room, ".repeat(7)),
                            paper));
        }
    }

    private static void save(Path folder, String name, MixSheet sheet) throws IOException {
        for (SheetWriters.Format format : SheetWriters.Format.values()) {
            Files.write(folder.resolve(name + "." + format.extension()), Studio.written(format, sheet));
        }
    }
}
