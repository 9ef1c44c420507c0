package pigmentbook.cli;

import java.util.List;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import pigmentbook.store.Opened;
import pigmentbook.store.Problem;

/** Tells what is wrong with the book. */
@Command(
        name = "check",
        mixinStandardHelpOptions = true,
        description =
                "Check the whole book: files that can't be read, names that lead nowhere. Ends with 1 if there are any.",
        footer = {"", "Examples:", "  pigment-book check", "  pigment-book --book ~/studio check --format json"})
final class CheckCommand implements Callable<Integer> {

    @Mixin
    @SuppressWarnings("NullAway.Init")
    private BookOptions book;

    @Mixin
    private AnswerOptions answer = new AnswerOptions();

    @Override
    public Integer call() throws Exception {
        Opened opened = book.open();
        List<Problem> problems = opened.check();
        if (answer.json()) {
            Json.write(book.context().out(), json -> {
                json.writeStartObject();
                json.writeArrayFieldStart("problems");
                for (Problem problem : problems) {
                    json.writeStartObject();
                    json.writeStringField("file", problem.file());
                    json.writeNumberField("line", problem.line());
                    json.writeStringField("code", problem.code());
                    json.writeStringField("text", problem.text());
                    json.writeEndObject();
                }
                json.writeEndArray();
                json.writeEndObject();
            });
        } else if (problems.isEmpty()) {
            book.context().out().println("The book is in order.");
        } else {
            problems.forEach(problem -> book.context().out().println(shown(problem)));
        }
        return problems.isEmpty() ? Main.DONE : Main.REFUSED;
    }

    /** Returns a problem on one line: the file, the line, what is wrong. */
    static String shown(Problem problem) {
        return problem.file() + (problem.line() > 0 ? ":" + problem.line() : "") + ": " + problem.text();
    }
}
