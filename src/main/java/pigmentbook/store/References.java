package pigmentbook.store;

import java.io.IOException;
import java.nio.file.Files;
import java.util.ArrayList;
import java.util.Collection;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import pigmentbook.book.Book;
import pigmentbook.book.Item;
import pigmentbook.book.Lot;
import pigmentbook.book.NearIds;
import pigmentbook.book.Pigment;
import pigmentbook.book.Pour;
import pigmentbook.book.Recipe;

/** What does not fit together: records that name others which are not there, or themselves. */
final class References {

    private final Opened opened;
    private final Book book;
    private final List<Problem> problems = new ArrayList<>();

    private References(Opened opened) {
        this.opened = opened;
        this.book = opened.book();
    }

    static List<Problem> problems(Opened opened) {
        References references = new References(opened);
        references.book.pigments().values().forEach(references::pigment);
        references.book.lots().values().forEach(references::lot);
        references.book.recipes().values().forEach(references::recipe);
        references.book.pours().values().forEach(references::pour);
        return references.problems;
    }

    private void add(String file, String path, String code, String text) {
        int line = 0;
        try {
            line = JsonFile.lineOf(Files.readAllBytes(opened.folder().resolve(file)), path);
        } catch (IOException e) {
            // The file went away since it was read; the problem is still worth telling, without its line.
            line = 0;
        }
        problems.add(new Problem(file, line, code, text));
    }

    private void unknown(String file, String path, String what, String id, Collection<String> known) {
        if (!known.contains(id)) {
            add(
                    file,
                    path,
                    "unknown-" + what,
                    "There is no " + what + " \"" + Records.shown(id) + "\" in the book." + NearIds.hint(id, known)
                            + " Correct the name, or add the " + what + ".");
        }
    }

    private void pigment(Pigment pigment) {
        String file = Kind.PIGMENT.folder() + "/" + pigment.id() + ".json";
        Set<String> seen = new HashSet<>();
        Pigment at = pigment;
        while (at != null && at.contains() != null) {
            if (!seen.add(at.id())) {
                add(
                        file,
                        "/contains/pigment",
                        "looping-link",
                        "This concentrate contains itself by way of "
                                + String.join(", ", seen.stream().sorted().toList()) + ". Name the pure pigment.");
                return;
            }
            at = book.pigments().get(at.contains().pigmentId());
        }
        if (pigment.contains() != null) {
            unknown(
                    file,
                    "/contains/pigment",
                    "pigment",
                    pigment.contains().pigmentId(),
                    book.pigments().keySet());
        }
    }

    private void lot(Lot lot) {
        String file = Kind.LOT.folder() + "/" + lot.id() + ".json";
        if (lot.part() != null) {
            unknown(file, "/of", "resin", lot.of(), book.resins().keySet());
        } else if (book.resins().containsKey(lot.of())) {
            add(file, "/of", "missing-part", "\"part\" is missing; A or B was expected for a lot of a resin.");
        } else {
            unknown(file, "/of", "pigment", lot.of(), book.pigments().keySet());
        }
        for (int i = 0; i < lot.shares().size(); i++) {
            String path = "/shares/" + i + "/lot";
            String from = lot.shares().get(i).lotId();
            unknown(file, path, "lot", from, book.lots().keySet());
            if (from.equals(lot.id()) || book.whereUsed(lot).lotIds().contains(from)) {
                add(
                        file,
                        path,
                        "looping-link",
                        "This lot was put together from itself by way of " + from
                                + ". Name the lots it was made from.");
            }
        }
    }

    private void recipe(Recipe recipe) {
        String file = recipe.id() + ".json";
        for (int i = 0; i < recipe.revisions().size(); i++) {
            Recipe.Revision revision = recipe.revisions().get(i);
            unknown(
                    file,
                    "/revisions/" + i + "/resin",
                    "resin",
                    revision.resinId(),
                    book.resins().keySet());
            for (int p = 0; p < revision.pigments().size(); p++) {
                unknown(
                        file,
                        "/revisions/" + i + "/pigments/" + p + "/pigment",
                        "pigment",
                        revision.pigments().get(p).pigmentId(),
                        book.pigments().keySet());
            }
        }
        if (recipe.look() != null) {
            look(file, recipe.look());
        }
    }

    private void look(String file, Recipe.LookAt look) {
        Pour pour = book.pours().get(look.pourId());
        if (pour == null) {
            unknown(file, "/look/pour", "pour", look.pourId(), book.pours().keySet());
        } else if (look.reading() < 0 || look.reading() >= pour.readings().size()) {
            add(
                    file,
                    "/look/reading",
                    "unknown-reading",
                    "reading is " + look.reading() + ", but the pour " + pour.id() + " has "
                            + pour.readings().size() + " readings, counted from 0.");
        }
    }

    private void pour(Pour pour) {
        String file = opened.pourFiles().get(pour.id());
        if (file == null) {
            return;
        }
        Recipe recipe = book.recipes().get(pour.recipeId());
        if (recipe == null) {
            unknown(file, "/recipe", "recipe", pour.recipeId(), book.recipes().keySet());
        } else if (recipe.revision(pour.revision()) == null) {
            add(
                    file,
                    "/revision",
                    "unknown-revision",
                    "The recipe " + recipe.id() + " has no revision " + pour.revision() + "; its last one is "
                            + recipe.current().number() + ".");
        }
        if (pour.moldId() != null) {
            unknown(file, "/mold", "mold", pour.moldId(), book.molds().keySet());
        }
        for (int l = 0; l < pour.layers().size(); l++) {
            List<Pour.Cup> cups = pour.layers().get(l).cups();
            for (int c = 0; c < cups.size(); c++) {
                List<Pour.Weighed> weighed = cups.get(c).weighed();
                for (int w = 0; w < weighed.size(); w++) {
                    weighed(file, "/layers/" + l + "/cups/" + c + "/weighed/" + w, weighed.get(w));
                }
            }
        }
    }

    private void weighed(String file, String path, Pour.Weighed weighed) {
        Item item = weighed.item();
        if (item.isPigment() && !book.pigments().containsKey(item.id())) {
            unknown(file, path + "/item", "pigment", item.id(), book.pigments().keySet());
        }
        String lot = weighed.lot();
        if (lot != null && !lot.equals(Pour.UNKNOWN_LOT) && !lot.isEmpty()) {
            Lot known = book.lots().get(lot);
            if (known == null) {
                unknown(file, path + "/lot", "lot", lot, book.lots().keySet());
            } else if (!known.item().equals(item)) {
                add(
                        file,
                        path + "/lot",
                        "lot-of-another",
                        "The lot " + lot + " is " + known.of() + ", but " + item + " was weighed. Correct the lot.");
            }
        }
    }
}
