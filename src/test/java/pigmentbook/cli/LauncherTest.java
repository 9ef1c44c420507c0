package pigmentbook.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.FileTime;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.condition.DisabledOnOs;
import org.junit.jupiter.api.condition.OS;
import org.junit.jupiter.api.io.TempDir;

/** The small script that starts the program. */
class LauncherTest {

    @TempDir
    private Path folder;

    @Test
    @DisabledOnOs(value = OS.WINDOWS, disabledReason = "a shell script; on Windows the jar is started")
    void beforeTheFirstBuildItSaysWhatToRun() throws IOException, InterruptedException {
        Files.copy(Path.of("pigment-book"), folder.resolve("pigment-book"));
        Process process = new ProcessBuilder("sh", "pigment-book", "recipes")
                .directory(folder.toFile())
                .redirectErrorStream(true)
                .start();
        String said = new String(process.getInputStream().readAllBytes(), StandardCharsets.UTF_8);
        assertThat(process.waitFor()).isEqualTo(1);
        assertThat(said)
                .isEqualTo("The program is not built yet. In " + folder.toRealPath()
                        + " run: mvn -q -DskipTests package\n");
    }

    @Test
    void theRehearsalGoesThroughTheDemoBookAndLeavesItAsItWas() throws Exception {
        FileTime before = Files.getLastModifiedTime(Path.of("recipes"));
        Rehearsal.main(new String[] {"recipes"});
        assertThat(Files.getLastModifiedTime(Path.of("recipes"))).isEqualTo(before);
    }
}
