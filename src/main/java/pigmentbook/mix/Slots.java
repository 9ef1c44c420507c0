package pigmentbook.mix;

import java.util.ArrayList;
import java.util.List;
import org.hipparchus.fraction.BigFraction;
import org.jspecify.annotations.Nullable;
import pigmentbook.book.Book;
import pigmentbook.book.Mold;
import pigmentbook.book.NearIds;
import pigmentbook.book.Resin;
import pigmentbook.mold.Slice;
import pigmentbook.quantity.Length;
import pigmentbook.quantity.Numbers;

/**
 * Where the layers lie, before anything is known of grams.
 *
 * @param mold the mold, or null for a request without one
 * @param roomMl the room of all molds, or null for a request by mass
 * @param slots the layers, lowest first
 */
record Slots(@Nullable Mold mold, @Nullable Double roomMl, List<Slot> slots) {

    /** More layers than this is a slip of the pen. */
    private static final int MOST_LAYERS = 1000;

    private static final double SAME_MM = 1e-6;

    /**
     * One layer's place.
     *
     * @param fromMm the height it starts at, or null
     * @param toMm the height it reaches, or null
     * @param roomMl its room in all molds, or null for a request by mass
     * @param share its share of the whole amount
     */
    record Slot(
            @Nullable Double fromMm,
            @Nullable Double toMm,
            @Nullable Double roomMl,
            double share) {}

    /**
     * Lays the layers.
     *
     * @throws MixRefusedException if the mold is unknown, holds nothing, or the layers asked for don't fit it
     */
    static Slots of(Book book, Resin resin, MixRequest request) {
        requireLayerCount(request);
        if (request.size() instanceof MixRequest.ForMold wanted) {
            return inMold(book, resin, request, wanted);
        }
        if (!request.layerDepths().isEmpty()) {
            throw new MixRefusedException(
                    "Layer depths need a mold with a depth. Name a mold, or ask for a number of layers.");
        }
        if (request.size() instanceof MixRequest.ForVolume wanted) {
            double roomMl = wanted.volume().milliliters();
            if (!(roomMl > 0)) {
                throw new MixRefusedException(
                        "A volume of \"" + wanted.volume().written() + "\" holds nothing; give one above zero.");
            }
            return new Slots(null, roomMl, equal(request, roomMl));
        }
        return new Slots(null, null, equal(request, null));
    }

    private static void requireLayerCount(MixRequest request) {
        Integer layers = request.layers();
        if (layers != null && (layers < 1 || layers > MOST_LAYERS)) {
            throw new MixRefusedException(
                    layers + " layers can't be poured; give a number from 1 to " + MOST_LAYERS + ".");
        }
        if (layers != null
                && !request.layerDepths().isEmpty()
                && layers != request.layerDepths().size()) {
            throw new MixRefusedException(layers + " layers, but "
                    + request.layerDepths().size() + " layer depths; leave one of the two out.");
        }
    }

    private static List<Slot> equal(MixRequest request, @Nullable Double roomMl) {
        int count = request.layers() == null ? 1 : request.layers();
        List<Slot> slots = new ArrayList<>(count);
        for (int i = 0; i < count; i++) {
            slots.add(new Slot(null, null, roomMl == null ? null : (Double) (roomMl / count), 1.0 / count));
        }
        return slots;
    }

    private static Slots inMold(Book book, Resin resin, MixRequest request, MixRequest.ForMold wanted) {
        Mold mold = book.molds().get(wanted.moldId());
        if (mold == null) {
            throw new MixRefusedException("There is no mold \"" + wanted.moldId() + "\" in the book."
                    + NearIds.hint(wanted.moldId(), book.molds().keySet()));
        }
        Length depth = mold.cavity().shape().depth();
        if (depth == null) {
            if (wanted.fill() != null) {
                throw new MixRefusedException("The mold " + mold.id()
                        + " is known by its volume alone, so it has no fill height. Leave the fill out.");
            }
            if (!request.layerDepths().isEmpty()) {
                throw new MixRefusedException("The mold " + mold.id()
                        + " is known by its volume alone, so its layers have no depths. Ask for a number of layers.");
            }
            double roomMl = mold.cavity().whole().roomMl() * mold.count();
            requireRoom(mold, roomMl);
            return new Slots(mold, roomMl, equal(request, roomMl));
        }
        Length own = mold.cavity().fillOrDepth();
        Length fill = wanted.fill() != null ? wanted.fill() : own == null ? depth : own;
        requireFill(mold, fill, depth);
        List<BigFraction> tops = tops(resin, request, fill);
        double roomMl = room(mold, 0, fill.mm());
        requireRoom(mold, roomMl);
        List<Slot> slots = new ArrayList<>(tops.size());
        double from = 0;
        for (int i = 0; i < tops.size(); i++) {
            double to = i == tops.size() - 1 ? fill.mm() : tops.get(i).doubleValue();
            double slice = tops.size() == 1 ? roomMl : room(mold, from, to);
            if (!(slice > 0)) {
                throw new MixRefusedException("Layer " + (i + 1) + " of the mold " + mold.id() + " ("
                        + Shown.mm(from) + " to " + Shown.mm(to)
                        + ") has no room for resin; the inserts fill it. Change the layers or the inserts.");
            }
            slots.add(new Slot(from, to, slice, slice / roomMl));
            from = to;
        }
        return new Slots(mold, roomMl, slots);
    }

    private static double room(Mold mold, double fromMm, double toMm) {
        Slice slice = mold.cavity().between(fromMm, toMm);
        return slice.roomMl() * mold.count();
    }

    private static void requireFill(Mold mold, Length fill, Length depth) {
        if (fill.exactMm().signum() <= 0) {
            throw new MixRefusedException("A fill of \"" + fill.written() + "\" leaves the mold " + mold.id()
                    + " empty; give a height above zero.");
        }
        if (fill.exactMm().compareTo(depth.exactMm()) > 0) {
            throw new MixRefusedException("A fill of \"" + fill.written() + "\" is above the mold " + mold.id()
                    + ", which is \"" + depth.written() + "\" deep. Give a height up to that.");
        }
    }

    private static void requireRoom(Mold mold, double roomMl) {
        if (!(roomMl > 0)) {
            throw new MixRefusedException("The mold " + mold.id() + " has no room for resin: "
                    + (roomMl < 0 ? "its inserts displace more than it holds" : "it holds nothing")
                    + ". Check its sizes and inserts.");
        }
    }

    /** Returns the height of each layer's top: as asked, else the fewest equal depths not above the resin's most. */
    private static List<BigFraction> tops(Resin resin, MixRequest request, Length fill) {
        List<BigFraction> tops = new ArrayList<>();
        if (!request.layerDepths().isEmpty()) {
            BigFraction top = BigFraction.ZERO;
            for (Length depth : request.layerDepths()) {
                if (depth.exactMm().signum() <= 0) {
                    throw new MixRefusedException(
                            "A layer of \"" + depth.written() + "\" is no layer; give depths above zero.");
                }
                top = top.add(depth.exactMm());
                tops.add(top);
            }
            if (Math.abs(top.subtract(fill.exactMm()).doubleValue()) > SAME_MM) {
                throw new MixRefusedException("The layer depths add up to " + Numbers.plain(top.doubleValue())
                        + " mm, but the fill is \"" + fill.written() + "\" (" + Numbers.plain(fill.mm())
                        + " mm). Change one of them.");
            }
            return tops;
        }
        int count = request.layers() == null ? fewest(resin, fill) : request.layers();
        for (int i = 1; i <= count; i++) {
            tops.add(fill.exactMm().multiply(i).divide(count));
        }
        return tops;
    }

    private static int fewest(Resin resin, Length fill) {
        Length most = resin.layer().most();
        if (most == null || most.exactMm().signum() <= 0) {
            return 1;
        }
        BigFraction layers = fill.exactMm().divide(most.exactMm());
        java.math.BigInteger[] whole = layers.getNumerator().divideAndRemainder(layers.getDenominator());
        long count = (whole[0].bitLength() > 32 ? Integer.MAX_VALUE : whole[0].longValue()) + whole[1].signum();
        if (count > MOST_LAYERS) {
            throw new MixRefusedException("A fill of \"" + fill.written() + "\" by the resin's most of \""
                    + most.written() + "\" a layer takes " + count + " layers; " + MOST_LAYERS
                    + " is the most. Check both figures.");
        }
        return (int) count;
    }
}
