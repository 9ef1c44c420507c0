/**
 * The records of the book: what is on the shelf, what the recipes are, what was poured; and
 * {@link pigmentbook.book.Book}, the indexed whole.
 *
 * <p>A <em>percent</em> in this room always says what it is of; a <em>fraction</em> is 0 to 1. What can be derived
 * (stock, the use of a lot) is derived here and never stored. Records and pure functions only: no files, no clock. Uses
 * {@code mold}, {@code colour} and {@code quantity}.
 */
@NullMarked
package pigmentbook.book;

import org.jspecify.annotations.NullMarked;
