package pigmentbook.sheet;

import java.util.regex.Pattern;

/** Other people's text in a message: on one line, cut, without marks that can't be seen. */
final class Shown {

    private static final int MOST = 60;
    private static final Pattern UNSEEN = Pattern.compile("[\\p{Cc}\\p{Cf}\\p{Cs}\\p{Zl}\\p{Zp}]");

    private Shown() {}

    static String quoted(String text) {
        String cut = text.length() > MOST ? text.substring(0, MOST) + "…" : text;
        return "\"" + UNSEEN.matcher(cut).replaceAll("·") + "\"";
    }
}
