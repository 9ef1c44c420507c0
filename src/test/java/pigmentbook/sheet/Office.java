package pigmentbook.sheet;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.File;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Collection;
import java.util.List;
import org.junit.jupiter.api.Assertions;
import org.junit.jupiter.api.Assumptions;

/**
 * An office program with a profile of its own, set to work every formula out anew when it opens a file: else it would
 * show us back the figures we wrote.
 */
final class Office {

    private static final String SETTINGS = """
            <?xml version="1.0" encoding="UTF-8"?>
            <oor:items xmlns:oor="http://openoffice.org/2001/registry" xmlns:xs="http://www.w3.org/2001/XMLSchema">
            <item oor:path="/org.openoffice.Office.Calc/Formula/Load"><prop oor:name="OOXMLRecalcMode" oor:op="fuse"><value>0</value></prop></item>
            <item oor:path="/org.openoffice.Office.Calc/Formula/Load"><prop oor:name="ODFRecalcMode" oor:op="fuse"><value>0</value></prop></item>
            </oor:items>
            """;

    private final Path program;
    private final Path profile;

    private Office(Path program, Path profile) {
        this.program = program;
        this.profile = profile;
    }

    /** Finds the program; without one the test is skipped, or fails where all tests must run. */
    static Office orSkip() throws IOException {
        Path program = find();
        if (program == null) {
            String missing = "no office program (soffice) on this machine; the tests that need one are left out";
            if (System.getenv("PIGMENT_BOOK_ALL_TESTS") != null) {
                Assertions.fail(missing);
            }
            Assumptions.abort(missing);
        }
        Path profile = Files.createTempDirectory(Files.createDirectories(Path.of("target")), "office-profile");
        Files.createDirectories(profile.resolve("user"));
        Files.writeString(profile.resolve("user/registrymodifications.xcu"), SETTINGS);
        return new Office(program, profile.toAbsolutePath());
    }

    private static Path find() {
        List<Path> places = new ArrayList<>();
        for (String folder : System.getenv().getOrDefault("PATH", "").split(File.pathSeparator)) {
            places.add(Path.of(folder, "soffice"));
            places.add(Path.of(folder, "soffice.com"));
        }
        places.add(Path.of("/Applications/LibreOffice.app/Contents/MacOS/soffice"));
        places.add(Path.of("C:\\Program Files\\LibreOffice\\program\\soffice.com"));
        return places.stream().filter(Files::isExecutable).findFirst().orElse(null);
    }

    /** Opens files, works them out and saves them in another format, in a folder. */
    void save(Collection<Path> files, String format, Path folder) {
        List<String> command = new ArrayList<>(List.of(
                program.toString(),
                "-env:UserInstallation=" + profile.toUri(),
                "--headless",
                "--norestore",
                "--convert-to",
                format,
                "--outdir",
                folder.toString()));
        files.forEach(file -> command.add(file.toString()));
        Outside.Ended ended = Outside.run(command);
        assertThat(ended.status()).as(ended.said()).isZero();
    }
}
