/**
 * The page: the book shown and worked with in a browser on this computer.
 *
 * <p>Start at {@link pigmentbook.web.WebServer}. It adds no arithmetic: every figure is asked of {@code mix} and
 * {@code mold}, so that it equals the command line's. Templates lie in {@code src/main/jte}, style and script in
 * {@code src/main/resources/web}. Uses {@code sheet}, {@code store} and the rooms beneath them.
 */
@NullMarked
package pigmentbook.web;

import org.jspecify.annotations.NullMarked;
