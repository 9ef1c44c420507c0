/**
 * The book's folder: loading with every problem told, atomic saving, version tags.
 *
 * <p>Start at {@link pigmentbook.store.BookFolder}. Files are read and written here and nowhere above in the domain. No
 * arithmetic of the craft. Uses {@code book} and the rooms beneath it.
 */
@NullMarked
package pigmentbook.store;

import org.jspecify.annotations.NullMarked;
