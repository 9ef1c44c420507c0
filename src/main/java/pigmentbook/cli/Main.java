package pigmentbook.cli;

import java.io.Console;
import java.io.FileDescriptor;
import java.io.FileOutputStream;
import java.io.PrintStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.time.Clock;
import java.time.ZoneId;
import java.util.List;
import picocli.CommandLine;
import picocli.CommandLine.ParameterException;
import pigmentbook.mix.MixRefusedException;
import pigmentbook.quantity.BadAmountException;
import pigmentbook.store.BookUnavailableException;
import pigmentbook.tint.TintRefusedException;

/** Where the program starts, and where everything is put together. */
public final class Main {

    /** Done. */
    static final int DONE = 0;

    /** The request can't be met. */
    static final int REFUSED = 1;

    /** Wrong usage. */
    static final int USAGE = 2;

    private Main() {}

    /** Runs a command and ends with its exit status. */
    public static void main(String[] args) {
        PrintStream out = stream(FileDescriptor.out);
        Context context = new Context(
                out,
                stream(FileDescriptor.err),
                System.getenv(),
                Clock.system(ZoneId.systemDefault()),
                Path.of("").toAbsolutePath(),
                isTerminal());
        int status = run(context, args);
        out.flush();
        System.exit(status);
    }

    /** Returns whether a person looks on. Since Java 22 there is always a console, which then says what it is. */
    @SuppressWarnings("SystemConsoleNull")
    private static boolean isTerminal() {
        Console console = System.console();
        if (console == null) {
            return false;
        }
        try {
            return (boolean) Console.class.getMethod("isTerminal").invoke(console);
        } catch (ReflectiveOperationException e) {
            return true;
        }
    }

    private static PrintStream stream(FileDescriptor descriptor) {
        return new PrintStream(
                new FileOutputStream(descriptor), descriptor == FileDescriptor.err, StandardCharsets.UTF_8);
    }

    /** Runs a command and returns its exit status. */
    static int run(Context context, String... args) {
        BookOptions book = new BookOptions(context);
        CommandLine commands = new CommandLine(new PigmentBook(), new Commands(book));
        Commands.addTo(commands, book, args);
        commands.setOut(new java.io.PrintWriter(context.out(), true, StandardCharsets.UTF_8));
        commands.setErr(new java.io.PrintWriter(context.err(), true, StandardCharsets.UTF_8));
        commands.setColorScheme(CommandLine.Help.defaultColorScheme(
                context.colour() ? CommandLine.Help.Ansi.ON : CommandLine.Help.Ansi.OFF));
        commands.setUsageHelpWidth(80);
        commands.setCaseInsensitiveEnumValuesAllowed(true);
        commands.setParameterExceptionHandler((exception, given) -> usage(context, exception));
        commands.setExecutionExceptionHandler((exception, command, parsed) -> refused(context, exception));
        return commands.execute(args);
    }

    private static int usage(Context context, ParameterException exception) {
        CommandLine command = exception.getCommandLine();
        String hint = "";
        if (exception instanceof CommandLine.UnmatchedArgumentException unmatched) {
            List<String> near = unmatched.getSuggestions();
            hint = near.isEmpty() ? "" : " Did you mean " + String.join(" or ", near) + "?";
        }
        String message = exception.getMessage();
        context.err()
                .println((message == null
                                ? "These arguments don't fit."
                                : message.replace("is not an int", "is not a whole number")
                                        .replace(" (case-insensitive)", ""))
                        + (hint.isEmpty() ? "" : "." + hint));
        context.err().println("See: " + command.getCommandSpec().qualifiedName() + " --help");
        return USAGE;
    }

    private static int refused(Context context, Exception exception) {
        boolean known = exception instanceof RequestException
                || exception instanceof MixRefusedException
                || exception instanceof TintRefusedException
                || exception instanceof BadAmountException
                || exception instanceof BookUnavailableException;
        if (known) {
            context.err().println(exception.getMessage());
            return REFUSED;
        }
        context.err()
                .println("Something went wrong inside the program ("
                        + exception.getClass().getSimpleName()
                        + "); nothing was changed. Set PIGMENT_BOOK_DEBUG=1 and run it again to see where.");
        if (context.env().containsKey("PIGMENT_BOOK_DEBUG")) {
            exception.printStackTrace(context.err());
        }
        return REFUSED;
    }
}
