using System.Collections.Immutable;
using CureWatch.Curing;
using CureWatch.Handover;
using CureWatch.Panels;
using CureWatch.Products;
using CureWatch.Tests.Bays;
using CureWatch.Tests.TimeWindows;
using CureWatch.TimeWindows;
using static CureWatch.Tests.TimeWindows.Coated;

namespace CureWatch.Tests.Handover;

/// <summary>The ruling over several surfaces in the sheet's own climate: keep-dry of 12 h ends 10.18 to 14.15 h after the levelling.</summary>
public class RulingTests
{
    private const double Hour = 60;

    // Open from 8 to 18, and the clock of these tests starts at 8.
    private static readonly OpeningHours Hours = new(
        TimeZoneInfo.Utc,
        Enum.GetValues<DayOfWeek>().ToImmutableDictionary(d => d, _ => ImmutableArray.Create(new OpenStretch(TimeSpan.FromHours(8), TimeSpan.FromHours(18)))));

    [Fact]
    public void Ready_IsWhenTheSlowestCoatOfTheSlowestSurfaceIs_InEachBound()
    {
        Ruling ruling = Rule(3 * Hour, On("bonnet", levelledMinute: 5), On("roof", levelledMinute: 2 * Hour), On("door", levelledMinute: Hour));
        Assert.Equal((2 * Hour) + (12 * Hour / Factor95), Minutes(ruling.ReadyAt!.Earliest)!.Value, 1e-3);
        Assert.Equal(14 * Hour, Minutes(ruling.ReadyAt.Likely)!.Value, 1e-3);
        Assert.Equal((2 * Hour) + (12 * Hour * Factor95), Minutes(ruling.ReadyAt.Latest)!.Value, 1e-3);
        Assert.Equal(["bonnet", "roof", "door"], ruling.Holds.Select(h => h.Surface));
    }

    [Theory]
    [InlineData(14.14, false)]
    [InlineData(14.15, true)]
    public void Ready_IsNotBeforeTheLatestEndOfKeepDry(double hour, bool expected)
    {
        Ruling ruling = Rule(5 + (hour * Hour), On("bonnet", levelledMinute: 5));
        Assert.Equal(expected, ruling.IsReady);
        Assert.Equal(expected, ruling.Holds.IsEmpty);
    }

    [Fact]
    public void Collection_IsTheLatestEndOfKeepDryAndTheFinishing_InOpeningHours()
    {
        // Latest 22:14 that night: finished from 8 to 9:15 next morning.
        Assert.Equal(At(25.25 * Hour), Rule(Hour, On("bonnet", levelledMinute: 5)).CollectFrom);
    }

    [Fact]
    public void Ready_CannotBeSaid_WhileASurfaceIsWet()
    {
        Ruling ruling = Rule(60 * Hour, On("bonnet", levelledMinute: 5), On("roof", levelledMinute: 5, Coated.Wet(Hour)));
        Assert.Null(ruling.ReadyAt);
        Assert.Null(ruling.CollectFrom);
        Assert.False(ruling.IsReady);
        Assert.Equal([HoldKind.KeepDry, HoldKind.Wetted], ruling.Holds.Select(h => h.Kind));
    }

    [Fact]
    public void Ready_CannotBeSaid_WithNothingOnTheCar()
    {
        Ruling ruling = Rule(Hour, new Evidence(Story("bonnet", []), [], [], [], []));
        Assert.Equal((false, true, true), (ruling.IsReady, ruling.ReadyAt is null, ruling.CollectFrom is null));
        Assert.Equal(HoldKind.NotApplied, Assert.Single(ruling.Holds).Kind);
    }

    [Fact]
    public void KeepDry_IsUntilTheSlowEndOfTheLastCoat_AndUnknownWhileOneIsWet()
    {
        Func<double, Evidence> bonnet = On("bonnet", levelledMinute: 5), roof = On("roof", levelledMinute: 2 * Hour);
        Assert.Equal((2 * Hour) + (12 * Hour * Factor95), Minutes(Rule(3 * Hour, bonnet, roof).KeepDry.Until)!.Value, 1e-3);
        Assert.Equal(new KeepDry(IsOver: false, Until: null), Rule(3 * Hour, bonnet, On("roof", levelledMinute: 5, Coated.Wet(Hour))).KeepDry);
        Assert.Equal(KeepDry.Over, Rule(60 * Hour, On("bonnet", levelledMinute: 5)).KeepDry);
        Assert.Equal(KeepDry.Over, Rule(Hour, new Evidence(Story("bonnet", []), [], [], [], [])).KeepDry);
    }

    [Fact]
    public void LeftLonger_IsANote_WhereTheSheetDoesNotMind()
    {
        CoatLaws lenient = CoatLaws.Of(SheetFit.Of(TestShop.Paint(ifMissed: IfMissed.Note)));
        Func<double, Evidence> left = On("bonnet", levelledMinute: 30, laws: lenient), inTime = On("roof", levelledMinute: 5, laws: lenient);
        Ruling ruling = Rule(60 * Hour, left, inTime);
        Assert.Equal(("bonnet", 1), Assert.Single(ruling.Notes.Select(n => (n.Surface, n.Layer))));
        Assert.True(ruling.IsReady);
    }

    private static readonly CoatLaws Laws = CoatLaws.Of(SheetFit.Of(TestShop.Paint()));

    private static Ruling Rule(double minute, params Func<double, Evidence>[] surfaces) =>
        Rule(minute, [.. surfaces.Select(s => s(minute))]);

    private static Ruling Rule(double minute, params Evidence[] surfaces) => Ruling.On(surfaces, Hours, TimeSpan.FromMinutes(75), At(minute));

    private static SurfaceStory Story(string surface, ImmutableArray<Coat> coats, params Wetting[] wettings) =>
        new(new Surface(surface, Material.Steel, null, Place.Outside, "paint", 1, 1, 1), coats, [.. wettings], [], [], [], []);

    private static Func<double, Evidence> On(string surface, double levelledMinute, Wetting? wetting = null, CoatLaws? laws = null) => minute =>
    {
        Wetting[] wettings = wetting is null ? [] : [wetting];
        Coat bare = Coat(levelledMinute: levelledMinute);
        Coat coat = bare with { Surface = bare.Surface with { Id = surface }, FirstWipeAt = At(levelledMinute > 30 ? levelledMinute - 5 : 0) };
        CoatWindows windows = Windows(coat, minute, laws ?? Laws, wettings, Climate(20, 50), Climate(20, 50), Perfect);
        return new Evidence(Story(surface, [coat], wettings), [new CoatEvidence(coat, windows)], [], [], []);
    };
}
