package pigmentbook.cli;

import java.util.LinkedHashMap;
import java.util.Map;
import java.util.function.Supplier;
import picocli.CommandLine;

/** The commands. Only the one that is asked for is built, for building them all takes time at every start. */
final class Commands implements CommandLine.IFactory {

    private final BookOptions book;

    Commands(BookOptions book) {
        this.book = book;
    }

    /** Returns the commands in the order they are listed. */
    static Map<String, Supplier<Object>> all() {
        Map<String, Supplier<Object>> all = new LinkedHashMap<>();
        all.put("open", OpenCommand::new);
        all.put("mix", MixCommand::new);
        all.put("again", AgainCommand::new);
        all.put("over", OverCommand::new);
        all.put("recipes", RecipesCommand::new);
        all.put("recipe", RecipeCommand::new);
        all.put("mold", MoldCommand::new);
        all.put("nearest", NearestCommand::new);
        all.put("difference", DifferenceCommand::new);
        all.put("tint", TintCommand::new);
        all.put("look", LookCommand::new);
        all.put("match", MatchCommand::new);
        all.put("stock", StockCommand::new);
        all.put("where-used", WhereUsedCommand::new);
        all.put("read-back", ReadBackCommand::new);
        all.put("check", CheckCommand::new);
        all.put("pack", PackCommand::new);
        all.put("unpack", UnpackCommand::new);
        all.put("import", ImportCommand::new);
        all.put("workbook", WorkbookCommand::new);
        return all;
    }

    /** Adds the command that the arguments name, or all of them where they name none. */
    static void addTo(CommandLine commands, BookOptions book, String... args) {
        Map<String, Supplier<Object>> all = all();
        String asked = null;
        for (int i = 0; i < args.length && asked == null; i++) {
            if (args[i].equals("--book")) {
                i++;
            } else if (!args[i].startsWith("-")) {
                asked = args[i];
                if (!all.containsKey(asked)) {
                    break;
                }
            }
        }
        if (asked != null && all.containsKey(asked)) {
            commands.addSubcommand(asked, new CommandLine(all.get(asked).get(), new Commands(book)));
        } else {
            all.forEach((name, command) ->
                    commands.addSubcommand(name, new CommandLine(command.get(), new Commands(book))));
        }
    }

    @Override
    public <K> K create(Class<K> type) throws Exception {
        return type.equals(BookOptions.class)
                ? type.cast(book)
                : CommandLine.defaultFactory().create(type);
    }
}
