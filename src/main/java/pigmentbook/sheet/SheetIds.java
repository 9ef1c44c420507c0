package pigmentbook.sheet;

import java.security.SecureRandom;
import java.time.Clock;
import java.time.LocalDate;

/** Ids of exported sheets: the day, the recipe, and six characters that no other export has. */
public final class SheetIds {

    private static final String LETTERS = "abcdefghjkmnpqrstuvwxyz23456789";
    private static final int LENGTH = 6;

    private SheetIds() {}

    /** Returns an id that no other export has. */
    public static String next(Clock clock, String recipeId) {
        SecureRandom random = new SecureRandom();
        StringBuilder id = new StringBuilder(LocalDate.now(clock) + "-" + recipeId + "-");
        for (int i = 0; i < LENGTH; i++) {
            id.append(LETTERS.charAt(random.nextInt(LETTERS.length())));
        }
        return id.toString();
    }
}
