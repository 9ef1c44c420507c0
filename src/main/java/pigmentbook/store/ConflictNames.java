package pigmentbook.store;

import java.util.List;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;

/**
 * The names that programs which keep folders in step give to the second version of a file that two people changed at
 * once, and that file managers give to copies.
 *
 * <p>Common practice, no source: {@code ember (1)}, {@code ember (conflicted copy 2026-11-02)}, {@code ember - Copy},
 * {@code ember copy 2}, {@code ember.sync-conflict-20261102-101112-ABC}, {@code ember_conflict-20261102},
 * {@code ember~HOST}, {@code ember-HOST's conflicting copy}.
 */
final class ConflictNames {

    private static final String WORDS = "(?:conflict|konflikt|conflit|conflito|kopie|copie|copia|copy)";

    private static final Pattern ENDING = Pattern.compile(
            " ?\\(\\d+\\)"
                    + "| ?[(\\[][^()\\[\\]]*" + WORDS + "[^()\\[\\]]*[)\\]]"
                    + "| ?(?:- )?(?:copy|kopie|copie|copia)(?: ?\\(?\\d+\\)?)?"
                    + "|[._ -](?:sync-)?conflict(?:ed)?(?:[._ -].*)?"
                    + "|~.+"
                    + "|[ -].+['’]s conflict(?:ing|ed) copy.*",
            Pattern.CASE_INSENSITIVE | Pattern.UNICODE_CASE);

    private static final Pattern ANY =
            Pattern.compile("[a-z0-9-]+?(?:" + ENDING.pattern() + ")", Pattern.CASE_INSENSITIVE | Pattern.UNICODE_CASE);

    private ConflictNames() {}

    /** Returns whether a file's name, without {@code .json}, is one of a second version. */
    static boolean matches(String name) {
        return ANY.matcher(name).matches();
    }

    /**
     * Returns the name beside which a second version was put, or null where it is not there.
     *
     * @param name the second version's name, without {@code .json}
     * @param others the names of the files beside it, without {@code .json}
     */
    static @Nullable String original(String name, List<String> others) {
        String original = null;
        for (String other : others) {
            boolean fits = name.startsWith(other)
                    && ENDING.matcher(name.substring(other.length())).matches();
            if (fits && (original == null || other.length() > original.length())) {
                original = other;
            }
        }
        return original;
    }
}
