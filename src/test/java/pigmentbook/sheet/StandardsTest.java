package pigmentbook.sheet;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.File;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.stream.Collectors;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import pigmentbook.mix.Mix;

/** Workbooks hold to their standards, by the checkers of others. */
class StandardsTest {

    @TempDir
    Path folder;

    private List<String> samples(SheetWriters.Format format) throws IOException {
        List<Mix> mixes = List.of(
                Studio.mix(Studio.Order.total("940 g")),
                Studio.mix(Studio.Order.total("20 g").withTare("0 g")),
                Studio.mix(Studio.Order.volume("5 L").inLayers(3)),
                Studio.mix(
                        Studio.Order.total("500 g").onScales("1/8 oz", "1 grain"),
                        "=<&\"> \u0001 \t  " + "x".repeat(300)));
        List<String> files = new ArrayList<>();
        for (Mix mix : mixes) {
            for (Paper paper : Paper.values()) {
                Path file = folder.resolve("sheet-" + files.size() + "." + format.extension());
                Files.write(file, Studio.written(format, Studio.sheet(mix, paper)));
                files.add(file.toString());
            }
        }
        return files;
    }

    @Test
    void odsConformsToOpenDocument13() throws IOException {
        List<String> command = new ArrayList<>(
                List.of(Outside.java().toString(), "-jar", System.getProperty("checker.ods"), "-c", "-w"));
        command.addAll(samples(SheetWriters.Format.ODS));
        Outside.Ended ended = Outside.run(command);
        assertThat(ended.said()).doesNotContain("Error").doesNotContain("Warning");
        assertThat(ended.status()).isZero();
    }

    @Test
    void xlsxIsValidByTheSchemasOfOfficeOpenXml() throws IOException {
        String classPath = Arrays.stream(System.getProperty("java.class.path").split(File.pathSeparator))
                .filter(each -> !each.contains("poi-ooxml-lite"))
                .collect(Collectors.joining(File.pathSeparator));
        List<String> command = new ArrayList<>(List.of(
                Outside.java().toString(),
                "-cp",
                System.getProperty("checker.xlsx") + File.pathSeparator + classPath,
                SchemaCheck.class.getName()));
        command.addAll(samples(SheetWriters.Format.XLSX));
        Outside.Ended ended = Outside.run(command);
        assertThat(ended.said()).doesNotContain("error:");
        assertThat(ended.status()).isZero();
    }
}
