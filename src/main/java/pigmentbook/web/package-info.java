/**
 * The page: the book shown and worked with in a browser on this computer, and its bench on a helper's phone.
 *
 * <p>Start at {@link pigmentbook.web.WebServer}. A class that ends in {@code Page} shows one screen and one that ends
 * in {@code Acts} does what is pressed there; a <em>cell</em> is what somebody may type in, a <em>figure</em> a number
 * as it stands on a page. It adds no arithmetic: every figure is asked of {@code mix}, {@code tint} and {@code mold},
 * so that it equals the command line's, and no record is laid out or judged here that {@code store} can lay out or
 * judge. What can't be done is thrown, and answered in one place, {@link pigmentbook.web.Refusals}. Nothing is decided
 * by the words of a message. Templates lie in {@code src/main/jte}, style and script in {@code src/main/resources/web}.
 * Uses {@code sheet}, {@code store} and the rooms beneath them.
 */
@NullMarked
package pigmentbook.web;

import org.jspecify.annotations.NullMarked;
