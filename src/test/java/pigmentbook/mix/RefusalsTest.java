package pigmentbook.mix;

import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.util.List;
import org.junit.jupiter.api.Test;
import pigmentbook.book.Item;
import pigmentbook.book.Pigment;
import pigmentbook.mold.Insert;
import pigmentbook.mold.Shape;
import pigmentbook.quantity.Length;
import pigmentbook.quantity.Mass;
import pigmentbook.quantity.Percent;
import pigmentbook.quantity.Volume;

/** Every request that can't be met, and what a person is told. */
class RefusalsTest {

    private static final MixRequest.Size RESIN = new MixRequest.ForResin(Mass.parse("150 g"));

    private static void refused(org.assertj.core.api.ThrowableAssert.ThrowingCallable mixing, String text) {
        assertThatThrownBy(mixing).isInstanceOf(MixRefusedException.class).hasMessage(text);
    }

    private static Studio withPanel() {
        return new Studio().mold("panel", Studio.box("100 mm", "100 mm", "20 mm"), "10 mm", List.of());
    }

    @Test
    void aResinWithoutARatio() {
        Studio studio = new Studio();
        studio.ratio = null;
        refused(
                () -> studio.mix(RESIN),
                "The resin resin states no mix ratio. Enter it with its basis, by weight or by volume, from the data sheet.");
    }

    @Test
    void aRatioByVolumeWithoutBothDensities() {
        Studio studio = new Studio();
        studio.ratio = Studio.byVolume("2:1", null, null);
        studio.densityB = null;
        refused(
                () -> studio.mix(RESIN),
                "The resin resin states its ratio by volume, but not part B's density. Enter both densities from the data"
                        + " sheet, so that grams can be worked out.");
    }

    @Test
    void aVolumeWithoutAnyDensity() {
        Studio studio = new Studio();
        studio.densityA = null;
        refused(
                () -> studio.volume("1 L"),
                "The resin resin states no density, so a volume can't be turned into grams. Enter both parts' densities or"
                        + " the mix's, or ask for a mass.");
    }

    @Test
    void aMoldThatHoldsNothingOrLessThanItsInserts() {
        Studio studio = new Studio();
        Insert block = new Insert("oak", Studio.box("100 mm", "100 mm", "20 mm"), Length.parse("0 mm"), 1);
        studio.mold("full", Studio.box("100 mm", "100 mm", "20 mm"), null, List.of(block));
        studio.mold("over", Studio.box("100 mm", "50 mm", "20 mm"), null, List.of(block));
        refused(
                () -> studio.inMold("full"),
                "The mold full has no room for resin: it holds nothing. Check its sizes and inserts.");
        refused(
                () -> studio.inMold("over"),
                "The mold over has no room for resin: its inserts displace more than it holds. Check its sizes and"
                        + " inserts.");
        refused(() -> studio.volume("0 mL"), "A volume of \"0 mL\" holds nothing; give one above zero.");
    }

    @Test
    void aFillAboveTheDepthOrOfNothing() {
        Studio studio = withPanel();
        refused(
                () -> studio.mix(new MixRequest.ForMold("panel", Length.parse("20.1 mm"))),
                "A fill of \"20.1 mm\" is above the mold panel, which is \"20 mm\" deep. Give a height up to that.");
        refused(
                () -> studio.mix(new MixRequest.ForMold("panel", Length.parse("0 mm"))),
                "A fill of \"0 mm\" leaves the mold panel empty; give a height above zero.");
    }

    @Test
    void aDepthInAShapeThatHasNone() {
        Studio studio = new Studio();
        studio.mold("jug", new Shape.KnownVolume(Volume.parse("500 mL")), null, List.of());
        refused(
                () -> studio.mix(new MixRequest.ForMold("jug", Length.parse("10 mm"))),
                "The mold jug is known by its volume alone, so it has no fill height. Leave the fill out.");
        refused(
                () -> studio.mix(Studio.options().depths("5 mm", "5 mm").of(new MixRequest.ForMold("jug", null))),
                "The mold jug is known by its volume alone, so its layers have no depths. Ask for a number of layers.");
        refused(
                () -> studio.mix(Studio.options().depths("5 mm", "5 mm").of(RESIN)),
                "Layer depths need a mold with a depth. Name a mold, or ask for a number of layers.");
    }

    @Test
    void aResidueThatDoesNotFitTheCup() {
        Studio studio = withPanel();
        refused(
                () -> studio.mix(Studio.options().cup("4 g", "4 g").of(new MixRequest.ForMold("panel", null))),
                "A residue of \"4 g\" does not fit a cup of \"4 g\". Give a bigger cup or a smaller residue.");
        studio.batchMost = Mass.parse("3 g");
        refused(
                () -> studio.mix(Studio.options().cup("1 kg", "4 g").of(new MixRequest.ForMold("panel", null))),
                "A residue of \"4 g\" is all that the resin's largest batch of \"3 g\" allows. Check both figures.");
    }

    @Test
    void layerDepthsThatDoNotAddUpToTheFill() {
        Studio studio = withPanel();
        MixRequest.Size panel = new MixRequest.ForMold("panel", null);
        refused(
                () -> studio.mix(Studio.options().depths("5 mm", "6 mm").of(panel)),
                "The layer depths add up to 11 mm, but the fill is \"10 mm\" (10 mm). Change one of them.");
        refused(
                () -> studio.mix(Studio.options().depths("10 mm", "0 mm").of(panel)),
                "A layer of \"0 mm\" is no layer; give depths above zero.");
        refused(
                () -> studio.mix(
                        Studio.options().layers(3).depths("5 mm", "5 mm").of(panel)),
                "3 layers, but 2 layer depths; leave one of the two out.");
        refused(
                () -> studio.mix(Studio.options().layers(0).of(panel)),
                "0 layers can't be poured; give a number from 1 to 1000.");
    }

    @Test
    void unknownIdsNameTheNearestOnes() {
        Studio studio = withPanel().lot("A-2409", "A", "1 kg", null);
        refused(() -> studio.inMold("panle"), "There is no mold \"panle\" in the book. Nearest: panel.");
        refused(() -> studio.inMold("zzz"), "There is no mold \"zzz\" in the book.");
        refused(
                () -> studio.mix(Studio.options().lots("A-2408").of(RESIN)),
                "There is no lot \"A-2408\" on the shelf. Nearest: A-2409.");
    }

    @Test
    void aRecipeWhosePigmentOrResinIsNotOnTheShelf() {
        Studio studio = new Studio();
        studio.pigment("amber", Pigment.Kind.PASTE, "1 %", null);
        studio.pigments.clear();
        studio.onShelf("ambre", Pigment.Kind.PASTE, null, null, null, null);
        refused(
                () -> studio.mix(RESIN),
                "Revision 1 of colour takes the pigment \"amber\", which is not on the shelf. Nearest: ambre.");
    }

    @Test
    void aLotThatTheRecipeDoesNotTakeOrTwoForOneItem() {
        Studio studio = new Studio()
                .lot("A-1", "A", "1 kg", null)
                .lot("A-2", "A", "1 kg", null)
                .lot("P-1", "pearl", "50 g", null);
        refused(
                () -> studio.mix(Studio.options().lots("P-1").of(RESIN)),
                "The lot P-1 is pearl, which this recipe does not take. Name a lot of resin or of one of its pigments.");
        refused(
                () -> studio.mix(Studio.options().lots("A-1", "A-2").of(RESIN)),
                "The lots A-1 and A-2 are both for part A; name one of them.");
    }

    @Test
    void anItemThatCannotLead() {
        Studio studio = new Studio();
        studio.pigment("amber", Pigment.Kind.PASTE, "0 %", null);
        refused(
                () -> studio.mix(new MixRequest.ForItem(Item.of("amber"), Mass.parse("1 g"))),
                "The recipe takes none of amber, so its mass can't lead. Let another item lead.");
        refused(
                () -> studio.mix(new MixRequest.ForItem(Item.of("rust"), Mass.parse("1 g"))),
                "The recipe has no \"rust\". It has part A, amber, part B.");
        refused(
                () -> studio.mix(new MixRequest.ForTotal(Mass.parse("0 g"))),
                "A total of \"0 g\" makes nothing; give one above zero.");
    }

    @Test
    void anEmptyShelf() {
        Studio studio = new Studio().lot("A-1", "A", "1 kg", null);
        refused(
                () -> studio.mix(new MixRequest.ForShelf()),
                "The shelf has no part B that is still good, so nothing can be mixed from it. Name a mass instead, or enter"
                        + " a lot.");
    }

    @Test
    void pigmentsThatCarryMorePartAThanThereIs() {
        Studio studio = new Studio();
        studio.pigment("amber", Pigment.Kind.PASTE, "80 %", null, Studio.inPartA("90 %"), null);
        refused(
                () -> studio.mix(RESIN),
                "The pigments carry 72 % part A, more than the 66.7 % of the mixed resin that is part A. Lower the percents.");
    }

    @Test
    void aShrinkageOfAllThereIs() {
        Studio studio = new Studio();
        studio.shrinkage = Percent.parse("100 %");
        refused(
                () -> studio.volume("1 L"),
                "The resin resin shrinks by \"100 %\"; a shrinkage below 100 % is expected.");
    }
}
