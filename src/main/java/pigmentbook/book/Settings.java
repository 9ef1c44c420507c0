package pigmentbook.book;

import java.util.Map;
import org.jspecify.annotations.Nullable;
import pigmentbook.colour.Lab;
import pigmentbook.quantity.Mass;
import pigmentbook.quantity.Percent;
import pigmentbook.quantity.Temperature;
import pigmentbook.quantity.WeighingStep;

/**
 * What the whole book agrees on.
 *
 * @param name the book's name
 * @param units the units that amounts are shown in where nobody wrote one: {@code length} → {@code mm} …
 * @param resinScale the scale for part A and part B
 * @param fineScale the scale for pigments
 * @param allowance added to every mix by volume
 * @param cup the most that goes into one cup, or null for no limit
 * @param cupResidue what stays in each cup
 * @param cupTare the empty cup's mass, which a display that was not set to zero shows too, or null
 * @param roomTemperature the room's temperature
 * @param roomHumidity the room's relative humidity ({@code defaults.roomHumidity}), or null where nobody looks
 * @param secondPerson whether a second person checks a cup before part B goes in ({@code defaults.secondPerson})
 * @param currency the currency of costs, or null
 * @param backings the bare, matte backings by name
 */
public record Settings(
        String name,
        Map<String, String> units,
        Scale resinScale,
        Scale fineScale,
        Percent allowance,
        @Nullable Mass cup,
        Mass cupResidue,
        @Nullable Mass cupTare,
        Temperature roomTemperature,
        @Nullable Percent roomHumidity,
        boolean secondPerson,
        @Nullable String currency,
        Map<String, Lab> backings) {

    /** The backings of a book that states none. */
    public static final Map<String, Lab> BACKINGS =
            Map.of("white", new Lab(95, 0, 2), "black", new Lab(22, 0, 0), "wood", new Lab(70, 6, 20));

    /**
     * A scale.
     *
     * @param step the smallest step its display shows
     * @param most the most it carries, or null
     */
    public record Scale(WeighingStep step, @Nullable Mass most) {}

    /**
     * Returns the settings of a book that states none: no allowance, no residue, no cup size, 1 g and 0.01 g, 21 °C,
     * and a second person checks.
     */
    public static Settings unstated() {
        return new Settings(
                "",
                Map.of("length", "mm", "mass", "g", "volume", "mL", "temperature", "C"),
                new Scale(WeighingStep.parse("1 g"), null),
                new Scale(WeighingStep.parse("0.01 g"), null),
                Percent.of(0),
                null,
                Mass.ofGrams(0),
                null,
                Temperature.ofCelsius(21),
                null,
                true,
                null,
                BACKINGS);
    }
}
