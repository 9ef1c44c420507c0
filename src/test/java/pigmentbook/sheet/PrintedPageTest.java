package pigmentbook.sheet;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.File;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.regex.Pattern;
import org.junit.jupiter.api.Assertions;
import org.junit.jupiter.api.Assumptions;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;

/** The page printed by a browser. */
@Tag("browser")
class PrintedPageTest {

    @TempDir
    Path folder;

    @ParameterizedTest
    @EnumSource
    void aOneLayerMixIsOnePage(Paper paper) throws IOException {
        assertThat(pages(Studio.sheet(Studio.mix(Studio.Order.total("940 g")), paper)))
                .isEqualTo(1);
        assertThat(pages(Studio.sheet(Studio.mix(Studio.Order.volume("1.5 L")), paper)))
                .isEqualTo(1);
        assertThat(pages(Studio.sheet(Studio.mix(Studio.Order.total("3 g")), paper)))
                .isEqualTo(1);
        assertThat(pages(Studio.sheet(
                        Studio.mix(Studio.Order.total("29.5 oz").onScales("1/8 oz", "1 grain"), "Ember, ".repeat(40)),
                        paper)))
                .isEqualTo(1);
    }

    @ParameterizedTest
    @EnumSource
    void layersBreakWhereTheGridSays(Paper paper) throws IOException {
        MixSheet sheet = Studio.sheet(Studio.mix(Studio.Order.volume("5 L").inLayers(3)), paper);
        assertThat(pages(sheet))
                .isEqualTo(1
                        + sheet.page().rows().stream().filter(Grid.Row::newPage).count());
    }

    private long pages(MixSheet sheet) throws IOException {
        Path html = Files.write(folder.resolve("sheet.html"), Studio.written(SheetWriters.Format.HTML, sheet));
        Path pdf = folder.resolve("sheet.pdf");
        Outside.Ended ended = Outside.run(List.of(
                browser().toString(),
                "--headless",
                "--no-sandbox",
                "--disable-gpu",
                "--user-data-dir=" + folder.resolve("profile"),
                "--no-pdf-header-footer",
                "--print-to-pdf=" + pdf,
                html.toUri().toString()));
        assertThat(ended.status()).as(ended.said()).isZero();
        String text = Files.readString(pdf, StandardCharsets.ISO_8859_1);
        return Pattern.compile("/Type\\s*/Page\\b").matcher(text).results().count();
    }

    private static Path browser() {
        List<Path> places = new ArrayList<>();
        for (String folder : System.getenv().getOrDefault("PATH", "").split(File.pathSeparator)) {
            for (String name : List.of("chromium", "google-chrome", "chrome")) {
                places.add(Path.of(folder, name));
            }
        }
        Path found = places.stream().filter(Files::isExecutable).findFirst().orElse(null);
        if (found == null) {
            String missing = "no browser (chromium) on this machine; the tests that need one are left out";
            if (System.getenv("PIGMENT_BOOK_ALL_TESTS") != null) {
                Assertions.fail(missing);
            }
            Assumptions.abort(missing);
        }
        return found;
    }
}
