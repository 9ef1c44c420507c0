package pigmentbook.sheet;

/** The words an office program says when something unfit is typed. */
final class Checks {

    static final String TITLE = "Not a fit entry";

    private Checks() {}

    static String message(Cell.Check check) {
        return switch (check) {
            case ANYTHING -> "";
            case NUMBER -> "Type a number, 0 or more, without its unit.";
            case PERCENT -> "Type a number from 0 to 100, without the percent sign.";
            case RATING -> "Type a whole number from 1 to 5.";
        };
    }
}
