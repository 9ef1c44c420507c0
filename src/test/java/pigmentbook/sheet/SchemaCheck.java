package pigmentbook.sheet;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import org.apache.xmlbeans.XmlException;
import org.apache.xmlbeans.XmlObject;
import org.apache.xmlbeans.XmlOptions;
import org.openxmlformats.schemas.spreadsheetml.x2006.main.StyleSheetDocument;
import org.openxmlformats.schemas.spreadsheetml.x2006.main.WorkbookDocument;
import org.openxmlformats.schemas.spreadsheetml.x2006.main.WorksheetDocument;

/** Checks xlsx files against the schemas of ISO/IEC 29500; started in a program of its own that has them whole. */
final class SchemaCheck {

    private SchemaCheck() {}

    public static void main(String[] files) throws IOException, XmlException {
        int wrong = 0;
        for (String file : files) {
            byte[] xlsx = Files.readAllBytes(Path.of(file));
            wrong += wrong(file, WorksheetDocument.Factory.parse(part(xlsx, "xl/worksheets/sheet1.xml")));
            wrong += wrong(file, WorkbookDocument.Factory.parse(part(xlsx, "xl/workbook.xml")));
            wrong += wrong(file, StyleSheetDocument.Factory.parse(part(xlsx, "xl/styles.xml")));
        }
        if (wrong > 0) {
            throw new IllegalStateException(wrong + " parts are not as the schemas want them; error: see above");
        }
    }

    private static java.io.InputStream part(byte[] xlsx, String name) throws IOException {
        return new java.io.ByteArrayInputStream(Reread.entry(xlsx, name));
    }

    private static int wrong(String file, XmlObject document) {
        List<org.apache.xmlbeans.XmlError> errors = new ArrayList<>();
        boolean valid = document.validate(new XmlOptions().setErrorListener(errors));
        errors.forEach(error -> System.out.println(file + ": " + error));
        return valid ? 0 : 1;
    }
}
