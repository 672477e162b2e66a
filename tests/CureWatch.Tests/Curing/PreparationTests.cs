using CureWatch.Curing;
using CureWatch.Panels;

namespace CureWatch.Tests.Curing;

/// <summary>What the taps say of getting a section ready.</summary>
public class PreparationTests
{
    private static readonly Surface Bonnet = new("bonnet", Material.Steel, null, Place.Outside, "paint", 1, 1, 2);

    [Theory]
    [InlineData(Did.Measured, true)]
    [InlineData(Did.Polished, true)]
    [InlineData(Did.Washed, true)]
    [InlineData(Did.Wetted, true)]
    [InlineData(Did.Dried, true)]
    [InlineData(Did.Moved, true)]
    [InlineData(Did.Inspected, false)]
    [InlineData(Did.Applied, false)]
    public void Wipe_IsUndoneBy(Did did, bool expected)
    {
        Assert.Equal(expected, Of(Tap(0, Did.PanelWiped), Tap(5, did)).TouchedSince is not null);
        Assert.Null(Of(Tap(0, Did.PanelWiped), Tap(5, did), Tap(6, Did.PanelWiped)).TouchedSince);
        Assert.Null(Of(Tap(5, Did.PanelWiped), Tap(0, did)).TouchedSince);
    }

    [Fact]
    public void Taps_OfAnotherSurfaceOrSection_AreNotAboutIt()
    {
        Assert.Null(Of(Tap(0, Did.PanelWiped) with { Surface = "roof" }).WipedAt);
        Assert.Null(Of(Tap(0, Did.PanelWiped) with { Section = 2 }).WipedAt);
        Assert.NotNull(Of(Tap(0, Did.PanelWiped) with { Surface = null }).WipedAt);
        Assert.NotNull(Of(Tap(0, Did.PanelWiped) with { Section = 1 }).WipedAt);
    }

    [Fact]
    public void Lamp_StaysWhereItWas_WhenTheCarMoves()
    {
        Preparation moved = Of(Tap(0, Did.LampOn), Tap(30, Did.Moved));
        Assert.Null(moved.LampOnAt);
        Assert.Equal(At(30), moved.LampOffAt);
        Assert.Equal(At(5), Of(Tap(5, Did.LampOff)).LampOffAt); // nobody told that it was on
    }

    // "All lamps off" after one over the roof: the bonnet had none. Section 1 had none either where it was over section 2.
    [Fact]
    public void LampOff_OfEverySurface_IsOfThoseThatHadOne()
    {
        Assert.Null(Of(Tap(0, Did.LampOn) with { Surface = "roof" }, Tap(20, Did.LampOff) with { Surface = null }).LampOffAt);
        Assert.Null(Of(Tap(0, Did.LampOn) with { Section = 2 }, Tap(20, Did.LampOff)).LampOffAt);
        Assert.Equal(At(20), Of(Tap(0, Did.LampOn) with { Surface = "roof" }, Tap(20, Did.LampOff)).LampOffAt);
        Assert.Equal(At(20), Of(Tap(20, Did.LampOff) with { Surface = null }).LampOffAt);
    }

    [Fact]
    public void Tap_ThatWasCorrected_Counts_AsCorrected() =>
        Assert.Equal(At(3), Of(Tap(9, Did.PanelWiped) with { Id = "a" }, Tap(3, Did.PanelWiped) with { Corrects = "a" }).WipedAt);

    // Two people put the same tap right, each from a page that did not show the other's: whoever spoke last is heard, and taking that back leaves the first.
    [Fact]
    public void Tap_ThatTwoPeopleCorrected_CountsAsCorrectedLast()
    {
        Tap[] told =
        [
            Tap(9, Did.PanelWiped) with { Id = "a" },
            Tap(12, Did.PanelWiped) with { Id = "b", Corrects = "a" },
            Tap(3, Did.PanelWiped) with { Id = "c", Corrects = "a" },
        ];
        Assert.Equal(["c"], Taps.Standing(told).Select(t => t.Id));
        Assert.Equal(["b"], Taps.Standing([.. told, Tap(13, Did.Withdrawn) with { Id = "d", Corrects = "c" }]).Select(t => t.Id));
        Assert.Equal(["d"], Taps.Standing([.. told, Tap(15, Did.PanelWiped) with { Id = "d", Corrects = "b" }]).Select(t => t.Id));
    }

    [Fact]
    public void Heat_IsFromTheLastOfPolishingAndLamp_AndALampBurnsUntilItIsOff()
    {
        Preparation burning = Of(Tap(0, Did.LampOn));
        Assert.Equal((At(0), null, null), (burning.LampOnAt, burning.LampOffAt, burning.HeatedAt));
        Preparation off = Of(Tap(0, Did.LampOn), Tap(20, Did.LampOff), Tap(5, Did.Polished));
        Assert.Equal((null, At(20)), (off.LampOnAt, off.HeatedAt));
        Assert.Equal(At(30), Of(Tap(0, Did.LampOn), Tap(20, Did.LampOff), Tap(30, Did.Polished)).HeatedAt);
        Assert.Equal(At(9), Of(Tap(9, Did.Reworked) with { How = How.PolishedOff }).HeatedAt);
        Assert.Null(Of(Tap(9, Did.Reworked) with { How = How.Wiped }).HeatedAt);
        Assert.Null(Of().HeatedAt);
    }

    private static Preparation Of(params Tap[] taps) => Preparation.Of(Bonnet, 1, taps);

    private static Tap Tap(double minute, Did did) => new(null, At(minute), At(minute), "bonnet", did);

    private static DateTimeOffset At(double minute) => new DateTimeOffset(2026, 5, 4, 8, 0, 0, TimeSpan.Zero).AddMinutes(minute);
}
