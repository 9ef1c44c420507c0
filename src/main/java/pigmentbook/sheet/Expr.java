package pigmentbook.sheet;

import java.util.List;
import java.util.function.Function;
import java.util.function.ToDoubleFunction;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import pigmentbook.quantity.Numbers;

/** A formula over named cells, written once: evaluated in Java and drawn by each writer in its own spelling. */
public sealed interface Expr {

    /**
     * Returns what it comes to.
     *
     * @param cells the value of each named cell
     */
    double value(ToDoubleFunction<String> cells);

    /**
     * Returns it as a sheet's formula, without the sign that begins one.
     *
     * @param cells how the format refers to a named cell
     * @param separator what stands between the arguments of a function
     */
    String written(Function<String, String> cells, char separator);

    /** Returns this + other. */
    default Expr plus(Expr other) {
        return new Op('+', this, other);
    }

    /** Returns this − other. */
    default Expr minus(Expr other) {
        return new Op('-', this, other);
    }

    /** Returns this × other. */
    default Expr times(Expr other) {
        return new Op('*', this, other);
    }

    /** Returns this / other. */
    default Expr over(Expr other) {
        return new Op('/', this, other);
    }

    /** Returns a number. */
    static Expr num(double value) {
        return new Num(value);
    }

    /** Returns a named cell. */
    static Expr cell(String name) {
        return new Ref(name);
    }

    /**
     * A number in full precision.
     *
     * @param value the number, 0 or more
     */
    record Num(double value) implements Expr {
        public Num {
            if (!(value >= 0) || Double.isInfinite(value)) {
                throw new IllegalArgumentException(value + " can't stand in a formula.");
            }
        }

        @Override
        public double value(ToDoubleFunction<String> cells) {
            return value;
        }

        @Override
        public String written(Function<String, String> cells, char separator) {
            // Between these a double's own text is a plain decimal, and quick to make.
            boolean small = value >= 1e-3 && value < 1e7;
            String text = small ? Double.toString(value) : Numbers.plain(value);
            return text.endsWith(".0") ? text.substring(0, text.length() - 2) : text;
        }
    }

    /**
     * A named cell.
     *
     * @param name its name
     */
    record Ref(String name) implements Expr {
        @Override
        public double value(ToDoubleFunction<String> cells) {
            return cells.applyAsDouble(name);
        }

        @Override
        public String written(Function<String, String> cells, char separator) {
            return cells.apply(name);
        }
    }

    /**
     * Two expressions and the sign between them.
     *
     * @param sign {@code + - * /}
     * @param left the first
     * @param right the second
     */
    record Op(char sign, Expr left, Expr right) implements Expr {
        @Override
        public double value(ToDoubleFunction<String> cells) {
            double a = left.value(cells);
            double b = right.value(cells);
            return switch (sign) {
                case '+' -> a + b;
                case '-' -> a - b;
                case '*' -> a * b;
                case '/' -> a / b;
                default -> throw new IllegalStateException("no such sign: " + sign);
            };
        }

        @Override
        public String written(Function<String, String> cells, char separator) {
            return inner(left, cells, separator, false) + sign + inner(right, cells, separator, true);
        }

        private String inner(Expr side, Function<String, String> cells, char separator, boolean isRight) {
            String text = side.written(cells, separator);
            boolean bracket =
                    side instanceof Op op && (rank(op.sign) < rank(sign) || (isRight && rank(op.sign) == rank(sign)));
            return bracket ? "(" + text + ")" : text;
        }

        private static int rank(char sign) {
            return sign == '+' || sign == '-' ? 1 : 2;
        }
    }

    /** The functions that every office program has, and that mean the same in each. */
    enum Known {
        /** The greatest of its arguments. */
        MAX,
        /** Rounded to so many decimals, halves away from zero. */
        ROUND,
        /** The whole number not above. */
        INT
    }

    /**
     * A function of its arguments.
     *
     * @param function which one
     * @param arguments its arguments
     */
    record Call(Known function, List<Expr> arguments) implements Expr {
        @Override
        public double value(ToDoubleFunction<String> cells) {
            double first = arguments.get(0).value(cells);
            return switch (function) {
                case MAX -> Math.max(first, arguments.get(1).value(cells));
                case ROUND ->
                    Double.parseDouble(
                            Numbers.fixed(first, (int) arguments.get(1).value(cells)));
                case INT -> StrictMath.floor(first);
            };
        }

        @Override
        public String written(Function<String, String> cells, char separator) {
            return arguments.stream()
                    .map(each -> each.written(cells, separator))
                    .collect(Collectors.joining(String.valueOf(separator), function + "(", ")"));
        }
    }

    /** Returns the sum of some expressions, in order. */
    static Expr sum(List<Expr> parts) {
        return IntStream.range(1, parts.size())
                .boxed()
                .reduce(parts.get(0), (sum, i) -> sum.plus(parts.get(i)), (a, b) -> b);
    }
}
