package pigmentbook.store;

import java.text.Normalizer;
import java.util.Locale;

/** Makes ids of names. */
public final class Ids {

    private static final int MOST = 60;

    private Ids() {}

    /** Returns a name's letters and digits without accents, with hyphens between words; empty where it has none. */
    public static String of(String name) {
        String plain = plain(name.toLowerCase(Locale.ROOT)).replaceAll("[^a-z0-9]+", "-");
        return cut(plain);
    }

    /** Returns a lot's id: as it is written, with hyphens for what an id can't have. */
    static String ofLot(String name) {
        return cut(plain(name).replaceAll("[^A-Za-z0-9]+", "-"));
    }

    private static String plain(String name) {
        return Normalizer.normalize(name, Normalizer.Form.NFD)
                .replaceAll("\\p{M}", "")
                .replace("ß", "ss");
    }

    private static String cut(String id) {
        String trimmed = id.replaceAll("(^-+)|(-+$)", "");
        return trimmed.substring(0, Math.min(MOST, trimmed.length())).replaceAll("-+$", "");
    }
}
