/**
 * The book's folder: loading with every problem told, atomic saving, version tags; packs, and bringing in tables.
 *
 * <p>Start at {@link pigmentbook.store.BookFolder}; {@link pigmentbook.store.Pack}, {@link pigmentbook.store.Unpack}
 * and {@link pigmentbook.store.Import} are what passes between books. Files are read and written here and nowhere above
 * in the domain. No arithmetic of the craft. Uses {@code book} and the rooms beneath it.
 */
@NullMarked
package pigmentbook.store;

import org.jspecify.annotations.NullMarked;
