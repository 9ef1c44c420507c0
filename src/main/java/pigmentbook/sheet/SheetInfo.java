package pigmentbook.sheet;

import java.time.LocalDateTime;

/**
 * What a mix does not know of the sheet it stands on.
 *
 * @param id unique to each export, so that a filled-in sheet is kept only once
 * @param made when it was made
 * @param by who made it, or empty
 * @param paper what it is printed on
 */
public record SheetInfo(String id, LocalDateTime made, String by, Paper paper) {

    public SheetInfo {
        if (id.isBlank()) {
            throw new IllegalArgumentException("A sheet needs an id of its own.");
        }
    }
}
