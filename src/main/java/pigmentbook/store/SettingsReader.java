package pigmentbook.store;

import java.util.HashMap;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import pigmentbook.book.Settings;
import pigmentbook.colour.Lab;
import pigmentbook.quantity.Mass;
import pigmentbook.quantity.Money;
import pigmentbook.quantity.Percent;
import pigmentbook.quantity.Temperature;
import pigmentbook.quantity.WeighingStep;

/** Reads {@code book.json}. */
final class SettingsReader {

    /** The format of the files that this program reads and writes. */
    static final int FORMAT = 1;

    private SettingsReader() {}

    static Settings read(Fields f) throws RefusedException {
        Settings unstated = Settings.unstated();
        Integer format = f.integer("format");
        if (format != null && format != FORMAT) {
            throw new RefusedException(
                    "/format",
                    "unknown-format",
                    "format is " + format + "; this program reads " + FORMAT + ". Use a newer program for this book.");
        }
        Map<String, String> units = new HashMap<>(unstated.units());
        Fields given = f.child("units");
        if (given != null) {
            for (String kind : unstated.units().keySet()) {
                String unit = given.text(kind);
                if (unit != null) {
                    units.put(kind, unit);
                }
            }
        }
        Fields scales = f.child("scales");
        Fields defaults = f.child("defaults");
        return new Settings(
                f.name("name", ""),
                Map.copyOf(units),
                scale(scales == null ? null : scales.child("resin"), unstated.resinScale()),
                scale(scales == null ? null : scales.child("fine"), unstated.fineScale()),
                or(defaults == null ? null : defaults.amount("allowance", Percent::parse), unstated.allowance()),
                defaults == null ? null : defaults.amount("cup", Mass::parse),
                or(defaults == null ? null : defaults.amount("cupResidue", Mass::parse), unstated.cupResidue()),
                defaults == null ? null : defaults.amount("cupTare", Mass::parse),
                or(
                        defaults == null ? null : defaults.amount("roomTemperature", Temperature::parse),
                        unstated.roomTemperature()),
                defaults == null ? null : defaults.amount("roomHumidity", Percent::parse),
                or(defaults == null ? null : defaults.yesOrNo("secondPerson"), unstated.secondPerson()),
                defaults == null
                        ? null
                        : defaults.amount(
                                "currency", letters -> Money.parse("0", letters).currency()),
                backings(f.child("backings")));
    }

    private static <T> T or(@Nullable T value, T otherwise) {
        return value == null ? otherwise : value;
    }

    private static Settings.Scale scale(@Nullable Fields f, Settings.Scale otherwise) throws RefusedException {
        if (f == null) {
            return otherwise;
        }
        WeighingStep step = f.amount("step", WeighingStep::parse);
        return new Settings.Scale(step == null ? otherwise.step() : step, f.amount("most", Mass::parse));
    }

    private static Map<String, Lab> backings(@Nullable Fields f) throws RefusedException {
        Map<String, Lab> backings = new HashMap<>(Settings.BACKINGS);
        if (f != null) {
            for (String name : Settings.BACKINGS.keySet()) {
                Fields backing = f.child(name);
                Lab lab = backing == null ? null : backing.lab("lab");
                if (lab != null) {
                    backings.put(name, lab);
                }
            }
        }
        return Map.copyOf(backings);
    }
}
