package pigmentbook.store;

import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import pigmentbook.book.Recipe;
import pigmentbook.quantity.Percent;

/** Makes recipes of a table's rows: a row a pigment, the recipe's name on each row or on the first alone. */
final class ImportRecipes {

    private static final Set<String> RESIN_WORDS =
            Set.of("part a", "part b", "resin", "hardener", "epoxy", "a", "b", "resin part a", "resin part b");

    private final ImportRun run;
    private final ImportAmounts amounts;

    ImportRecipes(ImportRun run) {
        this.run = run;
        this.amounts = new ImportAmounts(run);
    }

    /** A recipe's rows. */
    private static final class Group {
        final String id;
        final String name;
        final List<Table.Row> rows = new ArrayList<>();

        Group(String id, String name) {
            this.id = id;
            this.name = name;
        }
    }

    void table(ImportTable table) {
        Meaning named = table.firstOf(Meaning.RECIPE, Meaning.NAME, Meaning.ID);
        Map<String, Group> groups = new LinkedHashMap<>();
        ImportRun.Names known = new ImportRun.Names();
        run.book.recipes().values().forEach(each -> known.add(each.id(), each.name()));
        Group current = null;
        for (Table.Row row : table.rows()) {
            String name = table.text(row, named);
            String own = table.text(row, Meaning.ID);
            if (!name.isEmpty() || !own.isEmpty()) {
                String called = own.isEmpty() ? name : own;
                String found = known.find(called);
                String id = found != null ? found : own.isEmpty() ? Ids.of(name) : own;
                current = groups.computeIfAbsent(id, each -> new Group(each, name.isEmpty() ? each : name));
            }
            if (current == null) {
                run.aside(table, row, named, "No recipe is named here or above. Write its name.");
            } else {
                current.rows.add(row);
            }
        }
        groups.values().forEach(group -> new One(table, named, group).keep());
    }

    /** One recipe on its way into the book. */
    private final class One {
        private final ImportTable table;
        private final Meaning named;
        private final Group group;
        private final Table.Row first;
        private boolean wrong;

        One(ImportTable table, Meaning named, Group group) {
            this.table = table;
            this.named = named;
            this.group = group;
            this.first = group.rows.get(0);
        }

        private void aside(Table.Row row, @Nullable Meaning column, String why) {
            wrong = true;
            run.aside(table, row, column, why);
        }

        /** Returns what the rows say in a column: once, or the same each time. */
        private String stated(Meaning meaning) {
            String said = "";
            for (Table.Row row : group.rows) {
                String text = table.text(row, meaning);
                if (!said.isEmpty() && !text.isEmpty() && !said.equals(text)) {
                    aside(
                            row,
                            meaning,
                            "\"" + Records.shown(text) + "\" differs from \"" + Records.shown(said)
                                    + "\" further up; a recipe has one of it.");
                }
                said = said.isEmpty() ? text : said;
            }
            return said;
        }

        void keep() {
            String badId = Kind.RECIPE.wrongWithId(group.id);
            if (!badId.isEmpty()) {
                aside(
                        first,
                        named,
                        "\"" + Records.shown(group.name) + "\" makes no id. " + badId + " Add a column Id.");
                return;
            }
            if (!run.isFirst(Kind.RECIPE, group.id)) {
                aside(
                        first,
                        named,
                        "The recipe " + group.id + " stands on another sheet already. Keep one of the two.");
                return;
            }
            try {
                ImportRun.ImportRecord old = run.stored(Kind.RECIPE, group.id);
                ObjectNode revision = revision(run.book.recipes().get(group.id));
                Set<String> tags = tags();
                String notes = stated(Meaning.NOTES);
                if (wrong) {
                    return;
                }
                if (old == null) {
                    run.fresh(Kind.RECIPE, group.id, recipe(revision, tags, notes));
                } else {
                    compare(old, revision, tags, notes);
                }
            } catch (RefusedException e) {
                aside(first, null, String.valueOf(e.getMessage()));
            }
        }

        private Set<String> tags() {
            Set<String> tags = new LinkedHashSet<>();
            for (String each : stated(Meaning.TAGS).split("[,;]", -1)) {
                if (!each.isBlank()) {
                    tags.add(each.strip());
                }
            }
            return tags;
        }

        private ObjectNode recipe(ObjectNode revision, Set<String> tags, String notes) {
            ObjectNode recipe = ImportRun.object().put("id", group.id).put("name", group.name);
            ArrayNode tagged = recipe.putArray("tags");
            tags.forEach(tagged::add);
            recipe.putArray("revisions").add(revision);
            recipe.putArray("steps");
            return recipe.put("notes", notes);
        }

        private ObjectNode revision(@Nullable Recipe known) {
            ObjectNode revision = ImportRun.object().put("number", 1);
            String date = stated(Meaning.DATE);
            try {
                revision.put("date", (date.isEmpty() ? run.request.today() : Days.parse(date)).toString());
            } catch (IllegalArgumentException e) {
                aside(first, Meaning.DATE, String.valueOf(e.getMessage()));
            }
            String resin = resin(known);
            revision.put("resin", resin);
            Recipe.PercentOf of = percentOf();
            revision.put("percentOf", of.words());
            pigments(revision.putArray("pigments"), of);
            String why = stated(Meaning.WHY);
            return revision.put("why", why.isEmpty() ? "brought in from " + Records.seen(run.request.from()) : why);
        }

        private String resin(@Nullable Recipe known) {
            String said = stated(Meaning.RESIN);
            String wanted = said.isEmpty() && run.request.resin() != null ? run.request.resin() : said;
            if (wanted.isEmpty() && known != null) {
                return known.current().resinId();
            }
            if (wanted.isEmpty() && run.resins.all().size() == 1) {
                return run.resins.all().iterator().next();
            }
            String id = wanted.isEmpty() ? null : run.resins.find(wanted);
            if (id == null) {
                aside(
                        first,
                        table.has(Meaning.RESIN) ? Meaning.RESIN : named,
                        wanted.isEmpty()
                                ? "No resin is named. Add a column Resin, or "
                                        + run.request.ways().resin() + "."
                                : "There is no resin \"" + Records.shown(wanted) + "\" in the book."
                                        + run.resins.hint(wanted)
                                        + " Correct the name, or put the resin on the shelf first.");
                return "";
            }
            return id;
        }

        private Recipe.PercentOf percentOf() {
            String said = stated(Meaning.PERCENT_OF);
            if (said.isEmpty()) {
                return table.has(Meaning.PHR) ? Recipe.PercentOf.PART_A : Recipe.PercentOf.MIXED_RESIN;
            }
            for (Recipe.PercentOf each : Recipe.PercentOf.values()) {
                if (each.words().equalsIgnoreCase(said)) {
                    return each;
                }
            }
            aside(first, Meaning.PERCENT_OF, "\"" + Records.shown(said) + "\" is not mixed resin or part A.");
            return Recipe.PercentOf.MIXED_RESIN;
        }

        private void pigments(ArrayNode pigments, Recipe.PercentOf of) {
            ImportAmounts.Base base = amounts.new Base(table, of);
            List<Table.Row> rows = new ArrayList<>();
            for (Table.Row row : group.rows) {
                String word = ImportTable.folded(table.text(row, Meaning.PIGMENT));
                boolean resin = RESIN_WORDS.contains(word) && run.pigments.find(word) == null;
                try {
                    if (resin) {
                        base.addPart(row, word);
                    } else {
                        rows.add(row);
                    }
                    base.addStated(row);
                } catch (ImportAmounts.Trouble e) {
                    aside(row, e.column(), String.valueOf(e.getMessage()));
                }
            }
            Set<String> once = new LinkedHashSet<>();
            for (Table.Row row : rows) {
                pigment(pigments, row, base, once);
            }
        }

        private void pigment(ArrayNode pigments, Table.Row row, ImportAmounts.Base base, Set<String> once) {
            String name = table.text(row, Meaning.PIGMENT);
            String much = amounts.written(table, row);
            if (name.isEmpty() && much.isEmpty()) {
                return;
            }
            if (name.isEmpty()) {
                aside(row, Meaning.PIGMENT, "Here is an amount without a pigment. Name it, or take the row out.");
                return;
            }
            String id = known(row, name);
            if (id == null) {
                return;
            }
            if (!once.add(id)) {
                aside(
                        row,
                        Meaning.PIGMENT,
                        "The pigment " + id + " stands here a second time. Add the two amounts up.");
                return;
            }
            try {
                pigments.addObject().put("pigment", id).put("percent", base.percent(row, id));
            } catch (ImportAmounts.Trouble e) {
                aside(row, e.column(), String.valueOf(e.getMessage()));
            }
        }

        private @Nullable String known(Table.Row row, String name) {
            String id = run.pigments.find(name);
            if (id != null) {
                return id;
            }
            String made = Ids.of(name);
            boolean described = !table.text(row, Meaning.KIND).isEmpty()
                    || !table.text(row, Meaning.DENSITY).isEmpty();
            if (!described && !run.request.addPigments()) {
                aside(
                        row,
                        Meaning.PIGMENT,
                        "There is no pigment \"" + Records.shown(name) + "\" in the book."
                                + run.pigments.hint(name)
                                + " Correct the name, put the pigment on the shelf first, or "
                                + run.request.ways().addPigments() + ".");
                return null;
            }
            return newPigment(row, name, made) ? made : null;
        }

        private boolean newPigment(Table.Row row, String name, String made) {
            try {
                String badId = Kind.PIGMENT.wrongWithId(made);
                if (!badId.isEmpty()) {
                    throw new RefusedException("", "bad-id", "\"" + Records.shown(name) + "\" makes no id. " + badId);
                }
                if (run.stored(Kind.PIGMENT, made) != null) {
                    throw new RefusedException("", "taken", "The book has a pigment " + made + " already.");
                }
                ObjectNode pigment = ImportRun.object().put("id", made).put("name", name);
                String kind = table.text(row, Meaning.KIND);
                pigment.put("kind", kind.isEmpty() ? "other" : kind);
                String density = table.text(row, Meaning.DENSITY);
                if (!density.isEmpty()) {
                    pigment.put("density", density);
                }
                run.fresh(Kind.PIGMENT, made, pigment);
                run.isFirst(Kind.PIGMENT, made);
                run.pigments.add(made, name);
                return true;
            } catch (RefusedException e) {
                aside(row, Meaning.PIGMENT, String.valueOf(e.getMessage()));
                return false;
            }
        }

        private void compare(ImportRun.ImportRecord old, ObjectNode revision, Set<String> tags, String notes)
                throws RefusedException {
            Recipe known = (Recipe) Records.read(Kind.RECIPE, group.id, old.bytes);
            List<Import.Change> changes = new ArrayList<>();
            ObjectNode record = old.record.deepCopy();
            Recipe.Revision current = known.current();
            // A formula that was saved before is not new, though it may not be the current one any more.
            boolean had = known.revisions().stream().anyMatch(each -> sameFormula(each, revision));
            if (!had && record.get("revisions") instanceof ArrayNode revisions) {
                revisions.add(revision.put("number", current.number() + 1));
                changes.add(new Import.Change("revisions", formula(current), formula(revision)));
            }
            boolean keep = false;
            if (!tags.isEmpty() && !tags.equals(new LinkedHashSet<>(known.tags()))) {
                ArrayNode tagged = record.putArray("tags");
                tags.forEach(tagged::add);
                changes.add(new Import.Change("tags", String.join(", ", known.tags()), String.join(", ", tags)));
                keep = true;
            }
            if (!notes.isEmpty() && !notes.equals(known.notes().strip())) {
                record.put("notes", notes);
                changes.add(new Import.Change("notes", known.notes(), notes));
                keep = true;
            }
            if (changes.isEmpty()) {
                run.same(old.file);
            } else {
                run.changed(Kind.RECIPE, group.id, old, record, changes, keep);
            }
        }
    }

    private static boolean sameFormula(Recipe.Revision known, ObjectNode revision) {
        boolean same = known.resinId().equals(revision.path("resin").asText())
                && known.percentOf().words().equals(revision.path("percentOf").asText())
                && known.pigments().size() == revision.path("pigments").size();
        Map<String, Object> percents = new LinkedHashMap<>();
        known.pigments()
                .forEach(each -> percents.put(each.pigmentId(), each.percent().exactPercent()));
        for (var each : revision.path("pigments")) {
            same = same
                    && Percent.parse(each.path("percent").asText())
                            .exactPercent()
                            .equals(percents.get(each.path("pigment").asText()));
        }
        return same;
    }

    private static String formula(Recipe.Revision revision) {
        List<String> parts = new ArrayList<>();
        revision.pigments()
                .forEach(each ->
                        parts.add(each.pigmentId() + " " + each.percent().written()));
        return revision.resinId() + ": " + (parts.isEmpty() ? "clear" : String.join(", ", parts));
    }

    private static String formula(ObjectNode revision) {
        List<String> parts = new ArrayList<>();
        revision.path("pigments")
                .forEach(each -> parts.add(each.path("pigment").asText() + " "
                        + each.path("percent").asText()));
        return revision.path("resin").asText() + ": " + (parts.isEmpty() ? "clear" : String.join(", ", parts));
    }
}
