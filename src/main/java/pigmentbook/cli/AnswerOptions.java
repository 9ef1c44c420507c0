package pigmentbook.cli;

import picocli.CommandLine.Option;

/** How a command answers. */
final class AnswerOptions {

    /** The forms of an answer. */
    enum Form {
        text,
        json
    }

    @Option(
            names = "--format",
            paramLabel = "text|json",
            defaultValue = "text",
            description = "How to answer: text for people, json for programs.")
    private Form format = Form.text;

    boolean json() {
        return format == Form.json;
    }
}
