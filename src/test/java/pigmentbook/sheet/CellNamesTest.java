package pigmentbook.sheet;

import static org.assertj.core.api.Assertions.assertThat;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import pigmentbook.book.Item;

/**
 * Defined names as the book's format says; what is valid is from ISO/IEC 29500-1 18.2.5 and OpenFormula 5.11, from
 * memory.
 */
class CellNamesTest {

    @Test
    void anItemStandsInANameWithLinesForHyphens() {
        assertThat(CellNames.of("target_g", 2, 1, Item.of("amber-paste"))).isEqualTo("target_g_2_1_amber_paste");
        assertThat(CellNames.of("lot", 1, 3, Item.PART_A)).isEqualTo("lot_1_3_part_A");
        assertThat(CellNames.of("actual_g", 1, 1, Item.PART_B)).isEqualTo("actual_g_1_1_part_B");
        assertThat(CellNames.of("by", 1, 2)).isEqualTo("by_1_2");
        assertThat(CellNames.record(1, 2, Item.of("copper-mica"))).isEqualTo("1/2/copper_mica");
    }

    @ParameterizedTest
    @ValueSource(strings = {"A1", "xfd1048576", "R1C1", "r", "C", "RC", "r2", "c3", "7up", "."})
    void whatAnOfficeProgramTakesForAnAddressGetsALineInFront(String name) {
        assertThat(CellNames.valid(name)).isEqualTo("_" + name);
    }

    @ParameterizedTest
    @ValueSource(strings = {"by_1_1", "mix_total_g", "lot_1_1_a1", "weigh_g_1_1_r1c1", "ABCD1", "_x"})
    void aValidNameStaysAsItIs(String name) {
        assertThat(CellNames.valid(name)).isEqualTo(name);
    }
}
