package pigmentbook.mold;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.Arrays;
import java.util.List;
import org.junit.jupiter.api.Test;
import pigmentbook.quantity.Area;
import pigmentbook.quantity.Length;
import pigmentbook.quantity.Mass;
import pigmentbook.quantity.Temperature;
import pigmentbook.quantity.Volume;

/** The room of a mold. Expected values are worked out by hand beside each claim unless a source is named. */
class CavityTest {

    private static final double EXACT = 1e-9;

    private static Length length(String text) {
        return Length.parse(text);
    }

    private static Shape box(String length, String width, String depth) {
        return new Shape.Box(length(length), length(width), length(depth));
    }

    private static Cavity cavity(Shape shape, Insert... inserts) {
        return new Cavity(shape, null, List.of(inserts), null);
    }

    private static Shape.Point point(double x, double y) {
        return new Shape.Point(Length.ofMm(x), Length.ofMm(y));
    }

    @Test
    void anInsertIsCountedOnlyAsFarAsItStandsInTheSlice() {
        Insert strip = new Insert("ash strip", box("100 mm", "50 mm", "10 mm"), length("5 mm"), 2);
        Cavity cavity = cavity(box("100 mm", "200 mm", "20 mm"), strip);
        assertThat(cavity.between(0, 5)).isEqualTo(new Slice(100, 0, 100));
        assertThat(cavity.between(0, 10)).isEqualTo(new Slice(200, 50, 150));
        assertThat(cavity.between(10, 20)).isEqualTo(new Slice(200, 50, 150));
        assertThat(cavity.between(15, 20)).isEqualTo(new Slice(100, 0, 100));
        assertThat(cavity.between(0, 10, false)).isEqualTo(new Slice(200, 0, 200));
    }

    @Test
    void anInsertMayStandOutOfTheResin() {
        Insert tall = new Insert("oak post", box("10 mm", "10 mm", "100 mm"), length("0 mm"), 1);
        assertThat(cavity(box("100 mm", "100 mm", "20 mm"), tall).whole().displacedMl())
                .isCloseTo(2, within(EXACT));
    }

    @Test
    void anInsertKnownByItsVolumeIsSpreadOverTheFill() {
        Insert stone = new Insert("knot", new Shape.KnownVolume(Volume.parse("20 mL")), length("0 mm"), 1);
        Cavity cavity = new Cavity(box("100 mm", "100 mm", "20 mm"), length("10 mm"), List.of(stone), null);
        assertThat(cavity.whole().displacedMl()).isCloseTo(20, within(EXACT));
        assertThat(cavity.between(0, 5).displacedMl()).isCloseTo(10, within(EXACT));
    }

    @Test
    void aMeasuredRoomStandsForTheComputedOneAndSlicesScaleWithIt() {
        Insert strip = new Insert("strip", box("100 mm", "50 mm", "10 mm"), length("0 mm"), 1);
        Cavity cavity =
                new Cavity(box("100 mm", "100 mm", "20 mm"), length("10 mm"), List.of(strip), Volume.parse("55 mL"));
        assertThat(cavity.whole().roomMl()).isCloseTo(55, within(EXACT)); // computed 50
        assertThat(cavity.between(0, 20).roomMl()).isCloseTo(150 * 1.1, within(EXACT));
        assertThat(cavity.between(0, 5).roomMl()).isCloseTo(27.5, within(EXACT));
    }

    @Test
    void aWaterFilledMoldHoldsMoreThanItsGramsSay() {
        // 0.997 g on a scale at 20 °C is a mL: 1/1.002852 in the table.
        Shape water = new Shape.Water(Mass.parse("1000 g"), Temperature.parse("20 C"));
        assertThat(cavity(water).whole().roomMl()).isCloseTo(1002.852, within(0.000_51));
    }

    @Test
    void aTaperedChannelTakesItsWidthHalfWayUp() {
        // A live edge 80 mm wide at the top and 60 mm at the floor: counting the top width alone is 14 % too much.
        List<Length> top = List.of(length("80 mm"), length("80 mm"), length("80 mm"));
        List<Length> bottom = List.of(length("60 mm"), length("60 mm"), length("60 mm"));
        Shape channel = new Shape.Stations(length("300 mm"), top, bottom, length("40 mm"));
        assertThat(cavity(channel).whole().volumeMl()).isCloseTo(600 * 70 * 40 / 1000.0, within(EXACT));
        assertThat(80.0 / 70).isCloseTo(1.14, within(0.005));
    }

    @Test
    void anOutlineWithAHoleIsItsAreaTimesTheDepth() {
        Shape ring = new Shape.Outline(
                List.of(point(0, 0), point(100, 0), point(100, 100), point(0, 100)),
                List.of(List.of(point(40, 40), point(60, 40), point(60, 60), point(40, 60))),
                length("10 mm"));
        assertThat(cavity(ring).whole().volumeMl()).isCloseTo(96, within(EXACT));
        assertThat(cavity(ring).areaMm2At(3)).isCloseTo(9600, within(EXACT));
    }

    /** Common practice, no source: a blank 8 1/2 in long for two 4 in pieces leaves 1/2 in for the saw and a recut. */
    @Test
    void aBlankForTwoPiecesLeavesHalfAnInchForTheSaw() {
        Length blank = length("8 1/2 in");
        Length piece = length("4 in");
        assertThat(blank.exactMm().subtract(piece.exactMm().multiply(2)))
                .isEqualTo(length("1/2 in").exactMm());
    }

    @Test
    void whatCannotBeIsRefused() {
        refused(() -> box("0 mm", "10 mm", "10 mm"), "A length of \"0 mm\" must be above zero.");
        refused(
                () -> new Shape.Stations(length("10 mm"), List.of(length("5 mm")), List.of(), length("5 mm")),
                "There are 1 widths; give two or more.");
        refused(
                () -> new Shape.Stations(
                        length("10 mm"),
                        Arrays.asList(length("5 mm"), length("5 mm")),
                        List.of(length("5 mm")),
                        length("5 mm")),
                "There are 2 widths at the top and 1 at the bottom; give as many of each.");
        refused(
                () -> new Shape.Cone(length("0 mm"), length("0 mm"), length("5 mm")),
                "Both diameters of a cone are zero; one must be above zero.");
        refused(() -> new Shape.Prism(Area.parse("0 mm2"), length("5 mm")), "An area of \"0 mm2\" must be above zero.");
        refused(() -> new Shape.KnownVolume(Volume.parse("0 mL")), "A volume of \"0 mL\" must be above zero.");
        refused(
                () -> new Insert("strip", box("1 mm", "1 mm", "1 mm"), length("0 mm"), 0),
                "A count of 0 inserts is none; give 1 or more.");
        refused(
                () -> new Cavity(box("1 mm", "1 mm", "1 mm"), length("2 mm"), List.of(), null),
                "A fill of \"2 mm\" is outside the depth of \"1 mm\"; give a height above zero and up to that.");
        refused(
                () -> new Cavity(new Shape.KnownVolume(Volume.parse("5 mL")), length("2 mm"), List.of(), null),
                "A fill of \"2 mm\" has no meaning for a shape known by its volume alone; leave it out.");
    }

    @Test
    void anOutlineThatCrossesItselfIsRefusedWithThePlaceNamed() {
        refused(
                () -> new Shape.Outline(
                        List.of(point(0, 0), point(100, 100), point(100, 0), point(0, 100)), List.of(), length("5 mm")),
                "The outline crosses or touches itself at 50 mm, 50 mm. Put the points in order around it.");
        refused(
                () -> new Shape.Outline(
                        List.of(point(0, 0), point(10, 0), point(10, 10), point(0, 10)),
                        List.of(List.of(point(20, 20), point(30, 20), point(30, 30))),
                        length("5 mm")),
                "A hole lies outside the outline at 20 mm, 20 mm. Move it inside.");
        refused(
                () -> new Shape.Outline(List.of(point(0, 0), point(10, 0)), List.of(), length("5 mm")),
                "An outline of 2 points encloses nothing; give three or more.");
    }

    @Test
    void heightsOutsideTheMoldAreRefused() {
        Cavity cavity = cavity(box("10 mm", "10 mm", "10 mm"));
        refused(() -> cavity.between(0, 10.1), "A height of 10.1 mm is outside the mold, which is \"10 mm\" deep.");
        refused(() -> cavity.between(5, 4), "From 5 mm to 4 mm goes downwards; give the lower height first.");
        refused(
                () -> cavity(new Shape.KnownVolume(Volume.parse("5 mL"))).between(0, 1),
                "This shape is known by its volume alone; it has no heights.");
        assertThat(cavity.between(0, 10 + 1e-12).volumeMl()).isEqualTo(1);
    }

    private static void refused(org.assertj.core.api.ThrowableAssert.ThrowingCallable making, String text) {
        assertThatThrownBy(making).isInstanceOf(IllegalArgumentException.class).hasMessage(text);
    }

    @Test
    void inAMoldWithoutHeightsEveryInsertIsUnderTheResinWhole() {
        Insert strip = new Insert("ash strip", box("100 mm", "50 mm", "10 mm"), length("0 mm"), 2);
        Insert knot = new Insert("knot", new Shape.KnownVolume(Volume.parse("20 mL")), length("0 mm"), 1);
        Slice whole =
                cavity(new Shape.KnownVolume(Volume.parse("1 L")), strip, knot).whole();
        // 2 × 100 × 50 × 10 mm³ is 100 mL, and 20 mL more.
        assertThat(whole.displacedMl()).isCloseTo(120, within(EXACT));
        assertThat(whole.roomMl()).isCloseTo(880, within(EXACT));
    }

    @Test
    void anInsertKnownByItsVolumeNeverDisplacesMoreThanItself() {
        Insert knot = new Insert("knot", new Shape.KnownVolume(Volume.parse("20 mL")), length("0 mm"), 1);
        Cavity cavity = new Cavity(box("100 mm", "100 mm", "20 mm"), length("10 mm"), List.of(knot), null);
        assertThat(cavity.between(0, 20).displacedMl()).isCloseTo(20, within(EXACT));
        assertThat(cavity.between(10, 20).displacedMl()).isCloseTo(0, within(EXACT));
        assertThat(cavity.between(0, 4).displacedMl() + cavity.between(4, 20).displacedMl())
                .isCloseTo(20, within(EXACT));
    }

    @Test
    void stationsThatAreAllZeroAreRefused() {
        List<Length> none = List.of(length("0 mm"), length("0 mm"));
        assertThatThrownBy(() -> new Shape.Stations(length("10 mm"), none, List.of(), length("5 mm")))
                .hasMessage("Every width is zero; at least one has to be above zero.");
    }

    @Test
    void holesThatCrossAreNamedAsSuch() {
        List<Shape.Point> square = List.of(point(0, 0), point(100, 0), point(100, 100), point(0, 100));
        List<Shape.Point> across = List.of(point(50, 50), point(150, 50), point(150, 60), point(50, 60));
        List<Shape.Point> one = List.of(point(10, 10), point(40, 10), point(40, 40), point(10, 40));
        List<Shape.Point> two = List.of(point(30, 20), point(60, 20), point(60, 30), point(30, 30));
        List<Shape.Point> bow = List.of(point(10, 10), point(40, 40), point(40, 10), point(10, 40));
        assertThatThrownBy(() -> new Shape.Outline(square, List.of(across), length("5 mm")))
                .hasMessageStartingWith("A hole crosses the outline at 100 mm, ")
                .hasMessageEndingWith("Move one of them.");
        assertThatThrownBy(() -> new Shape.Outline(square, List.of(one, two), length("5 mm")))
                .hasMessageStartingWith("Two holes cross each other at ");
        assertThatThrownBy(() -> new Shape.Outline(square, List.of(bow), length("5 mm")))
                .hasMessageStartingWith("A hole crosses or touches itself at ")
                .hasMessageEndingWith("Put the points in order around it.");
    }

    @Test
    void waterThatIsTooHotIsNamedAsItWasWritten() {
        assertThatThrownBy(() -> new Shape.Water(Mass.parse("1 kg"), Temperature.parse("120 F")))
                .hasMessage("Water of \"120 F\" can't be used to measure; 0 to 40 °C (32 to 104 °F) is expected.");
    }
}
