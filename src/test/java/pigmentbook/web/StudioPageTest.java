package pigmentbook.web;

import static org.assertj.core.api.Assertions.assertThat;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import pigmentbook.book.Settings;
import pigmentbook.colour.Lab;
import pigmentbook.store.BookFolder;

/** What the book agrees on is typed in as every sheet is, and every mix from then on follows. */
class StudioPageTest extends ServedCopy {

    private String typed(String path, String was, String now) {
        return served.post("/edits", """
                { "kind": "settings", "id": "book", "edits": [ { "path": "%s", "was": "%s", "now": "%s" } ] }
                """.formatted(path, was, now)).body();
    }

    private Settings settings() throws Exception {
        return new BookFolder(folder).open().book().settings();
    }

    @Test
    void everySettingStandsThereAsTheBookSaysIt() {
        assertThat(served.get("/studio").body())
                .contains("Resin scale shows steps of")
                .contains(">1.5 kg<")
                .contains(">95, 0, 2<")
                .contains("left empty: 0.01 g");
    }

    @Test
    void theSecondPersonsCheckCanBeTurnedOffAndOnAgain() throws Exception {
        assertThat(typed("/defaults/secondPerson", "", "no")).contains("\"saved\"");
        assertThat(settings().secondPerson()).isFalse();
        assertThat(served.get("/studio").body()).contains(">no<");
        assertThat(typed("/defaults/secondPerson", "no", "yes")).contains("\"saved\"");
        assertThat(settings().secondPerson()).isTrue();
        assertThat(typed("/defaults/secondPerson", "yes", "")).contains("\"saved\"");
        assertThat(settings().secondPerson()).isTrue();
    }

    @Test
    void aGroundIsTypedAsAColour() throws Exception {
        assertThat(typed("/backings/wood/lab", "70, 6, 20", "68.5, 7, 21")).contains("\"saved\"");
        assertThat(settings().backings()).containsEntry("wood", new Lab(68.5, 7, 21));
    }

    @ParameterizedTest
    @CsvSource(delimiter = '|', textBlock = """
            /defaults/secondPerson | '' | maybe | "maybe\\" is neither yes nor no; write one of them.
            /defaults/currency | EUR | euro | "EURO\\" is no currency; write its three letters, such as EUR.
            /scales/fine/step | 0.01 g | 0 g | step
            /backings/white/lab | 95, 0, 2 | whitish | whitish
            """)
    void whatCannotBeMeantStaysOutOfTheBook(String path, String was, String now, String told) throws Exception {
        Settings before = settings();
        assertThat(typed(path, was, now)).contains("\"refused\"").contains(told);
        assertThat(settings()).isEqualTo(before);
    }
}
