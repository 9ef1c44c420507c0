package pigmentbook.cli;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import java.io.OutputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Map;
import org.apache.poi.xssf.usermodel.XSSFRow;
import org.apache.poi.xssf.usermodel.XSSFWorkbook;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** {@code workbook}: what is written comes back as it was, and a change in it is shown before it is kept. */
class WorkbookCommandTest {

    private static final String DEMO = Path.of("recipes").toAbsolutePath().toString();

    @TempDir
    Path here;

    private Ran ran(String... args) {
        return Ran.in(here, Map.of("PIGMENT_BOOK", DEMO), args);
    }

    private JsonNode taken(String file) {
        return ran("import", file, "--format", "json").json();
    }

    @ParameterizedTest
    @ValueSource(strings = {"studio.xlsx", "studio.ods"})
    void aWorkbookThatNobodyChangedSaysTheSameAsTheBook(String file) {
        JsonNode written = ran("workbook", file, "--format", "json").json();
        JsonNode back = taken(file);
        assertThat(back.get("different")).isEmpty();
        assertThat(back.get("new")).isEmpty();
        JsonNode rows = written.get("rows");
        int records = rows.get("Pigments").intValue()
                + rows.get("Lots").intValue()
                + rows.get("Resins").intValue()
                + ran("recipes", "--format", "json").json().size();
        assertThat(back.get("same")).hasSize(records);
        assertThat(rows.get("Resins").intValue()).isEqualTo(3);
        assertThat(back.get("set_aside")).isEmpty();
    }

    @Test
    void aChangedCellIsShownAsWhatItWasAndIs() throws Exception {
        ran("workbook", "studio.xlsx");
        Path changed = here.resolve("changed.xlsx");
        try (XSSFWorkbook workbook =
                        new XSSFWorkbook(here.resolve("studio.xlsx").toFile());
                OutputStream out = Files.newOutputStream(changed)) {
            workbook.getSheet("Recipes").forEach(row -> {
                if (row.getCell(0).getStringCellValue().equals("ember")
                        && row.getCell(4).getStringCellValue().equals("amber-paste")) {
                    ((XSSFRow) row).getCell(5).setCellValue("1.3 %");
                }
            });
            workbook.write(out);
        }
        JsonNode different = taken("changed.xlsx").get("different");
        assertThat(different).hasSize(1);
        assertThat(different.get(0).get("file").textValue()).isEqualTo("ember.json");
        assertThat(different.get(0).get("changes").get(0).get("is").textValue()).contains("amber-paste 1.3 %");
    }

    @Test
    void aChangedDataSheetComesBackToo() throws Exception {
        ran("workbook", "studio.xlsx");
        Path changed = here.resolve("changed.xlsx");
        try (XSSFWorkbook workbook =
                        new XSSFWorkbook(here.resolve("studio.xlsx").toFile());
                OutputStream out = Files.newOutputStream(changed)) {
            workbook.getSheet("Resins").forEach(row -> {
                if (row.getCell(0).getStringCellValue().equals("slow-cast")) {
                    ((XSSFRow) row).getCell(2).setCellValue("100:50 by volume");
                    ((XSSFRow) row).getCell(17).setCellValue("3 d");
                }
            });
            workbook.write(out);
        }
        JsonNode different = taken("changed.xlsx").get("different");
        assertThat(different).hasSize(1);
        assertThat(different.get(0).get("file").textValue()).isEqualTo("shelf/resins/slow-cast.json");
        assertThat(different.get(0).get("changes").findValuesAsText("field"))
                .containsExactly("ratio.a", "ratio.b", "demold");
    }

    @Test
    void anotherEndingOrAFileThatIsThereIsRefused() {
        assertThat(ran("workbook", "studio.doc"))
                .isEqualTo(new Ran(1, "", "\"studio.doc\" ends in neither .xlsx nor .ods; name one of these.\n"));
        assertThat(ran("workbook", "studio.ods").out())
                .isEqualTo("Recipes, pigments, resins and lots are in studio.ods.\n");
        assertThat(ran("workbook", "studio.ods").err()).contains("is there already. Add --replace");
        assertThat(ran("workbook", "studio.ods", "--replace").status()).isZero();
    }
}
