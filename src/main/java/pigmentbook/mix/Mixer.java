package pigmentbook.mix;

import pigmentbook.book.Book;
import pigmentbook.book.Recipe;

/** Works a request out into a mix. */
public final class Mixer {

    private Mixer() {}

    /**
     * Works a request out.
     *
     * @param book the book
     * @param recipe the recipe
     * @param revision the revision to mix
     * @param request what is wanted
     * @return the mix
     * @throws MixRefusedException if the request can't be met
     */
    @SuppressWarnings("DoNotCallSuggester")
    public static Mix mix(Book book, Recipe recipe, Recipe.Revision revision, MixRequest request) {
        throw new MixRefusedException(recipe.id() + " can't be mixed yet.");
    }
}
