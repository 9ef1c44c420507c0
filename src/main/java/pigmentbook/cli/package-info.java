/**
 * The command line, and {@link pigmentbook.cli.Main}, where the rooms are put together.
 *
 * <p>Commands read options, ask the rooms below and print; no arithmetic of their own. Uses every room.
 */
@NullMarked
package pigmentbook.cli;

import org.jspecify.annotations.NullMarked;
