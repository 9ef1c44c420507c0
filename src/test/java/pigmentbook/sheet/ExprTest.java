package pigmentbook.sheet;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static pigmentbook.sheet.Expr.cell;
import static pigmentbook.sheet.Expr.num;

import java.util.List;
import org.junit.jupiter.api.Test;

class ExprTest {

    private static String written(Expr expr) {
        return expr.written(name -> name, ';');
    }

    @Test
    void bracketsStandWhereTheyChangeTheMeaningAndNowhereElse() {
        Expr a = cell("a");
        Expr b = cell("b");
        assertThat(written(a.plus(b).times(num(2)))).isEqualTo("(a+b)*2");
        assertThat(written(a.plus(b.times(num(2))))).isEqualTo("a+b*2");
        assertThat(written(a.minus(b.minus(num(1))))).isEqualTo("a-(b-1)");
        assertThat(written(a.minus(b).minus(num(1)))).isEqualTo("a-b-1");
        assertThat(written(a.over(b.times(num(0.5))))).isEqualTo("a/(b*0.5)");
        assertThat(written(new Expr.Call(Expr.Known.ROUND, List.of(a.over(b), num(2)))))
                .isEqualTo("ROUND(a/b;2)");
    }

    @Test
    void aNumberIsWrittenInFullAndNeverWithAnExponent() {
        assertThat(written(num(1e-9))).isEqualTo("0.000000001");
        assertThat(written(num(123456789))).isEqualTo("123456789");
        assertThat(written(num(0))).isEqualTo("0");
        assertThat(Double.parseDouble(written(num(2.0 / 3)))).isEqualTo(2.0 / 3);
        assertThatThrownBy(() -> num(Double.NaN)).isInstanceOf(IllegalArgumentException.class);
        assertThatThrownBy(() -> num(-1)).isInstanceOf(IllegalArgumentException.class);
    }

    @Test
    void aFormulaComesToWhatItSays() {
        Expr rounded = new Expr.Call(
                Expr.Known.ROUND,
                List.of(
                        new Expr.Call(
                                        Expr.Known.INT,
                                        List.of(cell("grams").over(num(0.01)).plus(num(0.5))))
                                .times(num(0.01)),
                        num(2)));
        assertThat(rounded.value(name -> 11.157)).isEqualTo(11.16);
        assertThat(new Expr.Call(Expr.Known.MAX, List.of(num(2), cell("x"))).value(name -> 3))
                .isEqualTo(3);
        assertThat(Expr.sum(List.of(num(1), cell("x"), num(4))).value(name -> 2))
                .isEqualTo(7);
    }
}
