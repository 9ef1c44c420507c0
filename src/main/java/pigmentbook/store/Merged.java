package pigmentbook.store;

import com.fasterxml.jackson.databind.node.ObjectNode;
import java.util.ArrayList;
import java.util.List;

/**
 * A record with edits put into it.
 *
 * @param record the record with every edit that could be taken
 * @param outcomes what became of each
 */
record Merged(ObjectNode record, List<Edit.Outcome> outcomes) {

    /**
     * All edits together may be right where one by one they are not, as a ratio's two sides: so that is tried first.
     */
    static Merged of(Kind kind, String id, byte[] old, ObjectNode before, List<Edit> edits) {
        Merged together = oneByOne(kind, id, old, before, edits, false);
        return together.record.equals(before) || isRead(kind, id, BookWriter.spliced(old, before, together.record))
                ? together
                : oneByOne(kind, id, old, before, edits, true);
    }

    private static boolean isRead(Kind kind, String id, byte[] bytes) {
        try {
            Records.read(kind, id, bytes);
            return true;
        } catch (RefusedException e) {
            return false;
        }
    }

    private static Merged oneByOne(
            Kind kind, String id, byte[] old, ObjectNode before, List<Edit> edits, boolean readEach) {
        ObjectNode record = before.deepCopy();
        List<Edit.Outcome> outcomes = new ArrayList<>();
        for (Edit edit : edits) {
            ObjectNode tried = record.deepCopy();
            try {
                if (!Edits.isAsSeen(tried, edit) && !Edits.textAt(tried, edit).equals(edit.now())) {
                    outcomes.add(new Edit.Outcome(edit, Edit.State.CHANGED_ELSEWHERE, Edits.textAt(tried, edit), null));
                    continue;
                }
                Edits.put(tried, edit);
                if (readEach) {
                    Records.read(kind, id, BookWriter.spliced(old, before, tried));
                }
                record = tried;
                outcomes.add(new Edit.Outcome(edit, Edit.State.SAVED, "", null));
            } catch (RefusedException e) {
                outcomes.add(new Edit.Outcome(edit, Edit.State.REFUSED, String.valueOf(e.getMessage()), e.missing()));
            }
        }
        return new Merged(record, outcomes);
    }
}
