package pigmentbook.sheet;

import static org.assertj.core.api.Assertions.assertThat;

import java.math.BigDecimal;
import java.util.Random;
import org.junit.jupiter.api.Test;
import pigmentbook.quantity.Numbers;

/** A number that is plain as it stands is not worked out anew; the two ways always say the same. */
class PlainNumbersTest {

    private static void same(String written) {
        double value = Double.parseDouble(written);
        assertThat(XlsxReader.plain(written, value)).as(written).isEqualTo(Numbers.plain(value));
    }

    @Test
    void bothWaysSayTheSame() {
        for (String each : new String[] {
            "0",
            "0.0",
            "00",
            "007",
            "0.50",
            "0.5",
            ".5",
            "5.",
            "1e3",
            "1E-7",
            "-0",
            "-0.0",
            "-3.25",
            "+4",
            "10",
            "100",
            "1.0",
            "12.5",
            "999999999999999",
            "1234567890123456",
            "0.00000000000001",
            "9007199254740993",
            "1d",
            "1.5f"
        }) {
            same(each);
        }
        Random random = new Random(1);
        for (int i = 0; i < 100_000; i++) {
            same(new BigDecimal(random.nextLong(1_000_000_000_000_000L))
                    .movePointLeft(random.nextInt(16))
                    .toPlainString());
        }
    }
}
