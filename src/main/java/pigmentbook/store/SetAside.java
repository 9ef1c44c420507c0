package pigmentbook.store;

/**
 * A file that was not taken.
 *
 * @param file its name, with forward slashes; signs that can't be seen are shown as dots
 * @param why why not, and what to do
 */
public record SetAside(String file, String why) {

    static SetAside of(String file, String why) {
        return new SetAside(Records.seen(file), why);
    }
}
