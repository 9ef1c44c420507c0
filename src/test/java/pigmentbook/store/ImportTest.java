package pigmentbook.store;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.nio.file.Path;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import pigmentbook.book.Book;
import pigmentbook.book.MixRatio;
import pigmentbook.book.Recipe;
import pigmentbook.book.Resin;

/** Bringing in what a studio has: what fits comes in once, what doesn't is told by its cell. */
class ImportTest {

    private static final LocalDate DAY = LocalDate.of(2026, 11, 25);

    private static final Import.Ways WAYS = new Import.Ways(
            "say what they hold", "Say so", "name one for all", "let it be made", each -> "give it for " + each);

    @TempDir
    Path temp;

    private Path folder;

    @BeforeEach
    void aCopyOfTheDemoBook() {
        folder = DemoBook.copyTo(temp.resolve("book"));
    }

    /** A table of lines; cells are apart by bars. */
    private static Table table(String... lines) {
        List<Table.Row> rows = new ArrayList<>();
        for (int i = 0; i < lines.length; i++) {
            rows.add(new Table.Row(
                    i + 1,
                    Arrays.stream(lines[i].split("\\|", -1)).map(String::strip).toList()));
        }
        return new Table("", rows);
    }

    private static Import.Request request(Table... tables) {
        return new Import.Request(List.of(tables), null, Map.of(), null, Map.of(), false, DAY, "colours.csv", WAYS);
    }

    private static Import.Request with(Table table, Map<String, String> columns, Map<String, String> drops) {
        return new Import.Request(List.of(table), null, columns, "slow-cast", drops, false, DAY, "colours.csv", WAYS);
    }

    private Book book() throws Exception {
        return new BookFolder(folder).open().book();
    }

    private List<String> why(Table table) throws Exception {
        return Import.look(folder, request(table)).setAside().stream()
                .map(each -> each.row() + " " + each.column() + ": " + each.why())
                .toList();
    }

    private static String percents(Recipe recipe) {
        StringBuilder text = new StringBuilder();
        recipe.current()
                .pigments()
                .forEach(each -> text.append(each.pigmentId())
                        .append('=')
                        .append(each.percent().written())
                        .append(' '));
        return text.toString().strip();
    }

    @Test
    void aRowAPigmentMakesRecipesAndATrialWritesNothing() throws Exception {
        Table table = table(
                "Recipe | Resin | Pigment | Percent | Tags",
                "Hearth | Slow casting resin | Amber paste | 1,5 % | warm, lamp",
                "       |                    | copper-mica | 0.3 |",
                "Kiln   | slow-cast          | rust-paste  | 2 | ");
        Map<String, String> before = Folders.of(folder);
        Import.Found tried = Import.look(folder, request(table));
        assertThat(tried.setAside()).isEmpty();
        assertThat(tried.fresh()).containsExactly("hearth.json", "kiln.json");
        assertThat(tried.columns()).containsEntry("Percent", "percent").containsEntry("Tags", "tags");
        assertThat(Folders.of(folder)).isEqualTo(before);

        Import.save(folder, request(table));
        Recipe hearth = book().recipes().get("hearth");
        assertThat(percents(hearth)).isEqualTo("amber-paste=1,5 % copper-mica=0.3 %");
        assertThat(hearth.tags()).containsExactly("warm", "lamp");
        assertThat(hearth.current().date()).isEqualTo(DAY);
        assertThat(hearth.current().why()).isEqualTo("brought in from colours.csv");
        assertThat(new BookFolder(folder).open().check()).isEmpty();
    }

    /** A made-up data sheet; 100:45 by weight. */
    private static Table dataSheets(String... rows) {
        List<String> lines = new ArrayList<>(List.of(
                "Resin | Mix ratio by weight | Density of part A | Density B, g/mL | Pot life (min) | Working time at |"
                        + " Deepest layer, mm | Next layer from | Demold | Full cure | Shrinkage | Notes"));
        lines.addAll(List.of(rows));
        return table(lines.toArray(String[]::new));
    }

    @Test
    void aRowADataSheetMakesAResinOnceAndATrialWritesNothing() throws Exception {
        Table table = dataSheets(
                "Amber bar cast | 100:45 | 1,14 g/mL | 0.97 | 35 | 23 C | 25 | 5 h | 2 d | 168 h | 1.5 | A tin of 5 kg");
        Map<String, String> before = Folders.of(folder);
        Import.Found tried = Import.look(folder, request(table));
        assertThat(tried.setAside()).isEmpty();
        assertThat(tried.fresh()).containsExactly("shelf/resins/amber-bar-cast.json");
        assertThat(Folders.of(folder)).isEqualTo(before);

        Import.save(folder, request(table));
        Resin resin = java.util.Objects.requireNonNull(book().resins().get("amber-bar-cast"));
        assertThat(resin.name()).isEqualTo("Amber bar cast");
        MixRatio ratio = java.util.Objects.requireNonNull(resin.ratio());
        assertThat(ratio.by()).isEqualTo(MixRatio.By.WEIGHT);
        assertThat(ratio.ratio().written()).isEqualTo("100:45");
        assertThat(java.util.Objects.requireNonNull(resin.densityA()).written()).isEqualTo("1,14 g/mL");
        assertThat(java.util.Objects.requireNonNull(resin.workingTime()).minutes())
                .isEqualTo(35);
        assertThat(java.util.Objects.requireNonNull(resin.layer().most()).mm()).isEqualTo(25);
        assertThat(java.util.Objects.requireNonNull(resin.fullCure()).minutes()).isEqualTo(7 * 24 * 60);
        assertThat(java.util.Objects.requireNonNull(resin.shrinkage()).percent())
                .isEqualTo(1.5);
        assertThat(new BookFolder(folder).open().check()).isEmpty();

        Map<String, String> once = Folders.of(folder);
        assertThat(Import.save(folder, request(table)).same()).containsExactly("shelf/resins/amber-bar-cast.json");
        assertThat(Folders.of(folder)).isEqualTo(once);
    }

    /** The book leads by volume and has a second ratio by weight: that one is meant, not the first. */
    @Test
    void aRatioByTheOtherMeasureIsComparedWithTheSecondOne() throws Exception {
        Table same = table("Resin | Ratio by weight | Demold", "slow-cast | 100 : 42 | 2 d");
        assertThat(Import.look(folder, request(same)).same()).containsExactly("shelf/resins/slow-cast.json");
        Table other = table("Resin | Ratio by weight | Demold", "slow-cast | 100:43 | 48 h");
        Import.Found found = Import.look(folder, request(other));
        assertThat(found.different())
                .singleElement()
                .satisfies(each ->
                        assertThat(each.changes()).containsExactly(new Import.Change("ratioAlso.b", "42", "43")));
    }

    @Test
    void lotsAndRecipesMayNameAResinOfTheSameWorkbook() throws Exception {
        Table resins = table("Resin | Ratio", "Oak cast | 2:1 by volume");
        Table lots = table("Lot | Product | Part | Quantity", "OC-1 | Oak cast | A | 5 kg");
        Table recipes = table("Recipe | Resin | Pigment | Percent", "Hearth | Oak cast | amber-paste | 1.5 %");
        Import.Found found = Import.look(folder, request(recipes, lots, resins));
        assertThat(found.setAside()).isEmpty();
        assertThat(found.fresh()).containsExactly("shelf/resins/oak-cast.json", "shelf/lots/OC-1.json", "hearth.json");
    }

    @Test
    void whatADataSheetLeavesOpenIsAskedAndNotGuessed() throws Exception {
        assertThat(why(table(
                        "Resin | Ratio | Pot life", "Oak cast | 2:1 | 40", "Ash cast | 2 in 1 by weight | 40 min")))
                .satisfiesExactly(
                        first -> assertThat(first)
                                .startsWith("2 Ratio: \"2:1\" is no ratio of part A to part B with its measure"),
                        second -> assertThat(second).startsWith("2 Pot life: \"40\""),
                        third -> assertThat(third).startsWith("3 Ratio: \"2 in 1 by weight\""));
        assertThat(why(table("Resin | Ratio | Ratio at least", "Oak cast | 2:1 by volume | 1.9")))
                .singleElement()
                .asString()
                .contains("\"most\" is missing");
    }

    @Test
    void theSameTableTwiceChangesNothing() throws Exception {
        Table table = table("Recipe | Resin | Pigment | Percent", "Hearth | slow-cast | amber-paste | 1.5");
        Import.save(folder, request(table));
        Map<String, String> once = Folders.of(folder);
        Import.Found again = Import.save(folder, request(table));
        assertThat(again.same()).containsExactly("hearth.json");
        assertThat(again.saved()).isEmpty();
        assertThat(Folders.of(folder)).isEqualTo(once);
        // 1.50 % is 1.5 %.
        Table other = table("Recipe | Resin | Pigment | Percent", "Hearth | slow-cast | amber-paste | 1.50 %");
        assertThat(Import.look(folder, request(other)).same()).containsExactly("hearth.json");
    }

    @Test
    void anotherFormulaBecomesANewRevisionThatIsShownBefore() throws Exception {
        Table table = table("Recipe | Resin | Pigment | Percent", "Ember | slow-cast | amber-paste | 1.4 %");
        Import.Found tried = Import.look(folder, request(table));
        assertThat(tried.different())
                .containsExactly(new Import.Different(
                        "ember.json",
                        List.of(new Import.Change(
                                "revisions",
                                "slow-cast: amber-paste 1.2 %, copper-mica 0.35 %, rust-paste 0.18 %, smoke-paste 0.06 %",
                                "slow-cast: amber-paste 1.4 %"))));
        int before = book().recipes().get("ember").revisions().size();
        Import.save(folder, request(table));
        Recipe ember = book().recipes().get("ember");
        assertThat(ember.revisions()).hasSize(before + 1);
        assertThat(percents(ember)).isEqualTo("amber-paste=1.4 %");
        // An older formula of the book is not brought in as a newer one.
        Table old = table(
                "Recipe | Resin | Pigment | Percent", "Ember | slow-cast | amber-paste | 1", " | | copper-mica | 0.35");
        assertThat(Import.look(folder, request(old)).same()).containsExactly("ember.json");
    }

    /** 3.6 g on 300 g is 1.2 %: by definition of a percent. */
    @Test
    void massesBecomePercentsOfTheResin() throws Exception {
        Import.save(
                folder,
                request(
                        table(
                                "Recipe | Resin | Pigment | Grams | Resin grams",
                                "By column | slow-cast | amber-paste | 3.6 | 300",
                                "          |           | copper-mica | 0.0353 oz | "),
                        table(
                                "Recipe | Resin | Ingredient | Amount",
                                "By parts | slow-cast | Part A | 200 g",
                                "         |           | Part B | 100 g",
                                "         |           | Amber paste | 3.6 g"),
                        table(
                                "Recipe | Resin | Percent of | Ingredient | Amount",
                                "Of part A | slow-cast | part A | Part A | 200 g",
                                "          |           |        | Hardener | 100 g",
                                "          |           |        | Amber paste | 3.6 g")));
        // 0.0353 oz × 28.349523125 g (the international ounce) = 1.00073816… g, on 300 g: 0.333579 %.
        assertThat(percents(book().recipes().get("by-column"))).isEqualTo("amber-paste=1.2 % copper-mica=0.333579 %");
        assertThat(percents(book().recipes().get("by-parts"))).isEqualTo("amber-paste=1.2 %");
        assertThat(percents(book().recipes().get("of-part-a"))).isEqualTo("amber-paste=1.8 %");
        assertThat(book().recipes().get("of-part-a").current().percentOf()).isEqualTo(Recipe.PercentOf.PART_A);
    }

    @Test
    void dropsBecomeGramsOnlyByADropThatWasWeighed() throws Exception {
        Table table = table("Recipe | Pigment | Amount | Resin grams", "Hearth | amber-paste | 12 drops | 300 g");
        assertThat(why(table))
                .contains(
                        "2 Amount: \"12 drops\" of amber-paste is a count, not a mass. Weigh 20 drops, divide by 20 and"
                                + " give it for amber-paste.");
        Import.save(folder, with(table, Map.of(), Map.of("amber-paste", "0.03 g")));
        assertThat(percents(book().recipes().get("hearth"))).isEqualTo("amber-paste=0.12 %");
    }

    @ParameterizedTest
    @CsvSource(delimiter = '|', textBlock = """
            a pinch      | "a pinch" is different each time. Measure it out once more, weigh it on the fine scale, and write the grams.
            2 spoons     | "2 spoons" is different each time. Measure it out once more, weigh it on the fine scale, and write the grams.
            1/2 tsp      | "1/2 tsp" is different each time. Measure it out once more, weigh it on the fine scale, and write the grams.
            3 mL         | "3 mL" is a volume; a mass is expected, such as 250 g or 1 lb 3 oz.
            3.6          | "3.6" has no unit; write g, kg, oz or lb after the number.
            3.6 g        | "3.6 g" is a mass, but not of how much resin. Add a column Resin grams, or rows for part A and part B, or write a percent.
            1,500 %      | "1,500 %" is ambiguous: write 1.5 % or 1500 %.
            -1 %         | "-1 %" is below zero; a percentage is 0 or more.
            """)
    void anAmountThatCantBeTakenIsToldByItsCell(String amount, String why) throws Exception {
        Table table = table("Recipe | Resin | Pigment | Amount", "Hearth | slow-cast | amber-paste | " + amount);
        assertThat(why(table)).containsExactly("2 Amount: " + why);
        assertThat(Import.look(folder, request(table)).fresh()).isEmpty();
    }

    @Test
    void oneBadCellKeepsTheWholeRecipeOutAndNoOther() throws Exception {
        Table table = table(
                "Recipe | Resin | Pigment | Percent",
                "Hearth | slow-cast | amber-paste | 1",
                "       |           | ambr-paste | 1",
                "       |           | amber-paste | 1",
                "       |           |             | 4",
                "Kiln   | slow-cats | rust-paste | 1",
                "Clay   | slow-cast | rust-paste | 1");
        assertThat(why(table))
                .containsExactly(
                        "3 Pigment: There is no pigment \"ambr-paste\" in the book. Nearest: amber-paste. Correct the name,"
                                + " put the pigment on the shelf first, or let it be made.",
                        "4 Pigment: The pigment amber-paste stands here a second time. Add the two amounts up.",
                        "5 Pigment: Here is an amount without a pigment. Name it, or take the row out.",
                        "6 Resin: There is no resin \"slow-cats\" in the book. Nearest: slow-cast. Correct the name, or put"
                                + " the resin on the shelf first.");
        assertThat(Import.look(folder, request(table)).fresh()).containsExactly("clay.json");
    }

    @Test
    void pigmentsAreMadeWhenTheTableDescribesThemOrWhenAsked() throws Exception {
        Table described =
                table("Recipe | Resin | Pigment | Kind | Percent", "Hearth | slow-cast | Walnut dust | powder | 1");
        Import.Found found = Import.save(folder, request(described));
        assertThat(found.saved()).containsExactly("shelf/pigments/walnut-dust.json", "hearth.json");
        Table plain = table("Recipe | Pigment | Percent", "Kiln | Clay red | 1");
        Import.Request asked = new Import.Request(
                List.of(plain), null, Map.of(), "slow-cast", Map.of(), true, DAY, "colours.csv", WAYS);
        assertThat(Import.save(folder, asked).saved()).containsExactly("shelf/pigments/clay-red.json", "kiln.json");
        assertThat(new BookFolder(folder).open().check()).isEmpty();
    }

    @Test
    void pigmentsAndLotsComeInAndDifferencesAreShownFieldByField() throws Exception {
        Table pigments = table(
                "Name | Kind | Density (g/mL) | Top loading | Carrier | Carrier share",
                "Walnut dust | powder | 1.4 | 3 | | ",
                "Amber paste | paste | 1.26 | | part A | 60");
        Table lots = table(
                "Lot | Product | Part | Received | Quantity | Price (EUR)",
                "WD 01 | Walnut dust | | 31.3.2026 | 250 g | 12.50",
                "A-77 | Slow casting resin, part A | | 2026-04-01 | 4 kg | 47");
        Import.Found found = Import.save(folder, request(lots, pigments));
        assertThat(found.setAside()).isEmpty();
        assertThat(found.fresh())
                .containsExactly("shelf/pigments/walnut-dust.json", "shelf/lots/WD-01.json", "shelf/lots/A-77.json");
        assertThat(found.different())
                .containsExactly(new Import.Different(
                        "shelf/pigments/amber-paste.json",
                        List.of(new Import.Change("density", "1.25 g/mL", "1.26 g/mL"))));
        assertThat(Folders.of(folder)).containsKey("put-away/replaced/shelf/pigments/amber-paste.json");
        assertThat(book().lots().get("WD-01").received()).isEqualTo("2026-03-31");
        assertThat(book().lots().get("WD-01").code()).isEqualTo("WD 01");
        assertThat(book().lots().get("A-77").part()).isEqualTo(pigmentbook.book.Lot.Part.A);
        assertThat(new BookFolder(folder).open().check()).isEmpty();
        Import.Found again = Import.save(folder, request(lots, pigments));
        assertThat(again.same()).hasSize(4);
        assertThat(again.changed()).isEmpty();
    }

    @Test
    void aCellOfTheShelfThatCantBeReadIsTold() throws Exception {
        Table lots = table(
                "Lot | Product | Part | Received | Quantity | Price",
                "L-1 | amber-paste | | 03/04/2026 | 1 | $5",
                "L-2 | slow-cast | | 2026-02-30 | | ",
                "L-3 | ambr-paste | | | 1 kg | ",
                "    | amber-paste | | | 1 kg | ",
                "L-4 | amber-paste | | | 1 kg | ",
                "L-4 | amber-paste | | | 2 kg | ");
        assertThat(why(lots))
                .containsExactly(
                        "2 Received: \"03/04/2026\" can be two days; write 2026-04-03 or 2026-03-04.",
                        "2 Quantity: \"1\" has no unit; write g, kg, oz or lb after the number.",
                        "3 Part: A lot of a resin is of its part A or its part B; write A or B in a column Part.",
                        "3 Received: \"2026-02-30\" is no day; one such as 2026-03-31 was expected.",
                        "3 Quantity: How much came is missing; write it with its unit, such as 4.5 kg.",
                        "4 Product: There is no resin or pigment \"ambr-paste\" in the book. Nearest: amber-paste. Correct"
                                + " the name, or put the product on the shelf first.",
                        "5 Lot: This row names no lot. Write its name, or take the row out.",
                        "7 : The lot L-4 stands further up already. Keep one of the two rows.");
    }

    @Test
    void whatColumnsHoldIsSaidOnceAndRemembered() throws Exception {
        Table table = table("Shade | Stuff | Dose | Oven", "Hearth | amber-paste | 3 g | 2");
        assertThat(why(table).get(0)).startsWith("0 : No row of heads was found in its first 20 rows.");
        Map<String, String> said =
                Map.of("Shade", "recipe", "Stuff", "pigment", "Dose", "grams", "oven", "resin grams");
        Map<String, String> before = Folders.of(folder);
        Import.look(folder, with(table, said, Map.of()));
        assertThat(Folders.of(folder)).isEqualTo(before);
        assertThatThrownBy(() -> Import.save(folder, with(table, Map.of("Shade", "hue"), Map.of())))
                .isInstanceOf(ImportRefusedException.class)
                .hasMessageStartingWith(
                        "\"hue\" is nothing that a column holds; one of id, recipe, name, resin, pigment,");
        assertThatThrownBy(() -> Import.save(
                        folder, with(table, Map.of("Shade", "recipe", "Stuff", "pigment", "Nuance", "why"), Map.of())))
                .hasMessage("No column has the head \"Nuance\"; there are dose, oven, shade, stuff.");
        Table grams = table("Shade | Stuff | Dose | Oven", "Hearth | amber-paste | 3 g | 300 g");
        Import.save(folder, with(grams, said, Map.of()));
        assertThat(percents(book().recipes().get("hearth"))).isEqualTo("amber-paste=1 %");
        assertThat(Folders.of(folder)).containsKey("import/columns.json");
        assertThat(new BookFolder(folder).open().check()).isEmpty();
        assertThat(Import.look(folder, with(grams, Map.of(), Map.of())).same()).containsExactly("hearth.json");
    }

    @Test
    void aNewBookIsBegunByAnImport() throws Exception {
        Path fresh = temp.resolve("fresh");
        Table pigments = table("Pigment | Kind", "Amber paste | paste");
        assertThat(Import.look(fresh, request(pigments)).fresh()).containsExactly("shelf/pigments/amber-paste.json");
        assertThat(fresh).doesNotExist();
        Import.save(fresh, request(pigments));
        assertThat(new BookFolder(fresh).open().book().pigments()).containsKey("amber-paste");
    }

    @Test
    void aRecordThatCantBeReadIsLeftAsItIs() throws Exception {
        Folders.put(folder, "hearth.json", "{ torn");
        Table table = table("Recipe | Resin | Pigment | Percent", "Hearth | slow-cast | amber-paste | 1");
        assertThat(why(table))
                .containsExactly(
                        "2 : The book's own hearth.json can't be read, so it stays as it is; \"pigment-book check\""
                                + " tells why.");
        Import.save(folder, request(table));
        assertThat(Folders.of(folder)).containsEntry("hearth.json", "{ torn");
    }

    @Test
    void namesThatMakeNoIdAskForOne() throws Exception {
        Table table = table("Recipe | Resin | Pigment | Percent", "!! | slow-cast | amber-paste | 1");
        assertThat(why(table).get(0))
                .startsWith("2 Recipe: \"!!\" makes no id.")
                .endsWith("Add a column Id.");
        Table withId = table("Id | Recipe | Resin | Pigment | Percent", "kohaku | 琥珀 | slow-cast | amber-paste | 1");
        assertThat(Import.look(folder, request(withId)).fresh()).containsExactly("kohaku.json");
    }
}
