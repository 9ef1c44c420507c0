package pigmentbook.sheet;

import java.util.regex.Pattern;
import pigmentbook.book.Item;

/** The defined names of a mix sheet's cells, valid in every office program. */
public final class CellNames {

    /** The sum of everything weighed; changing it scales everything. */
    public static final String TOTAL = "mix_total_g";

    /** The recipe's name. */
    public static final String RECIPE = "mix_recipe";

    /** The revision's number. */
    public static final String REVISION = "mix_revision";

    /** The sheet's own id. */
    public static final String ID = "mix_id";

    private static final Pattern LOOKS_LIKE_AN_ADDRESS =
            Pattern.compile("[A-Za-z]{1,3}[0-9]+|[Rr]([0-9]*)?([Cc][0-9]*)?|[Cc][0-9]*");

    private CellNames() {}

    /** Returns the name of a cell that belongs to one weighing, such as {@code weigh_g_1_2_amber_paste}. */
    public static String of(String what, int layer, int cup, Item item) {
        return valid(what + "_" + layer + "_" + cup + "_" + inName(item));
    }

    /** Returns the name of a cell that belongs to one cup, such as {@code by_1_2}. */
    public static String of(String what, int layer, int cup) {
        return valid(what + "_" + layer + "_" + cup);
    }

    /** Returns the id that ties a row to its entries when rows are moved: {@code 1/2/amber_paste}. */
    public static String record(int layer, int cup, Item item) {
        return layer + "/" + cup + "/" + inName(item);
    }

    /** Returns the name as it is where it is valid; else with {@code _} in front. */
    static String valid(String name) {
        if (name.indexOf('_') > 0 && Character.isLetter(name.charAt(0))) {
            return name; // no address has a line in it
        }
        boolean begins = Character.isLetter(name.charAt(0)) || name.charAt(0) == '_';
        return begins && !LOOKS_LIKE_AN_ADDRESS.matcher(name).matches() ? name : "_" + name;
    }

    private static String inName(Item item) {
        return item.id().replace(' ', '_').replace('-', '_');
    }
}
