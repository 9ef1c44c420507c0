package pigmentbook.book;

import java.time.LocalDate;
import java.util.List;
import org.jspecify.annotations.Nullable;
import pigmentbook.quantity.Percent;

/**
 * A recipe: a colour as a formula, with every state it went through.
 *
 * @param id the file's name
 * @param name what people call it
 * @param tags words to find it by
 * @param revisions every state, oldest first, at least one; they never change once saved
 * @param steps what to do, in order
 * @param look the reading that shows the colour as it should be, or null
 * @param notes words
 */
public record Recipe(
        String id,
        String name,
        List<String> tags,
        List<Revision> revisions,
        List<Step> steps,
        @Nullable LookAt look,
        String notes) {

    public Recipe {
        if (revisions.isEmpty()) {
            throw new IllegalArgumentException("A recipe needs at least one revision.");
        }
    }

    /** What a pigment's percent is of. */
    public enum PercentOf {
        /** Part A and part B together, pigment on top. */
        MIXED_RESIN("mixed resin"),
        /** Part A alone, also called phr. */
        PART_A("part A");

        private final String words;

        PercentOf(String words) {
            this.words = words;
        }

        /** Returns the words used in files and on sheets. */
        public String words() {
            return words;
        }
    }

    /**
     * One immutable state of the formula.
     *
     * @param number 1, 2, 3 …
     * @param date the day it was written, or null
     * @param resinId the resin's id
     * @param percentOf what the percents are of
     * @param pigments the pigments in the order of work, each once; none is clear resin
     * @param why why it was changed
     */
    public record Revision(
            int number,
            @Nullable LocalDate date,
            String resinId,
            PercentOf percentOf,
            List<PigmentLoading> pigments,
            String why) {}

    /**
     * How much of a pigment a revision asks for.
     *
     * @param pigmentId the pigment's id
     * @param percent the percent of what the revision says
     */
    public record PigmentLoading(String pigmentId, Percent percent) {}

    /**
     * A step of the work.
     *
     * @param text what to do
     * @param when such as {@code before part B}, or empty
     */
    public record Step(String text, String when) {}

    /**
     * A reading of a pour.
     *
     * @param pourId the pour's id
     * @param reading which of its readings, from 0
     */
    public record LookAt(String pourId, int reading) {}

    /** Returns the same recipe, known by another reading. */
    public Recipe with(LookAt other) {
        return new Recipe(id, name, tags, revisions, steps, other, notes);
    }

    /** Returns the revision of a number, or null where there is none. */
    public @Nullable Revision revision(int number) {
        for (Revision revision : revisions) {
            if (revision.number() == number) {
                return revision;
            }
        }
        return null;
    }

    /** Returns the current revision, the last one. */
    public Revision current() {
        return revisions.get(revisions.size() - 1);
    }
}
