package pigmentbook.web;

import io.javalin.config.JavalinConfig;
import io.javalin.http.Context;
import java.time.Clock;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import pigmentbook.book.Book;
import pigmentbook.book.Lot;
import pigmentbook.book.MixRatio;
import pigmentbook.book.Pigment;
import pigmentbook.book.Resin;
import pigmentbook.quantity.Amount;

/** The shelf: lots with what is left of them, resins and pigments as their data sheets say. */
public final class ShelfPage {

    private static final double NEARLY_EMPTY = 0.1;

    private ShelfPage() {}

    /** One lot. */
    public record LotRow(
            String id,
            String of,
            String received,
            String opened,
            String good,
            String came,
            String left,
            double share,
            String word) {}

    /** One resin. */
    public record ResinRow(
            String name, String ratio, String layer, String batch, String working, String recoat, String cure) {}

    /** One pigment. */
    public record PigmentRow(String name, String kind, String density, String top, String carrier) {}

    static void addTo(JavalinConfig config, LiveBook book, Clock clock) {
        config.routes.get("/shelf", context -> show(context, book.now().book(), LocalDate.now(clock)));
    }

    private static void show(Context context, Book book, LocalDate today) {
        List<LotRow> lots = new ArrayList<>();
        int wanting = 0;
        for (Lot lot : book.lots().values()) {
            LotRow row = lot(book, lot, today);
            wanting += row.word().isEmpty() ? 0 : 1;
            lots.add(row);
        }
        Map<String, Object> values = new HashMap<>();
        values.put("lots", lots);
        values.put("wanting", wanting);
        values.put(
                "resins", book.resins().values().stream().map(ShelfPage::resin).toList());
        values.put(
                "pigments",
                book.pigments().values().stream().map(ShelfPage::pigment).toList());
        Pages.show(context, "shelf.jte", values);
    }

    private static LotRow lot(Book book, Lot lot, LocalDate today) {
        double left = book.leftGrams(lot);
        double share = lot.quantity().grams() > 0 ? left / lot.quantity().grams() : 0;
        String word = !lot.isGoodOn(today) ? "past its date" : share < NEARLY_EMPTY ? "nearly empty" : "";
        Resin resin = book.resins().get(lot.of());
        Pigment pigment = book.pigments().get(lot.of());
        String of = resin != null ? resin.name() : pigment != null ? pigment.name() : lot.of();
        return new LotRow(
                lot.id(),
                of + (lot.part() == null ? "" : ", part " + lot.part()),
                lot.received() == null ? "" : lot.received().toString(),
                lot.opened() == null ? "not yet" : lot.opened().toString(),
                lot.expires() == null ? "none" : lot.expires().toString(),
                Figures.of(lot.quantity().grams(), 1),
                Figures.of(left, 1),
                Math.round(Math.max(0, Math.min(1, share)) * 1000) / 10.0,
                word);
    }

    private static String written(@org.jspecify.annotations.Nullable Amount amount) {
        return amount == null ? "" : amount.written();
    }

    private static String range(pigmentbook.book.Range<? extends Amount> range) {
        String least = written(range.least());
        String most = written(range.most());
        return least.isEmpty() && most.isEmpty()
                ? ""
                : least.isEmpty() ? "up to " + most : most.isEmpty() ? "from " + least : least + " to " + most;
    }

    private static ResinRow resin(Resin resin) {
        MixRatio ratio = resin.ratio();
        return new ResinRow(
                resin.name(),
                ratio == null
                        ? "not stated"
                        : ratio.ratio().written() + (ratio.by() == MixRatio.By.WEIGHT ? " by weight" : " by volume"),
                range(resin.layer()),
                written(resin.batchMost()),
                written(resin.workingTime())
                        + (resin.workingTimeAt() == null
                                ? ""
                                : " at " + resin.workingTimeAt().written()),
                range(resin.recoat()),
                written(resin.fullCure()));
    }

    private static PigmentRow pigment(Pigment pigment) {
        Pigment.Carrier carrier = pigment.carrier();
        return new PigmentRow(
                pigment.name(),
                pigment.kind().name().toLowerCase(Locale.ROOT),
                written(pigment.density()),
                written(pigment.topLoading()),
                carrier == null
                        ? "none"
                        : carrier.share().written() + (carrier.isPartA() ? " part A" : " that does not cure"));
    }
}
