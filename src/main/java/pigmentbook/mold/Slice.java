package pigmentbook.mold;

/**
 * What lies between two heights of one mold.
 *
 * @param volumeMl the shape's volume, inserts not deducted, in mL
 * @param displacedMl what the inserts displace there, in mL
 * @param roomMl what is left for resin, in mL; where the mold was measured, scaled by measured/computed
 */
public record Slice(double volumeMl, double displacedMl, double roomMl) {}
