package pigmentbook.store;

import com.fasterxml.jackson.databind.node.JsonNodeFactory;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;

/** Begins an empty book in a folder of its own. */
public final class NewBook {

    private NewBook() {}

    /**
     * Begins a book.
     *
     * @param beside the folder in which the book's folder is made
     * @param name what the book is called; its folder's name is made of it
     * @return the new folder
     * @throws SaveFailedException if there is one of that name already, or it can't be made
     */
    public static Path begin(Path beside, String name) throws SaveFailedException {
        String stem = Ids.of(name);
        Path folder = beside.resolve(stem.isEmpty() ? "my-book" : stem);
        if (Files.exists(folder)) {
            throw new SaveFailedException("There is a folder \"" + folder.getFileName()
                    + "\" already. Give the book another name. Nothing was changed.");
        }
        try {
            Files.createDirectories(folder);
        } catch (IOException e) {
            throw SaveFailures.of(beside, e);
        }
        JsonNodeFactory nodes = JsonNodeFactory.instance;
        ObjectNode book = nodes.objectNode();
        book.put("format", 1).put("name", name);
        book.putObject("units")
                .put("length", "mm")
                .put("mass", "g")
                .put("volume", "mL")
                .put("temperature", "C");
        ObjectNode scales = book.putObject("scales");
        scales.putObject("resin").put("step", "1 g").put("most", "5 kg");
        scales.putObject("fine").put("step", "0.01 g").put("most", "200 g");
        book.putObject("defaults")
                .put("allowance", "5 %")
                .put("cup", "1 kg")
                .put("cupResidue", "4 g")
                .put("roomTemperature", "21 C");
        try {
            new BookWriter(folder).create(Kind.SETTINGS, "book", book);
        } catch (ConflictException e) {
            throw new SaveFailedException(String.valueOf(e.getMessage()));
        }
        return folder;
    }
}
