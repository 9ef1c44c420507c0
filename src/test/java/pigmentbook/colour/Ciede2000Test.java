package pigmentbook.colour;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvFileSource;

/** The 34 pairs of Sharma, Wu, Dalal 2005, table 1, both ways; pairs 10 and 14 lie on a branch cut. */
class Ciede2000Test {

    private static final double PRINTED = 0.000_051;

    @ParameterizedTest(name = "pair {0}")
    @CsvFileSource(resources = "/colour/ciede2000_sharma2005.csv", useHeadersInDisplayName = true)
    void matchesSharmaWuDalal2005Table1(
            int pair, double l1, double a1, double b1, double l2, double a2, double b2, double table, double computed) {
        Lab first = new Lab(l1, a1, b1);
        Lab second = new Lab(l2, a2, b2);
        assertThat(Ciede2000.between(first, second)).isCloseTo(table, within(PRINTED));
        assertThat(Ciede2000.between(second, first)).isCloseTo(table, within(PRINTED));
        assertThat(Ciede2000.between(first, second)).isCloseTo(computed, within(1e-9));
        assertThat(Ciede2000.between(first, first)).isZero();
    }
}
