package pigmentbook.tint;

/**
 * A reading that can't be used.
 *
 * @param pourId the pour
 * @param reading which of its readings, from 0
 * @param why what it lacks, as half a sentence: "it has no depth"
 */
public record SetAside(String pourId, int reading, String why) {}
