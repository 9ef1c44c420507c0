package pigmentbook.store;

/**
 * Something wrong in the book's folder.
 *
 * @param file the file, from the book's folder, with forward slashes
 * @param line the line, from 1; 0 where no line can be named
 * @param code a short, stable name, lower case with hyphens
 * @param text what is there, what was expected, what to do
 */
public record Problem(String file, int line, String code, String text) {}
