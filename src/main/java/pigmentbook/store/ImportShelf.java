package pigmentbook.store;

import com.fasterxml.jackson.databind.node.ObjectNode;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;
import pigmentbook.book.MixRatio;
import pigmentbook.book.Resin;

/** Makes pigments, resins and lots of a table's rows. */
final class ImportShelf {

    private static final Pattern PART = Pattern.compile("(.*?)[\\s,(/-]*\\bpart ([ab])\\)?", Pattern.CASE_INSENSITIVE);
    private static final Pattern PRICE = Pattern.compile("([^\\d\\s.,-]*)\\s*([\\d.,]+)\\s*([^\\d\\s.,-]*)");
    private static final Map<String, String> SIGNS = Map.of("€", "EUR", "£", "GBP", "", "");

    private static final Pattern RATIO = Pattern.compile(
            "([\\d.,]+)\\s*(?::|to)\\s*([\\d.,]+)(?:,?\\s*by\\s+(weight|volume))?", Pattern.CASE_INSENSITIVE);

    /** Where what a data sheet says is kept; its ratios apart. */
    private static final Map<String, Meaning> RESIN = resin();

    private final ImportRun run;
    private final ImportTable table;

    ImportShelf(ImportRun run, ImportTable table) {
        this.run = run;
        this.table = table;
    }

    private static Map<String, Meaning> resin() {
        Map<String, Meaning> resin = new LinkedHashMap<>();
        resin.put("/densityA", Meaning.DENSITY_A);
        resin.put("/densityB", Meaning.DENSITY_B);
        resin.put("/density", Meaning.DENSITY);
        resin.put("/layer/least", Meaning.LAYER_LEAST);
        resin.put("/layer/most", Meaning.LAYER_MOST);
        resin.put("/batchMost", Meaning.BATCH_MOST);
        resin.put("/workingTime", Meaning.WORKING_TIME);
        resin.put("/workingTimeAt", Meaning.WORKING_TIME_AT);
        resin.put("/workingTimeMass", Meaning.WORKING_TIME_MASS);
        resin.put("/recoat/from", Meaning.RECOAT_FROM);
        resin.put("/recoat/to", Meaning.RECOAT_TO);
        resin.put("/demold", Meaning.DEMOLD);
        resin.put("/fullCure", Meaning.FULL_CURE);
        resin.put("/temperature/least", Meaning.ROOM_LEAST);
        resin.put("/temperature/most", Meaning.ROOM_MOST);
        resin.put("/humidityMost", Meaning.HUMIDITY_MOST);
        resin.put("/topLoading", Meaning.TOP_LOADING);
        resin.put("/shrinkage", Meaning.SHRINKAGE);
        resin.put("/soak", Meaning.SOAK);
        resin.put("/notes", Meaning.NOTES);
        return resin;
    }

    /** The fields that a row states, each with the column it comes from. */
    private final class Stated {
        private final Table.Row row;
        private final Map<String, String> texts = new LinkedHashMap<>();
        private final Map<String, Meaning> meanings = new LinkedHashMap<>();
        private boolean wrong;

        Stated(Table.Row row) {
            this.row = row;
        }

        /** Notes a cell's text where it has one that means something. */
        void take(String path, Meaning meaning) {
            String text = table.text(row, meaning);
            if (!text.isEmpty()) {
                put(path, meaning, meaning, text);
            }
        }

        void put(String path, Meaning column, Meaning meaning, String text) {
            try {
                Object value = meaning.value(text);
                texts.put(path, value instanceof java.time.LocalDate day ? day.toString() : text);
                meanings.put(path, meaning);
            } catch (IllegalArgumentException e) {
                aside(column, String.valueOf(e.getMessage()));
            }
        }

        void aside(@Nullable Meaning column, String why) {
            wrong = true;
            run.aside(table, row, column, why);
        }

        /** Hands the record on: as a new one, the same, or with what differs. */
        void keep(Kind kind, String id) {
            if (wrong) {
                return;
            }
            if (!run.isFirst(kind, id)) {
                aside(null, "The " + kind.word() + " " + id + " stands further up already. Keep one of the two rows.");
                return;
            }
            try {
                ImportRun.ImportRecord old = run.stored(kind, id);
                if (old == null) {
                    ObjectNode record = ImportRun.object().put("id", id);
                    texts.forEach((path, text) -> ImportRun.set(record, path, text));
                    run.fresh(kind, id, record);
                } else {
                    compare(kind, id, old);
                }
                if (kind != Kind.LOT) {
                    (kind == Kind.PIGMENT ? run.pigments : run.resins).add(id, texts.getOrDefault("/name", id));
                }
            } catch (RefusedException e) {
                aside(null, String.valueOf(e.getMessage()));
            }
        }

        private void compare(Kind kind, String id, ImportRun.ImportRecord old) throws RefusedException {
            List<Import.Change> changes = new ArrayList<>();
            ObjectNode record = old.record.deepCopy();
            texts.forEach((path, text) -> {
                String was = Edits.text(old.record.at(path)).strip();
                Meaning meaning = meanings.getOrDefault(path, Meaning.NOTES);
                if (!means(meaning, was, text)) {
                    changes.add(new Import.Change(path.substring(1).replace('/', '.'), was, text));
                    ImportRun.set(record, path, text);
                }
            });
            if (changes.isEmpty()) {
                run.same(old.file);
            } else {
                run.changed(kind, id, old, record, changes, true);
            }
        }
    }

    private static boolean means(Meaning meaning, String was, String is) {
        if (was.equals(is)) {
            return true;
        }
        try {
            return !was.isEmpty() && meaning.value(was).equals(meaning.value(is));
        } catch (IllegalArgumentException e) {
            return false;
        }
    }

    void pigments() {
        Meaning named = table.firstOf(Meaning.PIGMENT, Meaning.NAME, Meaning.RECIPE, Meaning.ID);
        for (Table.Row row : table.rows()) {
            Named one = named(row, named, Kind.PIGMENT, run.pigments);
            if (one == null) {
                continue;
            }
            Stated stated = one.stated();
            stated.take("/kind", Meaning.KIND);
            stated.take("/density", Meaning.DENSITY);
            stated.take("/topLoading", Meaning.TOP_LOADING);
            stated.take("/dropMass", Meaning.DROP_MASS);
            carrier(stated);
            stated.take("/notes", Meaning.NOTES);
            stated.keep(Kind.PIGMENT, one.id());
        }
    }

    /** A row that names a product: its id, and what else it states. */
    private record Named(String id, Stated stated) {}

    private @Nullable Named named(Table.Row row, Meaning named, Kind kind, ImportRun.Names names) {
        String name = table.text(row, named);
        String id = table.text(row, Meaning.ID);
        if (name.isEmpty() && id.isEmpty()) {
            blank(row, named, kind.word());
            return null;
        }
        String known = names.find(id.isEmpty() ? name : id);
        String own = known != null ? known : id.isEmpty() ? Ids.of(name) : id;
        Stated stated = new Stated(row);
        String wrong = kind.wrongWithId(own);
        if (!wrong.isEmpty()) {
            stated.aside(named, "\"" + Records.shown(name) + "\" makes no id. " + wrong + " Add a column Id.");
        }
        if (!name.isEmpty() && !name.equals(known)) {
            stated.put("/name", named, Meaning.NAME, name);
        }
        return new Named(own, stated);
    }

    void resins() {
        Meaning named = table.firstOf(Meaning.RESIN, Meaning.NAME, Meaning.PRODUCT, Meaning.ID);
        for (Table.Row row : table.rows()) {
            Named one = named(row, named, Kind.RESIN, run.resins);
            if (one != null) {
                ratios(one);
                RESIN.forEach((path, meaning) -> one.stated().take(path, meaning));
                one.stated().keep(Kind.RESIN, one.id());
            }
        }
    }

    /** A resin may state its ratio twice: the first column leads, but what the book has by that measure stays there. */
    private void ratios(Named resin) {
        Map<Meaning, String> stated = new LinkedHashMap<>();
        for (Meaning each :
                List.of(Meaning.RATIO, Meaning.RATIO_BY_VOLUME, Meaning.RATIO_BY_WEIGHT, Meaning.SECOND_RATIO)) {
            String text = table.text(resin.stated().row, each);
            if (!text.isEmpty()) {
                stated.put(each, text);
            }
        }
        String leads = ratioInBook(resin.id());
        boolean leading = false;
        for (Map.Entry<Meaning, String> each : stated.entrySet()) {
            Meaning column = each.getKey();
            Matcher matcher = RATIO.matcher(each.getValue());
            String by = !matcher.matches()
                    ? ""
                    : column == Meaning.RATIO_BY_WEIGHT
                            ? "weight"
                            : column == Meaning.RATIO_BY_VOLUME ? "volume" : by(matcher, resin.stated().row);
            if (by.isEmpty()) {
                resin.stated()
                        .aside(
                                column,
                                "\"" + Records.shown(each.getValue())
                                        + "\" is no ratio of part A to part B with its measure, such as 2:1 by volume or"
                                        + " 100:45 by weight.");
                continue;
            }
            boolean first = column != Meaning.SECOND_RATIO
                    && !leading
                    && (leads.isEmpty() || leads.equals(by) || (stated.size() == 1 && !alsoInBook(resin.id(), by)));
            leading |= first;
            String path = first ? "/ratio" : "/ratioAlso";
            resin.stated().put(path + "/by", column, Meaning.RATIO_BY, by);
            resin.stated().put(path + "/a", column, Meaning.RATIO_PART, matcher.group(1));
            resin.stated().put(path + "/b", column, Meaning.RATIO_PART, matcher.group(2));
        }
        resin.stated().take("/ratio/window/least", Meaning.RATIO_LEAST);
        resin.stated().take("/ratio/window/most", Meaning.RATIO_MOST);
    }

    private String by(Matcher ratio, Table.Row row) {
        String said = ratio.group(3) == null ? table.text(row, Meaning.RATIO_BY) : ratio.group(3);
        String word = said.toLowerCase(Locale.ROOT);
        return word.equals("weight") || word.equals("volume") ? word : "";
    }

    private String ratioInBook(String resin) {
        Resin known = run.book.resins().get(resin);
        return known == null || known.ratio() == null ? "" : word(known.ratio());
    }

    private boolean alsoInBook(String resin, String by) {
        Resin known = run.book.resins().get(resin);
        return known != null
                && known.ratioAlso() != null
                && word(known.ratioAlso()).equals(by);
    }

    private static String word(MixRatio ratio) {
        return ratio.by().name().toLowerCase(Locale.ROOT);
    }

    private void carrier(Stated stated) {
        String is = table.text(stated.row, Meaning.CARRIER);
        boolean share = !table.text(stated.row, Meaning.CARRIER_SHARE).isEmpty();
        if (is.isEmpty() && !share) {
            return;
        }
        if (is.isEmpty() || !share) {
            stated.aside(
                    is.isEmpty() ? Meaning.CARRIER_SHARE : Meaning.CARRIER,
                    "A carrier has two columns: what it is (part A or other) and its share of the pigment in percent.");
            return;
        }
        String word = is.toLowerCase(Locale.ROOT);
        stated.put("/carrier/is", Meaning.CARRIER, Meaning.CARRIER, word.equals("part a") ? "part A" : word);
        stated.take("/carrier/share", Meaning.CARRIER_SHARE);
    }

    void lots() {
        Meaning product = table.firstOf(Meaning.PRODUCT, Meaning.PIGMENT, Meaning.RESIN, Meaning.NAME);
        Meaning quantity = table.firstOf(Meaning.QUANTITY, Meaning.GRAMS, Meaning.AMOUNT);
        for (Table.Row row : table.rows()) {
            String written = table.text(row, Meaning.LOT);
            if (written.isEmpty()) {
                blank(row, Meaning.LOT, "lot");
                continue;
            }
            Stated stated = new Stated(row);
            String id = Ids.ofLot(written);
            String wrong = Kind.LOT.wrongWithId(id);
            if (!wrong.isEmpty()) {
                stated.aside(Meaning.LOT, "\"" + Records.shown(written) + "\" makes no id. " + wrong);
            }
            product(stated, product);
            if (!table.text(row, Meaning.CODE).isEmpty()) {
                stated.take("/code", Meaning.CODE);
            } else if (!id.equals(written)) {
                stated.put("/code", Meaning.LOT, Meaning.CODE, written);
            }
            stated.take("/received", Meaning.RECEIVED);
            stated.take("/opened", Meaning.OPENED);
            stated.take("/expires", Meaning.EXPIRES);
            String much = table.text(row, quantity);
            if (much.isEmpty()) {
                stated.aside(quantity, "How much came is missing; write it with its unit, such as 4.5 kg.");
            } else {
                stated.put("/quantity", quantity, Meaning.QUANTITY, much);
            }
            price(stated);
            stated.take("/density", Meaning.DENSITY);
            stated.take("/strength", Meaning.STRENGTH);
            stated.take("/dropMass", Meaning.DROP_MASS);
            stated.take("/notes", Meaning.NOTES);
            stated.keep(Kind.LOT, id);
        }
    }

    /** Finds what a lot is of; a row may have a column for resins and one for pigments. */
    private void product(Stated stated, Meaning usual) {
        Meaning column = usual;
        for (Meaning each : List.of(Meaning.PRODUCT, Meaning.PIGMENT, Meaning.RESIN, Meaning.NAME)) {
            if (!table.text(stated.row, each).isEmpty()) {
                column = each;
                break;
            }
        }
        String text = table.text(stated.row, column);
        String part = table.text(stated.row, Meaning.PART);
        Matcher matcher = PART.matcher(text);
        if (part.isEmpty() && matcher.matches()) {
            part = matcher.group(2);
            text = matcher.group(1);
        }
        String resin = run.resins.find(text);
        String pigment = run.pigments.find(text);
        if (text.isEmpty() || (resin == null && pigment == null)) {
            stated.aside(
                    column,
                    text.isEmpty()
                            ? "What the lot is of is missing; name the resin or the pigment."
                            : "There is no resin or pigment \"" + Records.shown(text) + "\" in the book."
                                    + run.pigments.hint(text) + run.resins.hint(text)
                                    + " Correct the name, or put the product on the shelf first.");
            return;
        }
        boolean ofResin = resin != null && (pigment == null || !part.isEmpty());
        stated.put("/of", column, Meaning.PRODUCT, String.valueOf(ofResin ? resin : pigment));
        if (ofResin) {
            String letter = part.toUpperCase(Locale.ROOT).replaceFirst("^PART\\s*", "");
            if (letter.equals("A") || letter.equals("B")) {
                stated.put("/part", Meaning.PART, Meaning.PART, letter);
            } else {
                stated.aside(
                        table.has(Meaning.PART) ? Meaning.PART : column,
                        "A lot of a resin is of its part A or its part B; write A or B in a column Part.");
            }
        }
    }

    private void price(Stated stated) {
        String text = table.text(stated.row, Meaning.PRICE);
        if (text.isEmpty()) {
            return;
        }
        Matcher matcher = PRICE.matcher(text);
        String currency = table.text(stated.row, Meaning.CURRENCY);
        if (matcher.matches()) {
            String sign = matcher.group(1) + matcher.group(3);
            String named = SIGNS.getOrDefault(sign, sign.matches("[A-Za-z]{3}") ? sign.toUpperCase(Locale.ROOT) : "");
            currency = !named.isEmpty() ? named : currency;
        }
        String usual = run.book.settings().currency();
        if (currency.isEmpty()) {
            currency = usual == null ? "" : usual;
        }
        if (!matcher.matches() || currency.isEmpty()) {
            stated.aside(
                    Meaning.PRICE, "\"" + Records.shown(text) + "\" is no price with its currency, such as 62.00 EUR.");
            return;
        }
        try {
            String amount = matcher.group(2);
            stated.put("/price/amount", Meaning.PRICE, Meaning.PRICE, amount);
            stated.put(
                    "/price/currency",
                    Meaning.PRICE,
                    Meaning.CURRENCY,
                    pigmentbook.quantity.Money.parse(amount, currency).currency());
        } catch (IllegalArgumentException e) {
            stated.aside(Meaning.PRICE, String.valueOf(e.getMessage()));
        }
    }

    private void blank(Table.Row row, Meaning column, String what) {
        run.aside(table, row, column, "This row names no " + what + ". Write its name, or take the row out.");
    }
}
