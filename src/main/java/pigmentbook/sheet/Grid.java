package pigmentbook.sheet;

/** One sheet as rows of typed cells. */
public record Grid(String title) {}
