package pigmentbook.sheet;

import java.io.ByteArrayInputStream;
import javax.xml.stream.XMLInputFactory;
import javax.xml.stream.XMLStreamConstants;
import javax.xml.stream.XMLStreamException;
import javax.xml.stream.XMLStreamReader;
import org.jspecify.annotations.Nullable;

/**
 * Reads XML from front to back: no document type, hence no entities; nothing nested without end; no text longer than a
 * cell holds. Names are told without their prefix, which every program chooses for itself.
 */
final class Markup {

    private static final int MOST_DEPTH = 64;

    /** The most characters that an office program keeps in a cell. */
    static final int MOST_TEXT = 32_767;

    private static final XMLInputFactory FACTORY = factory();

    private final XMLStreamReader xml;
    private int depth;

    Markup(byte[] part) throws NoMixSheetException {
        try {
            xml = FACTORY.createXMLStreamReader(new ByteArrayInputStream(part));
        } catch (XMLStreamException e) {
            throw broken();
        }
    }

    private static XMLInputFactory factory() {
        XMLInputFactory factory = XMLInputFactory.newDefaultFactory();
        factory.setProperty(XMLInputFactory.SUPPORT_DTD, false);
        factory.setProperty(XMLInputFactory.IS_SUPPORTING_EXTERNAL_ENTITIES, false);
        return factory;
    }

    private static NoMixSheetException broken() {
        return new NoMixSheetException(
                "holds XML that can't be read, so it is damaged. Fetch it again, or save it anew.");
    }

    /** Goes on to the next start or end of an element, or to text; returns false at the end. */
    boolean next() throws NoMixSheetException {
        try {
            while (xml.hasNext()) {
                switch (xml.next()) {
                    case XMLStreamConstants.DTD, XMLStreamConstants.ENTITY_REFERENCE ->
                        throw new NoMixSheetException(
                                "holds a document type of its own, which no office program writes. It is not read.");
                    case XMLStreamConstants.START_ELEMENT -> {
                        if (++depth > MOST_DEPTH) {
                            throw new NoMixSheetException("is nested too deeply; no mix sheet is. It is not read.");
                        }
                        return true;
                    }
                    case XMLStreamConstants.END_ELEMENT -> {
                        depth--;
                        return true;
                    }
                    case XMLStreamConstants.CHARACTERS, XMLStreamConstants.CDATA, XMLStreamConstants.SPACE -> {
                        return true;
                    }
                    default -> {
                        // Comments and instructions say nothing.
                    }
                }
            }
            return false;
        } catch (XMLStreamException e) {
            throw broken();
        }
    }

    boolean starts(String name) {
        return xml.isStartElement() && xml.getLocalName().equals(name);
    }

    boolean starts() {
        return xml.isStartElement();
    }

    boolean ends(String name) {
        return xml.isEndElement() && xml.getLocalName().equals(name);
    }

    /** Returns the name of the element that starts or ends here. */
    String name() {
        return xml.getLocalName();
    }

    /** Adds the text that stands here, if there is any. */
    void addText(StringBuilder text) throws NoMixSheetException {
        if (xml.isCharacters()) {
            add(text, xml.getText());
        }
    }

    static void add(StringBuilder text, String more) throws NoMixSheetException {
        if (text.length() + more.length() > MOST_TEXT) {
            throw new NoMixSheetException("holds a cell of more than " + MOST_TEXT
                    + " characters; no office program writes one. It is not read.");
        }
        text.append(more);
    }

    /** Returns an attribute of the element that starts here, whatever its prefix, or null. */
    @Nullable
    String attribute(String name) {
        for (int i = 0; i < xml.getAttributeCount(); i++) {
            if (xml.getAttributeLocalName(i).equals(name)) {
                return xml.getAttributeValue(i);
            }
        }
        return null;
    }

    /** Goes to the end of the element that starts here. */
    void skip() throws NoMixSheetException {
        int outside = depth - 1;
        boolean within = true;
        while (within) {
            within = next() && depth > outside;
        }
    }

    /** Returns the text in the element that starts here, all its elements' text in a row, and goes to its end. */
    String text() throws NoMixSheetException {
        int outside = depth - 1;
        StringBuilder text = new StringBuilder();
        while (depth > outside && next()) {
            addText(text);
        }
        return text.toString();
    }
}
