package pigmentbook.sheet;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.util.LinkedHashMap;
import java.util.Map;
import org.junit.jupiter.api.Test;
import pigmentbook.mix.Mix;

/** What a bench in a file hands back is read like a sheet, and says more: which lot gave what. */
class HandedBackTest {

    private static final Mix ONE_CUP = Studio.mix(Studio.Order.total("940 g"));

    private static Map<String, String> problems(ReadBack.Draft draft) {
        Map<String, String> problems = new LinkedHashMap<>();
        draft.problems().forEach(each -> problems.put(each.cell(), each.text()));
        return problems;
    }

    /** Every row with its planned lot, and nothing weighed yet. */
    private static ObjectNode emptyHanded() throws Exception {
        ObjectNode back = HandedBack.begun(ONE_CUP, Studio.sheet(ONE_CUP).info());
        ObjectNode cells = (ObjectNode) back.get("entries");
        for (Mix.Weighing each : ONE_CUP.layers().get(0).cups().get(0).items()) {
            String ending = HandedBack.ending(1, 1, each.item().id());
            cells.put("actual_g_" + ending, "")
                    .put("lot_" + ending, each.lots().get(0).lotId());
        }
        return back;
    }

    /** A bench without a network hands back what a row of a sheet can't say: two lots in one row, a cup thrown away. */
    @Test
    void aRowOfTwoLotsAndAThrownCupComeBackLotByLot() throws Exception {
        ObjectNode back = emptyHanded();
        ObjectNode cells = (ObjectNode) back.get("entries");
        cells.put("actual_g_1_1_part_A", "640.5").put("lot_1_1_part_A", "A-2409 + unknown");
        ArrayNode weighings = back.putArray("weighings");
        weighings.addObject().put("cell", "1_1_part_A").put("lot", "A-2409").put("grams", "600");
        weighings.addObject().put("cell", "1_1_part_A").put("lot", "unknown").put("grams", "40.5");
        weighings
                .addObject()
                .put("cell", "1_1_part_A")
                .put("lot", "A-2409")
                .put("grams", "700")
                .put("thrown", true);
        ReadBack.Draft draft = ReadBack.of(Entries.of(back), Studio.book());
        assertThat(draft.problems()).isEmpty();
        JsonNode weighed = draft.pour().at("/layers/0/cups/0/weighed");
        assertThat(weighed.get(0).get("actual").asText()).isEqualTo("600 g");
        assertThat(weighed.get(0).get("target").isNull()).isFalse();
        assertThat(weighed.get(1).get("item").asText()).isEqualTo("part A");
        assertThat(weighed.get(1).get("lot").asText()).isEqualTo("unknown");
        assertThat(weighed.get(1).get("actual").asText()).isEqualTo("40.5 g");
        assertThat(weighed.get(1).get("target").isNull()).isTrue();
        assertThat(draft.pour().at("/thrown/0/actual").asText()).isEqualTo("700 g");
        assertThat(draft.differences())
                .contains(new ReadBack.Difference("lot_1_1_part_A", "A-2409", "A-2409 + unknown"));

        ((ObjectNode) weighings.get(1)).put("lot", "A-9999").put("grams", "40 spoons");
        assertThat(problems(ReadBack.of(Entries.of(back), Studio.book())))
                .containsOnlyKeys("lot_1_1_part_A", "actual_g_1_1_part_A");
        ((ObjectNode) weighings.get(1)).put("lot", "unknown").put("grams", "41");
        assertThat(problems(ReadBack.of(Entries.of(back), Studio.book())).get("actual_g_1_1_part_A"))
                .startsWith("The lots of this row give 641 g together, but it says \"640.5\"");
        weighings.addObject().put("cell", "gold").put("lot", "x").put("grams", "1");
        assertThatThrownBy(() -> Entries.of(back)).isInstanceOf(NoMixSheetException.class);
    }

    @Test
    void aLotWhoseGramsAreMissingAndARowThatIsNowhereAreTold() throws Exception {
        ObjectNode back = emptyHanded();
        ArrayNode weighings = back.putArray("weighings");
        weighings.addObject().put("cell", "1_1_part_A").put("lot", "A-2409").put("grams", "");
        weighings.addObject().put("cell", "1_1_part_A").put("lot", "unknown").put("grams", "600");
        weighings.addObject().put("cell", "2_1_part_A").put("lot", "A-2409").put("grams", "77");
        Map<String, String> problems = problems(ReadBack.of(Entries.of(back), Studio.book()));
        assertThat(problems.get("actual_g_1_1_part_A"))
                .isEqualTo("What the lot A-2409 gave to this row is missing. Write its grams.");
        assertThat(problems.get("actual_g_2_1_part_A")).contains("is not on the sheet any more");
    }
}
