package pigmentbook.sheet;

import pigmentbook.mix.Mix;

/**
 * A mix laid out: the page that is weighed from, and the plain table of its rows.
 *
 * @param info what the mix does not know of its sheet
 * @param page the page for office programs and paper
 * @param table one row an item, for other programs
 */
public record MixSheet(SheetInfo info, Grid page, Grid table) {

    /** Lays a mix out. */
    public static MixSheet of(Mix mix, SheetInfo info) {
        return new MixSheet(info, new MixPage(mix, info).grid(), MixTable.of(mix, info));
    }
}
