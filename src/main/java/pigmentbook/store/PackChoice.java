package pigmentbook.store;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Deque;
import java.util.List;
import java.util.SortedSet;
import java.util.TreeSet;
import org.jspecify.annotations.Nullable;
import pigmentbook.book.Book;
import pigmentbook.book.Lot;
import pigmentbook.book.Pigment;
import pigmentbook.book.Pour;
import pigmentbook.book.Recipe;

/**
 * The files that one recipe or one pour needs. A recipe: its resins and pigments with their lots, its pours, their
 * molds and photos. A pour: itself, its recipe with resins and pigments, the lots that were weighed, its mold and
 * photos.
 */
final class PackChoice {

    private record Named(Kind kind, String id) {}

    private final Opened opened;
    private final Book book;
    private final TreeSet<String> files = new TreeSet<>();
    private final List<SetAside> setAside = new ArrayList<>();
    private final Deque<Named> open = new ArrayDeque<>();

    private PackChoice(Opened opened) {
        this.opened = opened;
        this.book = opened.book();
    }

    static PackChoice of(Opened opened, String id) {
        PackChoice choice = new PackChoice(opened);
        Recipe recipe = choice.book.recipes().get(id);
        choice.need(Kind.SETTINGS, "book");
        if (recipe != null) {
            choice.wholeRecipe(recipe);
        } else {
            choice.need(Kind.POUR, id);
        }
        while (!choice.open.isEmpty()) {
            choice.follow(choice.open.pop());
        }
        return choice;
    }

    SortedSet<String> files() {
        return files;
    }

    List<SetAside> setAside() {
        return setAside;
    }

    private void need(Kind kind, @Nullable String id) {
        String file = id == null ? null : opened.fileOf(kind, id);
        // What the book lacks, "check" tells.
        if (file != null && id != null && files.add(file)) {
            open.push(new Named(kind, id));
        }
    }

    private void wholeRecipe(Recipe recipe) {
        need(Kind.RECIPE, recipe.id());
        book.pours().values().stream()
                .filter(pour -> pour.recipeId().equals(recipe.id()))
                .forEach(pour -> need(Kind.POUR, pour.id()));
        for (Recipe.Revision revision : recipe.revisions()) {
            lotsOf(revision.resinId());
            revision.pigments().forEach(each -> lotsOf(each.pigmentId()));
        }
    }

    private void lotsOf(String product) {
        for (Lot lot : book.lots().values()) {
            if (lot.of().equals(product)) {
                need(Kind.LOT, lot.id());
            }
        }
    }

    private void follow(Named named) {
        switch (named.kind()) {
            case RECIPE -> recipe(book.recipes().get(named.id()));
            case POUR -> pour(book.pours().get(named.id()));
            case LOT -> lot(book.lots().get(named.id()));
            case PIGMENT -> pigment(book.pigments().get(named.id()));
            default -> {
                // Settings, resins and molds name no other record.
            }
        }
    }

    private void recipe(@Nullable Recipe recipe) {
        if (recipe == null) {
            return;
        }
        for (Recipe.Revision revision : recipe.revisions()) {
            need(Kind.RESIN, revision.resinId());
            revision.pigments().forEach(each -> need(Kind.PIGMENT, each.pigmentId()));
        }
        if (recipe.look() != null) {
            need(Kind.POUR, recipe.look().pourId());
        }
    }

    private void lot(@Nullable Lot lot) {
        if (lot != null) {
            need(lot.part() == null ? Kind.PIGMENT : Kind.RESIN, lot.of());
        }
    }

    private void pigment(@Nullable Pigment pigment) {
        if (pigment != null && pigment.contains() != null) {
            need(Kind.PIGMENT, pigment.contains().pigmentId());
        }
    }

    private void pour(@Nullable Pour pour) {
        if (pour == null) {
            return;
        }
        need(Kind.RECIPE, pour.recipeId());
        need(Kind.MOLD, pour.moldId());
        for (Pour.Layer layer : pour.layers()) {
            for (Pour.Cup cup : layer.cups()) {
                for (Pour.Weighed weighed : cup.weighed()) {
                    need(Kind.LOT, weighed.lot());
                    if (weighed.item().isPigment()) {
                        need(Kind.PIGMENT, weighed.item().id());
                    }
                }
            }
        }
        pour.photos().forEach(photo -> photo(pour, photo));
    }

    /** A photo's name may be from the book's folder, from its folder of photos, or from the pour's own. */
    private void photo(Pour pour, String photo) {
        String own = String.valueOf(opened.fileOf(Kind.POUR, pour.id()));
        String beside = own.substring(0, own.lastIndexOf('/') + 1);
        for (String file : List.of(photo, "photos/" + photo, beside + photo)) {
            try {
                PackPath.requireSafe(file);
            } catch (PackPath.NoPlace e) {
                continue;
            }
            Path path = opened.folder().resolve(file);
            if (Files.isRegularFile(path) && !Files.isSymbolicLink(path)) {
                files.add(file);
                return;
            }
        }
        setAside.add(SetAside.of(photo, "The pour " + pour.id() + " names this photo; the book has no such file."));
    }
}
