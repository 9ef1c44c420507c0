package pigmentbook.store;

import java.util.ArrayList;
import java.util.List;
import pigmentbook.book.Book;
import pigmentbook.book.Lot;
import pigmentbook.book.Pigment;
import pigmentbook.book.Pour;
import pigmentbook.book.Recipe;

/** What in the book refers to a record: such a record can't be put away. */
final class InUse {

    private static final int MOST_NAMED = 3;

    private InUse() {}

    /** Returns why a record can't be put away, or an empty text. */
    static String of(Book book, Kind kind, String id) {
        List<String> users = new ArrayList<>();
        switch (kind) {
            case RESIN, PIGMENT -> {
                for (Recipe recipe : book.recipes().values()) {
                    add(users, takes(recipe, kind, id), recipe.name());
                }
                for (Lot lot : book.lots().values()) {
                    add(users, lot.of().equals(id), "lot " + lot.id());
                }
                for (Pigment pigment : book.pigments().values()) {
                    Pigment.Contains contains = pigment.contains();
                    add(users, contains != null && contains.pigmentId().equals(id), pigment.name());
                }
            }
            case LOT -> {
                Lot lot = book.lots().get(id);
                if (lot != null) {
                    Book.Whereabouts whereabouts = book.whereUsed(lot);
                    users.addAll(whereabouts.pourIds());
                    whereabouts.lotIds().forEach(holder -> users.add("lot " + holder));
                }
            }
            case MOLD -> {
                for (Pour pour : book.pours().values()) {
                    add(users, id.equals(pour.moldId()), pour.id());
                }
            }
            case POUR -> {
                Pour pour = book.pours().get(id);
                if (pour != null && !pour.isBlank()) {
                    return "\"" + id + "\" was poured, so it stays; only one of which nothing was weighed is put away.";
                }
            }
            case RECIPE, SETTINGS -> users.add("the book itself");
        }
        if (users.isEmpty()) {
            return "";
        }
        int more = users.size() - MOST_NAMED;
        return "\"" + id + "\" is named by "
                + String.join(", ", users.subList(0, Math.min(MOST_NAMED, users.size())))
                + (more > 0 ? " and " + more + " more" : "")
                + ", so it stays.";
    }

    private static void add(List<String> users, boolean uses, String name) {
        if (uses) {
            users.add(name);
        }
    }

    private static boolean takes(Recipe recipe, Kind kind, String id) {
        for (Recipe.Revision revision : recipe.revisions()) {
            if (kind == Kind.RESIN && revision.resinId().equals(id)) {
                return true;
            }
            for (Recipe.PigmentLoading loading : revision.pigments()) {
                if (kind == Kind.PIGMENT && loading.pigmentId().equals(id)) {
                    return true;
                }
            }
        }
        return false;
    }
}
