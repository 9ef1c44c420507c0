package pigmentbook.store;

import java.text.Normalizer;
import java.util.Locale;
import java.util.regex.Pattern;

/** Makes ids of names. */
public final class Ids {

    private static final int MOST = 60;
    private static final Pattern MARKS = Pattern.compile("\\p{M}+");
    private static final Pattern SMALL = Pattern.compile("[^a-z0-9]+");
    private static final Pattern ANY = Pattern.compile("[^A-Za-z0-9]+");
    private static final Pattern ENDS = Pattern.compile("(^-+)|(-+$)");

    private Ids() {}

    /** Returns a name's letters and digits without accents, with hyphens between words; empty where it has none. */
    public static String of(String name) {
        return cut(SMALL.matcher(plain(name.toLowerCase(Locale.ROOT))).replaceAll("-"));
    }

    /** Returns a lot's id: as it is written, with hyphens for what an id can't have. */
    static String ofLot(String name) {
        return cut(ANY.matcher(plain(name)).replaceAll("-"));
    }

    private static String plain(String name) {
        return MARKS.matcher(Normalizer.normalize(name, Normalizer.Form.NFD))
                .replaceAll("")
                .replace("ß", "ss");
    }

    private static String cut(String id) {
        String trimmed = ENDS.matcher(id).replaceAll("");
        return ENDS.matcher(trimmed.substring(0, Math.min(MOST, trimmed.length())))
                .replaceAll("");
    }
}
