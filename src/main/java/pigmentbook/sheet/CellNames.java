package pigmentbook.sheet;

import java.util.List;
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

    /** What the sheet was when it was made; hidden, so that reading back can tell what a person changed. */
    public static final String PLAN = "mix_plan";

    /** Who weighed a cup. */
    static final String BY = "by";

    /** When the work began. */
    public static final String STARTED = "started";

    /** The room's temperature, in °C. */
    public static final String TEMPERATURE = "room_temperature";

    /** The room's relative humidity, in percent. */
    public static final String HUMIDITY = "room_humidity";

    /** What was left in the cups, in g. */
    public static final String LEFT = "left_g";

    /** The level that the resin reached, in mm. */
    public static final String LEVEL = "level_mm";

    /** How it came out, 1 to 5. */
    public static final String RATING = "result_rating";

    /** How it came out, in words. */
    public static final String RESULT = "result_text";

    /** What was done otherwise. */
    public static final String DEVIATION = "deviation";

    /** Who made it. */
    public static final String MADE_BY = "made_by";

    /** Who checked it before part B went in. */
    public static final String CHECKED_BY = "checked_by";

    /** The blanks of a cup's times, each {@code WHAT_L_C}. */
    static final List<String> TIMES =
            List.of("part_b_in", "pour_by", "poured", "passes", "next_from", "next_to", "demold", "full_cure");

    /** The names that a sheet has beside those of its weigh rows. */
    private static final Pattern OF_A_SHEET = Pattern.compile("mix_(total_g|recipe|revision|id|plan)|started"
            + "|room_(temperature|humidity)|left_g|level_mm|result_(rating|text)|deviation|made_by|checked_by"
            + "|check_\\d{1,4}|poured(_by)?_\\d{1,4}|by_\\d{1,4}_\\d{1,4}|(" + String.join("|", TIMES)
            + ")_\\d{1,4}_\\d{1,4}");

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

    /** Returns the name of a cell that belongs to one layer, or is one of several, such as {@code poured_2}. */
    public static String of(String what, int number) {
        return valid(what + "_" + number);
    }

    /** Returns whether a name is one of a sheet's, beside those of its weigh rows. */
    static boolean isOfASheet(String name) {
        return OF_A_SHEET.matcher(name).matches();
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

    /** Returns an item as it stands in names: {@code part_A}, {@code amber_paste}. */
    static String inName(Item item) {
        return item.id().replace(' ', '_').replace('-', '_');
    }

    /** Returns the item that stands in a name. */
    static Item item(String inName) {
        boolean part = inName.equals("part_A") || inName.equals("part_B");
        return Item.of(inName.replace('_', part ? ' ' : '-'));
    }
}
