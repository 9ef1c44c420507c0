package pigmentbook.web;

import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.JsonNodeFactory;
import com.fasterxml.jackson.databind.node.ObjectNode;
import io.javalin.config.JavalinConfig;
import io.javalin.http.Context;
import java.time.Clock;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import pigmentbook.book.Book;
import pigmentbook.book.Lot;
import pigmentbook.colour.ColourText;
import pigmentbook.colour.Lab;
import pigmentbook.mix.LetDown;
import pigmentbook.mix.PutTogether;
import pigmentbook.mix.StockTrail;
import pigmentbook.quantity.BadAmountException;
import pigmentbook.quantity.Mass;
import pigmentbook.quantity.Numbers;
import pigmentbook.store.BookUnavailableException;
import pigmentbook.store.BookWriter;
import pigmentbook.store.ConflictException;
import pigmentbook.store.Kind;
import pigmentbook.store.SaveFailedException;

/** A lot: how its stock came about, where it went, and what is done to it. */
public final class LotPage {

    private static final int MOST_TEXT = 300;

    private LotPage() {}

    /** A step of the trail. */
    public record Step(String date, String pour, String what, String change, String left) {}

    /** What a lot was put together from. */
    public record Part(String lot, String mass) {}

    static void addTo(JavalinConfig config, LiveBook book, Clock clock) {
        config.routes.get(
                "/shelf/lots/{id}", context -> show(context, book.now().book(), LocalDate.now(clock)));
        post(config, book, "correct", (context, lot) -> correct(context, book, lot, LocalDate.now(clock)));
        post(
                config,
                book,
                "opened",
                (context, lot) -> set(book, lot, "opened", LocalDate.now(clock).toString()));
        post(config, book, "strength", (context, lot) -> strength(context, book, lot));
        post(config, book, "drops", (context, lot) -> drops(context, book, lot));
        post(config, book, "intermix", (context, lot) -> intermix(context, book, lot, LocalDate.now(clock)));
    }

    /** Something done to a lot by a form. */
    private interface FormAct {
        void run(Context context, Lot lot) throws SaveFailedException, ConflictException;
    }

    private static void post(JavalinConfig config, LiveBook live, String name, FormAct act) {
        config.routes.post("/shelf/lots/{id}/" + name, context -> Acts.done(context, () -> done(live, context, act)));
    }

    private static Lot lot(Book book, String id) {
        Lot lot = book.lots().get(id);
        if (lot == null) {
            throw new NotThereException("There is no such lot on the shelf.");
        }
        return lot;
    }

    private static String done(LiveBook live, Context context, FormAct act)
            throws SaveFailedException, ConflictException, BookUnavailableException {
        Lot lot = lot(live.reread().book(), context.pathParam("id"));
        act.run(context, lot);
        live.reread();
        return "/shelf/lots/" + lot.id();
    }

    private static void show(Context context, Book book, LocalDate today) {
        Lot lot = lot(book, context.pathParam("id"));
        Book.Stock stock = book.stockOf(lot);
        List<Step> trail = new ArrayList<>();
        for (StockTrail.Step step : StockTrail.of(book, lot)) {
            trail.add(new Step(
                    step.date() == null ? "not noted" : step.date().toString(),
                    step.pourId() == null ? "" : step.pourId(),
                    step.what(),
                    (step.changeGrams() > 0 ? "+" : "") + Figures.of(step.changeGrams(), 2),
                    Figures.of(step.leftGrams(), 2)));
        }
        Map<String, Object> values = new HashMap<>();
        values.put("id", lot.id());
        values.put("of", lot.of() + (lot.part() == null ? "" : ", part " + lot.part()));
        values.put("pigment", lot.part() == null);
        values.put(
                "expires",
                lot.expires() == null
                        ? "no date stated"
                        : (lot.isGoodOn(today) ? "good through " : "past its date: ") + lot.expires());
        values.put("opened", lot.opened() == null ? "" : lot.opened().toString());
        values.put("left", Figures.of(stock.leftGrams(), 2));
        values.put("came", Figures.of(stock.receivedGrams(), 2));
        values.put("poured", Figures.of(stock.pouredGrams(), 2));
        values.put("corrected", Figures.of(stock.correctedGrams(), 2));
        values.put("strength", lot.strengthWritten());
        values.put("dropMass", lot.dropMass() == null ? "" : lot.dropMass().written());
        values.put("trail", trail);
        Book.Whereabouts whereabouts = book.whereUsed(lot);
        values.put("recipes", whereabouts.recipeIds());
        values.put("heldBy", whereabouts.lotIds());
        values.put(
                "shares",
                lot.shares().stream()
                        .map(share -> new Part(share.lotId(), share.mass().written()))
                        .toList());
        values.put(
                "others",
                book.lots().values().stream()
                        .filter(other -> other.of().equals(lot.of())
                                && java.util.Objects.equals(other.part(), lot.part())
                                && !other.id().equals(lot.id()))
                        .map(Lot::id)
                        .toList());
        Pages.show(context, "lot.jte", values);
    }

    private static String text(Context context, String name) {
        return Acts.text(context, name, MOST_TEXT);
    }

    private static Mass grams(String what, String text) {
        try {
            return Mass.parse(Formula.withUnit(text, "g"));
        } catch (BadAmountException e) {
            throw new BadAmountException(what + ": " + e.getMessage());
        }
    }

    /** What the scale shows is left decides; or a change is typed with its sign. */
    private static void correct(Context context, LiveBook live, Lot lot, LocalDate today) throws SaveFailedException {
        String why = text(context, "why");
        if (why.isEmpty()) {
            throw new SaveFailedException("Say why: spilled, weighed, used up. Nothing was changed.");
        }
        String left = text(context, "left");
        String change = text(context, "change");
        if (left.isEmpty() == change.isEmpty()) {
            throw new SaveFailedException("Type what is left now, or by how much it changed; one of the two.");
        }
        Mass by = change.isEmpty()
                ? Mass.ofGrams(Math.rint((grams("Left now", left).grams() - leftGrams(live, lot)) * 1e3) / 1e3)
                : Mass.parseChange(
                        change.startsWith("-") || change.startsWith("+")
                                ? change.charAt(0)
                                        + Formula.withUnit(change.substring(1).strip(), "g")
                                : Formula.withUnit(change, "g"));
        addCorrection(live, lot.id(), by, why, today);
    }

    private static double leftGrams(LiveBook live, Lot lot) {
        return live.now().book().leftGrams(lot);
    }

    private static void addCorrection(LiveBook live, String lotId, Mass by, String why, LocalDate today)
            throws SaveFailedException {
        live.writer().change(Kind.LOT, lotId, record -> corrected(record, by, why, today));
    }

    private static ObjectNode corrected(ObjectNode record, Mass by, String why, LocalDate today) {
        ArrayNode corrections =
                record.get("corrections") instanceof ArrayNode there ? there : record.putArray("corrections");
        corrections
                .addObject()
                .put("date", today.toString())
                .put("change", by.written())
                .put("why", why);
        return record;
    }

    private static void set(LiveBook live, Lot lot, String field, String value) throws SaveFailedException {
        live.writer().change(Kind.LOT, lot.id(), record -> record.put(field, value));
    }

    private static void strength(Context context, LiveBook live, Lot lot) throws SaveFailedException {
        Lab reference = ColourText.parse(text(context, "reference"));
        Lab own = ColourText.parse(text(context, "own"));
        double factor = LetDown.strength(reference, own);
        set(live, lot, "strength", Numbers.fixed(factor * 100, 1) + " %");
    }

    private static void drops(Context context, LiveBook live, Lot lot) throws SaveFailedException {
        String count = text(context, "count");
        if (!count.matches("[1-9][0-9]{0,3}")) {
            throw new SaveFailedException("Type how many drops were weighed: 20 or more give a good figure.");
        }
        double grams = grams("They weigh", text(context, "weigh")).grams() / Integer.parseInt(count);
        if (!(grams > 0)) {
            throw new SaveFailedException("Drops weigh something; type what the scale shows for all of them.");
        }
        set(live, lot, "dropMass", Numbers.plain(Math.rint(grams * 1e5) / 1e5) + " g");
    }

    private static void intermix(Context context, LiveBook live, Lot lot, LocalDate today)
            throws SaveFailedException, ConflictException {
        Lot.Share own = new Lot.Share(lot.id(), grams("Of this lot", text(context, "own")));
        Lot.Share more = new Lot.Share(text(context, "other"), grams("Of the other lot", text(context, "more")));
        String id = text(context, "into");
        ObjectNode record = written(PutTogether.of(live.now().book(), id, today, own, more));
        live.writer()
                .together(List.of(
                        new BookWriter.Part(Kind.LOT, id, true, none -> record),
                        taken(own, id, today),
                        taken(more, id, today)));
    }

    private static ObjectNode written(Lot lot) {
        ObjectNode record = JsonNodeFactory.instance.objectNode();
        record.put("id", lot.id()).put("of", lot.of());
        if (lot.part() != null) {
            record.put("part", lot.part().name());
        }
        record.put("code", lot.code()).put("received", text(lot.received())).put("expires", text(lot.expires()));
        record.put("quantity", lot.quantity().written());
        if (lot.price() != null) {
            record.putObject("price")
                    .put("amount", lot.price().amount().toPlainString())
                    .put("currency", lot.price().currency());
        }
        record.put("density", lot.density() == null ? null : lot.density().written());
        record.put("strength", lot.strength() == null ? null : lot.strength().written());
        ArrayNode shares = record.putArray("shares");
        for (Lot.Share share : lot.shares()) {
            shares.addObject()
                    .put("lot", share.lotId())
                    .put("mass", share.mass().written());
        }
        return record;
    }

    private static @Nullable String text(@Nullable LocalDate date) {
        return date == null ? null : date.toString();
    }

    private static BookWriter.Part taken(Lot.Share share, String into, LocalDate today) {
        Mass by = Mass.parseChange("-" + Numbers.plain(share.mass().grams()) + " g");
        return new BookWriter.Part(
                Kind.LOT, share.lotId(), false, now -> corrected(now, by, "put into " + into, today));
    }
}
