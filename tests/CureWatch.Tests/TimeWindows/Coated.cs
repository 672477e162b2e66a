using System.Collections.Immutable;
using CureWatch.Curing;
using CureWatch.Forecasting;
using CureWatch.Panels;
using CureWatch.Products;
using CureWatch.Psychrometrics;
using CureWatch.Tests.Bays;
using CureWatch.TimeWindows;
using CureWatch.Units;

namespace CureWatch.Tests.TimeWindows;

/// <summary>Coats in a climate that never changes, told in minutes from their first wipe.</summary>
internal static class Coated
{
    /// <summary>
    /// What 5 and 95 % do to a time in the sheet's own climate, seen by perfect probes: one row is trusted to 10 %, and 1.645 is the 95th
    /// percentile of the normal law.
    /// </summary>
    public static readonly double Factor95 = Math.Exp(1.6448536269514722 * 0.10);

    public static readonly ClimateDoubt Perfect = new(0, 0, 0, PanelIsMeasured: true);

    private static readonly DateTimeOffset FirstWipe = new(2026, 5, 4, 8, 0, 0, TimeSpan.Zero);

    public static DateTimeOffset At(double minutes) => FirstWipe + TimeSpan.FromMinutes(minutes);

    public static double? Minutes(DateTimeOffset? at) => (at - FirstWipe)?.TotalMinutes;

    public static Coat Coat(double appliedMinute = 0, double? levelledMinute = null) =>
        new(new Surface("bonnet", Material.Steel, null, Place.Outside, "paint", 1, 2, 1), 1, 1, At(0), At(appliedMinute))
        {
            LevelledAt = levelledMinute is { } m ? At(m) : null,
        };

    public static Wetting Wet(double minute, double? driedMinute = null) => new(At(minute), driedMinute is { } dried ? At(dried) : null);

    public static ProductSheet Sheet(params SheetStage[] stages) => TestShop.Paint() with { Stages = [.. stages] };

    /// <summary>The paint of the tests in the sheet's own climate.</summary>
    public static CoatWindows Windows(this Coat coat, double nowMinute, ProductSheet? sheet = null, params Wetting[] wettings) =>
        Windows(coat, nowMinute, CoatLaws.Of(SheetFit.Of(sheet ?? TestShop.Paint())), wettings, Climate(20, 50), Climate(20, 50), Perfect);

    public static CoatWindows Windows(
        Coat coat, double nowMinute, CoatLaws laws, Wetting[] wettings, Exposure lived, Exposure expected, ClimateDoubt doubt)
    {
        DateTimeOffset now = At(nowMinute);
        var segment = ClimateSegment.Plain(coat.StartedAt, now, lived, lived);
        return CoatWindows.Of(
            coat,
            laws,
            wettings,
            stage => new CoatClock(
                new CureRecord(stage.Law, ImmutableArray.Create<Stretch>(new Stretch.Loose(stage.Law, segment))), new Outlook(now, expected, []), [doubt]),
            now);
    }

    public static Exposure Climate(double airC, double humidityPct, double? panelC = null)
    {
        double kelvins = new Celsius(airC).Kelvins;
        return new Exposure(kelvins, humidityPct / 100 * SaturationPressure.OverWaterPa(kelvins), new Celsius(panelC ?? airC).Kelvins);
    }
}
