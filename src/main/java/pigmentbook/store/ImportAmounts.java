package pigmentbook.store;

import java.util.Locale;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;
import pigmentbook.book.Pigment;
import pigmentbook.book.Recipe;
import pigmentbook.quantity.Mass;
import pigmentbook.quantity.Numbers;
import pigmentbook.quantity.Percent;

/** Turns what a table says of a pigment's amount into a percent: percents, masses on a mass of resin, drops. */
final class ImportAmounts {

    private static final Pattern DROPS =
            Pattern.compile("(\\d+(?:[.,]\\d+)?)\\s*(?:drops?|gtts?)\\.?", Pattern.CASE_INSENSITIVE);
    private static final Pattern ROUGH = Pattern.compile(
            ".*\\b(?:tea|table)?spoon(?:s|ful|fuls)?\\b.*|.*\\b(?:tsp|tbsp|pinch(?:es)?|dash(?:es)?|scoops?|splash(?:es)?"
                    + "|bits?|knife|knives|squirts?|some|a little|to taste|sticks?|handfuls?|cups?)\\b.*",
            Pattern.CASE_INSENSITIVE);

    private final ImportRun run;

    ImportAmounts(ImportRun run) {
        this.run = run;
    }

    /** Thrown where a cell's amount can't be taken; the message says why and what to do. */
    static final class Trouble extends Exception {
        private static final long serialVersionUID = 1L;
        private final Meaning column;

        Trouble(Meaning column, String why) {
            super(why, null, false, false);
            this.column = column;
        }

        Meaning column() {
            return column;
        }
    }

    private static Meaning column(ImportTable table, Table.Row row) {
        for (Meaning each : new Meaning[] {Meaning.PERCENT, Meaning.PHR, Meaning.GRAMS, Meaning.AMOUNT}) {
            if (!table.text(row, each).isEmpty()) {
                return each;
            }
        }
        return table.firstOf(Meaning.PERCENT, Meaning.PHR, Meaning.GRAMS, Meaning.AMOUNT);
    }

    /** Returns the amount as the row says it; empty where it says none. */
    String written(ImportTable table, Table.Row row) {
        return table.text(row, column(table, row));
    }

    /** The resin that masses are a percent of. */
    final class Base {
        private final ImportTable table;
        private final Recipe.PercentOf of;
        private double partGrams;
        private boolean hasPartA;
        private @Nullable Mass stated;

        Base(ImportTable table, Recipe.PercentOf of) {
            this.table = table;
            this.of = of;
        }

        /** Adds a row that is a part of the resin itself. */
        void addPart(Table.Row row, String word) throws Trouble {
            Meaning column = column(table, row);
            String text = table.text(row, column);
            if (text.isEmpty() || text.contains("%")) {
                // A share of the whole says nothing about the pigments' base.
                return;
            }
            boolean partB = word.endsWith("b") || word.equals("hardener");
            double grams = mass(column, text).grams();
            if (of == Recipe.PercentOf.MIXED_RESIN || !partB) {
                partGrams += grams;
            }
            hasPartA |= !partB;
        }

        /** Notes the grams of resin that a row states; each row must state the same, or none. */
        void addStated(Table.Row row) throws Trouble {
            String text = table.text(row, Meaning.RESIN_GRAMS);
            if (text.isEmpty()) {
                return;
            }
            Mass mass = mass(Meaning.RESIN_GRAMS, text);
            if (stated != null && stated.grams() != mass.grams()) {
                throw new Trouble(
                        Meaning.RESIN_GRAMS,
                        "\"" + Records.shown(text) + "\" differs from \"" + stated.written()
                                + "\" further up; a recipe's pigments go on one mass of resin.");
            }
            stated = mass;
        }

        /** Returns a pigment's percent as a text: as it was written, or worked out of masses. */
        String percent(Table.Row row, String pigment) throws Trouble {
            Meaning column = column(table, row);
            String text = table.text(row, column);
            if (text.isEmpty()) {
                throw new Trouble(column, "How much of " + pigment + " is missing.");
            }
            if (text.contains("%")) {
                try {
                    return Percent.parse(text).written();
                } catch (IllegalArgumentException e) {
                    throw new Trouble(column, String.valueOf(e.getMessage()));
                }
            }
            Mass mass = pigmentMass(column, text, pigment);
            Mass whole = stated != null ? stated : hasPartA ? Mass.ofGrams(partGrams) : null;
            if (whole == null) {
                throw new Trouble(
                        column,
                        "\"" + Records.shown(text)
                                + "\" is a mass, but not of how much resin. Add a column Resin grams,"
                                + " or rows for part A and part B, or write a percent.");
            }
            try {
                return Percent.share(mass, whole).written();
            } catch (IllegalArgumentException e) {
                throw new Trouble(Meaning.RESIN_GRAMS, String.valueOf(e.getMessage()));
            }
        }
    }

    private static Mass mass(Meaning column, String text) throws Trouble {
        try {
            return Mass.parse(text);
        } catch (IllegalArgumentException e) {
            throw new Trouble(column, String.valueOf(e.getMessage()));
        }
    }

    private Mass pigmentMass(Meaning column, String text, String pigment) throws Trouble {
        Matcher drops = DROPS.matcher(text);
        if (drops.matches()) {
            Mass one = dropMass(pigment);
            if (one == null) {
                run.askDrop(pigment);
                throw new Trouble(
                        column,
                        "\"" + Records.shown(text) + "\" of " + pigment
                                + " is a count, not a mass. Weigh 20 drops, divide"
                                + " by 20 and " + run.request.ways().dropMass().apply(pigment) + ".");
            }
            return Mass.ofGrams(Numbers.nearest(Numbers.parse(drops.group(1))) * one.grams());
        }
        if (ROUGH.matcher(text.toLowerCase(Locale.ROOT)).matches()) {
            throw new Trouble(
                    column,
                    "\"" + Records.shown(text)
                            + "\" is different each time. Measure it out once more, weigh it on the fine"
                            + " scale, and write the grams.");
        }
        return mass(column, text);
    }

    private @Nullable Mass dropMass(String pigment) throws Trouble {
        String given = run.request.dropMasses().get(pigment);
        if (given != null) {
            return mass(Meaning.AMOUNT, given);
        }
        Pigment known = run.book.pigments().get(pigment);
        return known == null ? null : known.dropMass();
    }
}
