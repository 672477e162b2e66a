using System.Collections.Immutable;
using CureWatch.Curing;
using CureWatch.Panels;

namespace CureWatch.Tests.Curing;

/// <summary>Water on a surface, section by section as it was told.</summary>
public class WettingTests
{
    private static readonly Surface Bonnet = new("bonnet", Material.Steel, null, Place.Outside, "base", 1, 1, 3);

    [Fact]
    public void DriedSectionBySection_EachIsDryFromThenOn_AndWhatNobodyDriedIsWet()
    {
        ImmutableArray<Wetting> wettings = Of((0, Did.Wetted, true, null), (10, Did.Dried, true, 1), (130, Did.Dried, true, 2));
        Assert.Equal([Wet(0, 10, 1), Wet(0, 130, 2), Wet(0, null, 3)], wettings);
    }

    [Fact]
    public void WettedAndDriedAlike_AreOfNoSection() =>
        Assert.Equal([Wet(0, 10, null), Wet(60, null, null)], Of((0, Did.Wetted, true, null), (10, Did.Dried, true, null), (60, Did.Washed, false, null)));

    [Fact]
    public void DriedAgain_WasNotDryBefore_UnlessItWasSaidOfTheWholeCar()
    {
        Assert.Equal([Wet(0, 40, null)], Of((0, Did.Wetted, true, null), (10, Did.Dried, true, null), (40, Did.Dried, true, null)));
        Assert.Equal([Wet(0, 10, null)], Of((0, Did.Wetted, true, null), (10, Did.Dried, true, null), (40, Did.Dried, false, null)));
        Assert.Equal([Wet(0, 10, null)], Of((0, Did.Washed, true, null), (10, Did.Dried, true, null), (30, Did.Applied, true, null), (90, Did.Dried, true, null)));
        Assert.Equal(
            [Wet(0, 10, null), Wet(20, 40, null)],
            Of((0, Did.Wetted, true, null), (10, Did.Dried, true, null), (20, Did.Wetted, true, null), (40, Did.Dried, true, null)));
    }

    [Fact]
    public void SectionThatTheSurfaceHasNot_IsOfAnotherSurface() =>
        Assert.Equal([Wet(0, null, null)], Of((0, Did.Wetted, true, null), (10, Did.Dried, false, 4)));

    private static ImmutableArray<Wetting> Of(params (int Minute, Did Did, bool IsNamed, int? Section)[] told) => Taps.Story(
        Bonnet,
        [.. told.Select((t, i) => new Tap($"{i}", At(t.Minute), At(t.Minute), t.IsNamed ? Bonnet.Id : null, t.Did, Section: t.Section))]).Wettings;

    private static Wetting Wet(int minute, int? dried, int? section) => new(At(minute), dried is { } d ? At(d) : null) { Section = section };

    private static DateTimeOffset At(int minute) => new DateTimeOffset(2026, 5, 4, 8, 0, 0, TimeSpan.Zero).AddMinutes(minute);
}
