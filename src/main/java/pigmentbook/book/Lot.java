package pigmentbook.book;

import java.time.LocalDate;
import java.util.List;
import org.jspecify.annotations.Nullable;
import pigmentbook.quantity.Density;
import pigmentbook.quantity.Mass;
import pigmentbook.quantity.Money;
import pigmentbook.quantity.Percent;

/**
 * One received container or batch.
 *
 * @param id the file's name
 * @param of the resin's or the pigment's id
 * @param part part A or part B of a resin; null for a pigment
 * @param code the supplier's own lot number
 * @param received the day it came, or null
 * @param opened the day it was opened, or null
 * @param expires the last day it is good, or null
 * @param quantity how much came
 * @param price what that cost, or null
 * @param density overrides the product's, or null
 * @param strength how strong it is beside the reference lot; null stands for 100 %
 * @param dropMass overrides the product's, or null
 * @param corrections changes of stock that no pour explains
 * @param shares what it was put together from; empty for a lot that came as it is
 */
public record Lot(
        String id,
        String of,
        @Nullable Part part,
        String code,
        @Nullable LocalDate received,
        @Nullable LocalDate opened,
        @Nullable LocalDate expires,
        Mass quantity,
        @Nullable Money price,
        @Nullable Density density,
        @Nullable Percent strength,
        @Nullable Mass dropMass,
        List<Correction> corrections,
        List<Share> shares) {

    public Lot {
        if (strength != null && strength.percent() <= 0) {
            throw new IllegalArgumentException("A strength of " + strength.written()
                    + " must be above 0 %; 100 % is as strong as the reference lot.");
        }
    }

    /** Part A or part B. */
    public enum Part {
        A,
        B
    }

    /**
     * A change of stock that no pour explains.
     *
     * @param date the day, or null
     * @param change the change, negative when something is gone
     * @param why why
     */
    public record Correction(@Nullable LocalDate date, Mass change, String why) {}

    /**
     * A part of a lot that was put together from others.
     *
     * @param lotId the lot it was taken from
     * @param mass how much of it
     */
    public record Share(String lotId, Mass mass) {}

    /** Returns whether it is still good on a day: through its last day, for ever without one. */
    public boolean isGoodOn(LocalDate day) {
        return expires == null || !day.isAfter(expires);
    }

    /** Returns the strength as a factor: 1 for 100 %. */
    public double strengthFactor() {
        return strength == null ? 1 : strength.fraction();
    }

    /** Returns the strength as it stands in the book, 100 % where none does. */
    public String strengthWritten() {
        return strength == null ? "100 %" : strength.written();
    }

    /** Returns the item this lot is used for. */
    public Item item() {
        return part == null ? Item.of(of) : part == Part.A ? Item.PART_A : Item.PART_B;
    }
}
