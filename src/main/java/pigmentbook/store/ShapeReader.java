package pigmentbook.store;

import pigmentbook.mold.Shape;
import pigmentbook.quantity.Area;
import pigmentbook.quantity.Length;
import pigmentbook.quantity.Mass;
import pigmentbook.quantity.Temperature;
import pigmentbook.quantity.Volume;

/** Reads shapes. */
final class ShapeReader {

    private ShapeReader() {}

    static Shape read(Fields f) throws RefusedException {
        String kind = f.needText("kind");
        return f.made(() -> switch (kind) {
            case "box" -> new Shape.Box(length(f, "length"), length(f, "width"), length(f, "depth"));
            case "taperedBox" ->
                new Shape.TaperedBox(
                        length(f, "topLength"),
                        length(f, "topWidth"),
                        length(f, "bottomLength"),
                        length(f, "bottomWidth"),
                        length(f, "depth"));
            case "cylinder" -> new Shape.Cylinder(length(f, "diameter"), length(f, "depth"));
            case "cone" -> new Shape.Cone(length(f, "topDiameter"), length(f, "bottomDiameter"), length(f, "depth"));
            case "dome" -> new Shape.Dome(length(f, "diameter"), length(f, "depth"));
            case "outline" -> new Shape.Outline(f.points("points"), f.outlines("holes"), length(f, "depth"));
            case "stations" ->
                new Shape.Stations(
                        length(f, "spacing"),
                        f.amounts("widths", Length::parse),
                        f.amounts("bottomWidths", Length::parse),
                        length(f, "depth"));
            case "prism" -> new Shape.Prism(f.needAmount("area", Area::parse), length(f, "depth"));
            case "volume" -> new Shape.KnownVolume(f.needAmount("volume", Volume::parse));
            case "water" ->
                new Shape.Water(f.needAmount("mass", Mass::parse), f.needAmount("temperature", Temperature::parse));
            default ->
                throw new RefusedException(
                        f.path() + "/kind",
                        "unknown-word",
                        "kind is \"" + Records.shown(kind)
                                + "\"; one of box, taperedBox, cylinder, cone, dome, outline, stations, prism,"
                                + " volume, water was expected.");
        });
    }

    private static Length length(Fields f, String name) throws RefusedException {
        return f.needAmount(name, Length::parse);
    }
}
