package pigmentbook.sheet;

import com.fasterxml.jackson.databind.node.JsonNodeFactory;
import com.fasterxml.jackson.databind.node.ObjectNode;
import pigmentbook.book.Item;
import pigmentbook.mix.Mix;
import pigmentbook.quantity.Numbers;

/** What a bench without a network hands back: the entries of a mix sheet by name, to be read back like one. */
public final class HandedBack {

    private HandedBack() {}

    /** Returns the entries before anything is weighed: whose mix it is, and what was planned. */
    public static ObjectNode begun(Mix mix, SheetInfo info) {
        ObjectNode begun = JsonNodeFactory.instance.objectNode();
        begun.put("mix_id", info.id());
        begun.put("recipe", mix.recipe().id());
        begun.put("revision", mix.revision().number());
        begun.putObject("entries")
                .put(CellNames.PLAN, Plan.of(mix).text())
                .put(CellNames.TOTAL, Numbers.plain(mix.totals().totalGrams()));
        return begun;
    }

    /** Returns how the name of a weighing's cells ends: {@code 1_2_amber_paste}. */
    public static String ending(int layer, int cup, String itemId) {
        return layer + "_" + cup + "_" + CellNames.inName(Item.of(itemId));
    }
}
