package pigmentbook.cli;

import java.io.PrintStream;
import java.nio.file.Path;
import java.time.Clock;
import java.util.Map;

/**
 * What a run of the program may touch.
 *
 * @param out standard output
 * @param err standard error
 * @param env the environment's variables
 * @param clock the clock
 * @param here the current folder
 * @param terminal whether standard output is a terminal
 */
record Context(PrintStream out, PrintStream err, Map<String, String> env, Clock clock, Path here, boolean terminal) {

    /** Returns whether the text may be coloured: on a terminal, unless NO_COLOR is set. */
    boolean colour() {
        return terminal
                && env.getOrDefault("NO_COLOR", "").isEmpty()
                && !env.getOrDefault("TERM", "").equals("dumb");
    }
}
