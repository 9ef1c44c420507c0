package pigmentbook.store;

import java.nio.file.Path;
import java.time.LocalDate;
import java.util.List;
import java.util.Map;
import java.util.function.UnaryOperator;
import org.jspecify.annotations.Nullable;

/** Brings in what a studio already has in tables: recipes, pigments, resins, lots. */
public final class Import {

    private Import() {}

    /** What the rows of a table are. */
    public enum As {
        /** A row a pigment of a recipe. */
        RECIPES,
        /** A row a pigment. */
        PIGMENTS,
        /** A row a resin. */
        RESINS,
        /** A row a lot. */
        LOTS
    }

    /**
     * What is to be brought in.
     *
     * @param tables the tables
     * @param as what their rows are; null where the heads shall tell
     * @param columns what columns hold, by their heads; these come before what the heads say
     * @param resin the resin of recipes that name none, or null
     * @param dropMasses one drop's mass by the pigment's id
     * @param addPigments whether pigments that the book lacks are made from their names alone
     * @param today the day for recipes without one
     * @param from the file's name, for the reason of a new revision
     * @param ways how whoever asks lets a person answer what a table leaves open
     */
    public record Request(
            List<Table> tables,
            @Nullable As as,
            Map<String, String> columns,
            @Nullable String resin,
            Map<String, String> dropMasses,
            boolean addPigments,
            LocalDate today,
            String from,
            Ways ways) {}

    /**
     * The words in which letters tell a person how to answer what a table leaves open; each goes on after "or" or
     * stands as a sentence.
     *
     * @param columns says what columns hold
     * @param as says what the rows are
     * @param resin names one resin for all recipes that name none
     * @param addPigments lets pigments that the book lacks be made
     * @param dropMass gives what a drop of a pigment weighs, by the pigment's id
     */
    public record Ways(String columns, String as, String resin, String addPigments, UnaryOperator<String> dropMass) {}

    /**
     * What came of it.
     *
     * @param columns the word for what each column is taken to hold, by its head
     * @param heads the same by sheet and in order, also of sheets that are not understood
     * @param drops the pigments whose drop has to be weighed first
     * @param fresh the files of what is new
     * @param same the files of what the book says already
     * @param different what says something else in the book
     * @param setAside what can't come in, and why
     * @param saved the new files that were written; none for a trial
     * @param changed the files that were changed; none for a trial
     */
    public record Found(
            Map<String, String> columns,
            List<Heads> heads,
            List<String> drops,
            List<String> fresh,
            List<String> same,
            List<Different> different,
            List<Aside> setAside,
            List<String> saved,
            List<Unpack.Replaced> changed) {}

    /**
     * A sheet's columns.
     *
     * @param sheet its name; empty for a csv file
     * @param as what its rows are taken to be, or null where that is not known
     * @param columns its columns that have a head
     */
    public record Heads(String sheet, @Nullable As as, List<Column> columns) {}

    /**
     * A column.
     *
     * @param head its head as it stands there
     * @param word the word for what it is taken to hold; "-" for nothing
     * @param examples some of what stands in it
     */
    public record Column(String head, String word, String examples) {}

    /** Returns the words for what a column may hold; the last, "-", is for nothing. */
    public static List<String> words() {
        return Meaning.ofColumns().stream().map(Meaning::word).toList();
    }

    /** A record that the book has with other values. */
    public record Different(String file, List<Change> changes) {}

    /**
     * A value that differs.
     *
     * @param field its name
     * @param was what the book says
     * @param is what the table says
     */
    public record Change(String field, String was, String is) {}

    /**
     * A cell or row that can't come in.
     *
     * @param sheet the sheet's name; empty for a csv file
     * @param row its number in the file; 0 for the whole table
     * @param column the column's head; empty for the whole row
     * @param why why not, and what to do
     */
    public record Aside(String sheet, int row, String column, String why) {}

    /**
     * Tries it: nothing is written.
     *
     * @param folder the book's folder; it may be empty or not there yet
     * @throws BookUnavailableException if the folder is there but can't be read
     * @throws ImportRefusedException if what is asked for makes no sense
     */
    public static Found look(Path folder, Request request) throws BookUnavailableException, ImportRefusedException {
        return ImportRun.of(folder, request).found();
    }

    /**
     * Brings it in.
     *
     * @throws BookUnavailableException if the folder is there but can't be read
     * @throws ImportRefusedException if what is asked for makes no sense
     * @throws SaveFailedException if the disk does not take a file
     */
    public static Found save(Path folder, Request request)
            throws BookUnavailableException, ImportRefusedException, SaveFailedException {
        ImportRun run = ImportRun.of(folder, request);
        run.save();
        return run.found();
    }
}
