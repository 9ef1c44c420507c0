package pigmentbook.store;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.node.JsonNodeFactory;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;

/** Laws of writing a change into the text that a person laid out. */
class JsonSpliceProperties {

    private static ObjectNode read(String text) throws RefusedException {
        return JsonFile.read(text.getBytes(StandardCharsets.UTF_8));
    }

    @Property
    void savingWhatIsThereLeavesEveryByte(@ForAll long seed) throws RefusedException {
        RandomJson random = new RandomJson(seed);
        String text = random.text(random.object(4));
        assertThat(JsonSplice.apply(text, read(text), read(text))).isEqualTo(text);
    }

    @Property
    void whatWasSavedReadsBackAsItWasMeant(@ForAll long seed) throws RefusedException {
        RandomJson random = new RandomJson(seed);
        ObjectNode before = random.object(4);
        if (!(random.changed(before, 4) instanceof ObjectNode after)) {
            return;
        }
        String text = random.text(before);
        String saved = JsonSplice.apply(text, read(text), after);
        assertThat(JsonSplice.same(read(saved), after))
                .as("%s%n→ %s%nshould say %s", text, saved, after)
                .isTrue();
    }

    /** There and back: what a change adds or takes out, its undoing takes out or adds, and no other value is lost. */
    @Property
    void undoneChangesReadBackAsTheFirst(@ForAll long seed) throws RefusedException {
        RandomJson random = new RandomJson(seed);
        ObjectNode before = random.object(4);
        if (!(random.changed(before, 4) instanceof ObjectNode after)) {
            return;
        }
        String text = random.text(before);
        String saved = JsonSplice.apply(text, read(text), after);
        String undone = JsonSplice.apply(saved, read(saved), before);
        assertThat(JsonSplice.same(read(undone), before)).isTrue();
    }

    @Property
    void changingOneValueChangesOnlyItsOwnPlace(@ForAll long seed) throws RefusedException {
        RandomJson random = new RandomJson(seed);
        String text = random.text(random.object(4));
        ObjectNode before = read(text);
        List<JsonSpan> plain = new ArrayList<>();
        List<Runnable> changes = new ArrayList<>();
        ObjectNode after = before.deepCopy();
        collect(JsonSpan.of(text), after, plain, changes);
        if (plain.isEmpty()) {
            return;
        }
        int which = Math.floorMod((int) seed, plain.size());
        changes.get(which).run();
        JsonSpan span = plain.get(which);
        assertThat(JsonSplice.apply(text, before, after))
                .isEqualTo(text.substring(0, span.from()) + "\"changed\"" + text.substring(span.to()));
    }

    private static void collect(JsonSpan span, JsonNode node, List<JsonSpan> plain, List<Runnable> changes) {
        for (int i = 0; i < span.members().size(); i++) {
            JsonSpan.Member member = span.members().get(i);
            JsonNode child = member.name() == null ? node.get(i) : node.get(member.name());
            if (child.isContainerNode()) {
                collect(member.value(), child, plain, changes);
                continue;
            }
            plain.add(member.value());
            JsonNode changed = JsonNodeFactory.instance.textNode("changed");
            int place = i;
            changes.add(() -> {
                if (node instanceof ObjectNode object) {
                    object.set(member.name(), changed);
                } else {
                    ((com.fasterxml.jackson.databind.node.ArrayNode) node).set(place, changed);
                }
            });
        }
    }
}
