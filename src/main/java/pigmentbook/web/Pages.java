package pigmentbook.web;

import gg.jte.ContentType;
import gg.jte.TemplateEngine;
import gg.jte.output.StringOutput;
import io.javalin.http.Context;
import java.util.Map;

/** Draws the templates, which are classes already. */
final class Pages {

    private static final TemplateEngine ENGINE = TemplateEngine.createPrecompiled(ContentType.Html);

    private Pages() {}

    static void show(Context context, String template, Map<String, Object> values) {
        context.contentType("text/html; charset=utf-8").result(drawn(template, values));
    }

    static String told(String title, String text) {
        return drawn("told.jte", Map.of("title", title, "text", text));
    }

    static String drawn(String template, Map<String, Object> values) {
        StringOutput out = new StringOutput(32 * 1024);
        ENGINE.render(template, values, out);
        return out.toString();
    }
}
