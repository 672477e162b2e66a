using System.Collections.Immutable;
using CureWatch.Curing;
using CureWatch.Panels;
using CureWatch.Planning;
using CureWatch.Products;
using CureWatch.Psychrometrics;
using CureWatch.Tests.Bays;
using CureWatch.TimeWindows;

namespace CureWatch.Tests.Planning;

/// <summary>A surface that can be started, at 10 o'clock of a day from 8 to 18, to be spoilt one way or another.</summary>
internal static class StartCase
{
    public static readonly DateTimeOffset Now = new(2026, 5, 4, 10, 0, 0, TimeSpan.Zero);

    /// <summary>10 to 30 °C, 30 to 75 %, 3 K.</summary>
    public static readonly CoatLaws Laws = CoatLaws.Of(SheetFit.Of(TestShop.Paint()));

    public static readonly StartDay Day = new(
        Now, TimeZoneInfo.Utc, new ShopDay(At(-120), At(480)), new ShopDay(At(22 * 60), At(32 * 60)), WorkHabits.Usual with
        {
            Pace = new SectionPace(TimeSpan.FromSeconds(90), TimeSpan.FromMinutes(1), TimeSpan.FromSeconds(20)),
        });

    /// <summary>Level from 1 to 7 min after a section, recoat 1 to 6 h, keep dry 12 h.</summary>
    public static readonly CoatTimes OneCoat = new(
        HasToBeLevelled: true,
        new FlashWindow(TimeSpan.FromMinutes(1), TimeSpan.FromMinutes(7), endsInside: true),
        TimeSpan.FromHours(1.2),
        TimeSpan.FromHours(5),
        new KeepDryTimes(TimeSpan.FromHours(10), TimeSpan.FromHours(12), TimeSpan.FromHours(14)));

    public static StartEvidence Fine { get; } = new(
        new Surface("bonnet", Material.Steel, null, Place.Outside, "paint", 1, 1, 1),
        Laws,
        new NextLayer(1, [1], [], []),
        Air(20, 50),
        Panel(19),
        null,
        new Wetness(null, null),
        Wiped(-10),
        [],
        Same(OneCoat),
        null,
        null,
        new ClimateMeans($"the fixed heating", $"the fixed heating", $"the dehumidifier", $"the humidifier"));

    /// <summary>The same with a layer on and another to come.</summary>
    public static StartEvidence OverFirst { get; } = Fine with { Surface = Fine.Surface with { Layers = 2 } };

    /// <summary>Every layer takes as long.</summary>
    public static ImmutableArray<CoatTimes> Same(CoatTimes times) => [times, times, times];

    /// <summary>Whatever stretch is asked about, it brings the same.</summary>
    public static Func<DateTimeOffset, DateTimeOffset?, NightAhead?> Always(NightAhead night) => (_, _) => night;

    public static DateTimeOffset At(double minutes) => Now + TimeSpan.FromMinutes(minutes);

    public static AirLook Air(double airC, double humidityPct)
    {
        double pa = Vapour.PressurePa(new(airC), new(humidityPct));
        return new AirLook(airC, pa, humidityPct, humidityPct, CondensationTemperature.OfPressure(pa).Degrees);
    }

    public static PanelLook Panel(double coldestC, double? hottestC = null, double standardK = 0.3, PanelBasis basis = PanelBasis.OwnProbe) =>
        new(coldestC, hottestC ?? coldestC, standardK, standardK, basis, Now);

    public static Preparation Wiped(double? minute, Did? thenDid = null, double thenMinute = 0, double? panelC = null) => Prepared(
    [
        .. minute is { } m ? [(m, Did.PanelWiped, null)] : Array.Empty<(double, Did, double?)>(),
        .. thenDid is { } did ? [(thenMinute, did, panelC)] : Array.Empty<(double, Did, double?)>(),
    ]);

    public static Preparation Prepared(params (double Minute, Did Did, double? PanelC)[] taps) => Preparation.Of(
        new Surface("bonnet", Material.Steel, null, Place.Outside, "paint", 1, 1, 1),
        1,
        [.. taps.Select((t, i) => new Tap($"{i}", At(t.Minute), At(t.Minute), "bonnet", t.Did, PanelC: t.PanelC))]);

    public static NextLayer SecondLayer(double opensMinute, double? closesMinute, bool levelled = true, params string[] held)
    {
        var window = new Window(
            WindowStage.Recoat,
            new TimeBounds(At(opensMinute - 20), At(opensMinute - 10), At(opensMinute)),
            closesMinute is { } c ? new TimeBounds(At(c), At(c + 30), At(c + 60)) : null,
            WindowState.Open);
        return new NextLayer(2, [1], [new BelowCoat(window, !levelled, IsFoundClear: false)], [.. held.Select(CureWatch.Words.Sentence.Named)]);
    }

    public static ImmutableArray<(StartReasonKind Kind, StartWeight Weight)> KindsOf(StartAnswer answer) => [.. answer.Reasons.Select(r => (r.Kind, r.Weight))];
}
