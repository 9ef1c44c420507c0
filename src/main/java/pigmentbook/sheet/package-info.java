/**
 * The mix sheet: a mix laid out on one neutral grid of typed cells, and the writers that draw the grid as xlsx, ods,
 * csv and a page for print. Also plain tables, read from and written to the same formats.
 *
 * <p>The way back: {@link pigmentbook.sheet.SheetFile} reads what a person filled in as
 * {@link pigmentbook.sheet.Entries}, text by the cell's name, whatever file it was; {@link pigmentbook.sheet.ReadBack}
 * makes a draft of a pour of them.
 *
 * <p>Start at {@link pigmentbook.sheet.MixSheet}, then {@link pigmentbook.sheet.Grid}. The layout is decided once, on
 * the grid; a writer only draws it. No arithmetic of the craft beyond writing its formulas into cells. Uses {@code mix}
 * and the rooms beneath it.
 */
@NullMarked
package pigmentbook.sheet;

import org.jspecify.annotations.NullMarked;
