package pigmentbook.quantity;

/** An amount: a number with its unit, and the text a person wrote for it. */
public sealed interface Amount
        permits Area,
                Coverage,
                Density,
                Duration,
                Length,
                Mass,
                Money,
                Percent,
                Ratio,
                Temperature,
                Volume,
                WeighingStep {

    /** Returns the text as a person wrote it, for showing it again and for saving it unchanged. */
    String written();
}
