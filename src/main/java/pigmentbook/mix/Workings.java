package pigmentbook.mix;

import java.util.List;

/** How the figures of a mix come about: worked out only when somebody asks. */
public final class Workings {

    private Workings() {}

    /** Returns how the figures come about, in order. */
    public static List<Mix.Working> of(Mix mix) {
        return List.of(new Mix.Working("Mixed resin", mix.totals().mixedResinGrams(), "g", "", ""));
    }
}
