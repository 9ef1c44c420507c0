package pigmentbook.sheet;

import java.util.List;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;
import pigmentbook.book.Item;

/**
 * Which weighing a name or a record id speaks of.
 *
 * @param layer the layer, from 1
 * @param cup the layer's cup, from 1
 * @param item what is weighed
 */
record RowName(int layer, int cup, Item item) {

    /** What stands in a weigh row under names of its own. */
    static final List<String> CELLS = List.of("lot", "weigh_g", "low_g", "high_g", "actual_g", "target_g");

    private static final Pattern RECORD = Pattern.compile("([1-9]\\d{0,3})/([1-9]\\d{0,3})/([A-Za-z0-9_]{1,64})");
    private static final Pattern NAME =
            Pattern.compile("(lot|weigh_g|low_g|high_g|actual_g|target_g)_([1-9]\\d{0,3})_([1-9]\\d{0,3})_(\\w{1,64})");

    /** Reads a record id such as {@code 1/2/amber_paste}; null where the text is none. */
    static @Nullable RowName ofRecord(String text) {
        if (text.isEmpty() || text.charAt(0) > '9' || text.indexOf('/') < 0) {
            return null; // most cells of a sheet, told apart without looking closer
        }
        Matcher record = RECORD.matcher(text.strip());
        return record.matches() ? of(record, 1) : null;
    }

    /** Reads the name of a cell in a weigh row such as {@code actual_g_1_2_amber_paste}; null where it is none. */
    static @Nullable RowName ofName(String name) {
        Matcher cell = NAME.matcher(name);
        return cell.matches() ? of(cell, 2) : null;
    }

    private static RowName of(Matcher found, int group) {
        return new RowName(
                Integer.parseInt(found.group(group)),
                Integer.parseInt(found.group(group + 1)),
                CellNames.item(found.group(group + 2)));
    }

    /** Returns the name of one of the row's cells. */
    String cell(String what) {
        return CellNames.of(what, layer, cup, item);
    }

    String record() {
        return CellNames.record(layer, cup, item);
    }
}
