package pigmentbook.mix;

import org.jspecify.annotations.Nullable;
import pigmentbook.book.Book;
import pigmentbook.book.Mold;
import pigmentbook.book.Pour;
import pigmentbook.book.Resin;
import pigmentbook.mold.Cavity;
import pigmentbook.quantity.Area;
import pigmentbook.quantity.Coverage;
import pigmentbook.quantity.Length;
import pigmentbook.quantity.Mass;

/**
 * A mold's room as a pour measured it: what was poured, less what was left in the cups and what bare wood drank, up to
 * the level it reached, and from there to the mold's own fill in proportion to the room worked out.
 *
 * @param ml one mold's room at its own fill, inserts in place, in mL
 * @param workedOutMl the same as the shape has it, in mL
 */
public record MeasuredRoom(double ml, double workedOutMl) {

    private static final double MM2_PER_M2 = 1e6;

    /**
     * Works it out.
     *
     * @param level the height reached above the mold's floor
     * @return the room, or null where mold, level, densities or weights don't tell it
     */
    public static @Nullable MeasuredRoom of(Book book, Pour pour, Length level) {
        Mold mold = pour.moldId() == null ? null : book.molds().get(pour.moldId());
        if (mold == null || mold.cavity().shape().depth() == null) {
            return null;
        }
        try {
            AsPoured asPoured = AsPoured.of(book, pour, null);
            Resin resin = book.resins().get(asPoured.revision().resinId());
            return resin == null
                    ? null
                    : of(mold, level.mm(), pour, resin, asPoured, asPoured.proportions(book, resin));
        } catch (MixRefusedException e) {
            return null;
        }
    }

    private static @Nullable MeasuredRoom of(
            Mold mold, double levelMm, Pour pour, Resin resin, AsPoured asPoured, Proportions proportions) {
        double grams = WasAndWill.weighedGrams(pour);
        Mass left = pour.left();
        double inMold = left == null ? 1 : Math.max(0, 1 - left.grams() / grams);
        double resinGrams = (asPoured.partAGrams() + asPoured.partBGrams()) * inMold;
        double shrinkage = resin.shrinkage() == null ? 0 : resin.shrinkage().fraction();
        double poured = resinGrams * proportions.mlPerGram(resin) / mold.count()
                - soakMl(mold, resin, proportions.mixedDensity());
        Cavity shape = mold.cavity().unmeasured();
        Length depth = shape.shape().depth();
        Length fill = shape.fillOrDepth();
        if (fill == null || !(levelMm > 0) || (depth != null && levelMm > depth.mm() * (1 + 1e-9)) || !(poured > 0)) {
            return null;
        }
        double atLevel = shape.between(0, levelMm).roomMl();
        double atFill = shape.between(0, fill.mm()).roomMl();
        return atLevel > 0 ? new MeasuredRoom(poured * (1 - shrinkage) * atFill / atLevel, atFill) : null;
    }

    private static double soakMl(Mold mold, Resin resin, @Nullable Double gramsPerMl) {
        Area wood = mold.bareWood();
        Coverage soak = resin.soak();
        return wood == null || soak == null || gramsPerMl == null
                ? 0
                : wood.mm2() / MM2_PER_M2 * soak.gramsPerM2() / gramsPerMl;
    }

    /** Returns how much larger the measured room is than the one worked out, as a fraction. */
    public double error() {
        return ml / workedOutMl - 1;
    }
}
