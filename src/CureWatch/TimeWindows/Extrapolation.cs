using CureWatch.Curing;
using CureWatch.Products;
using CureWatch.Psychrometrics;
using CureWatch.Units;

namespace CureWatch.TimeWindows;

/// <summary>How far the climate in which a stage is passed lies beyond the rows that its sheet has for it.</summary>
/// <param name="KelvinsBeyond">Above the warmest row [K], below 0 under the coldest; 0 between them.</param>
/// <param name="PercentBeyond">Above the moistest row [% RH], below 0 under the driest; 0 between them.</param>
public sealed record Extrapolation(double KelvinsBeyond, double PercentBeyond)
{
    /// <summary>What no sheet tells apart and no probe [K]. Source (choice).</summary>
    public const double LeastKelvins = 1;

    /// <summary>The same for humidity [% RH]. Source (choice).</summary>
    public const double LeastPercent = 5;

    /// <summary>Holds a mean climate against a stage's rows.</summary>
    /// <param name="rows">The stage, as the sheet has it.</param>
    /// <param name="law">The law of the clock.</param>
    /// <param name="mean">The mean climate on that clock: at the panel, its humidity no drier and no moister than the law follows.</param>
    /// <returns>How far it lies beyond them; null where it does not by as much as can be told.</returns>
    public static Extrapolation? Of(SheetStage rows, RateLaw law, MeanClimate mean)
    {
        double kelvins = 1 / ((RateLaw.GasConstant * mean.X) + (1 / law.Reference.Temperature.Kelvins));
        double percent = 100 * law.VapourPressurePaAt(kelvins, mean.Y) / SaturationPressure.OverWaterPa(kelvins);
        double degrees = Celsius.FromKelvins(kelvins).Degrees;
        double warmer = Beyond(degrees, rows.Rows.Min(r => r.Temperature.Degrees), rows.Rows.Max(r => r.Temperature.Degrees), LeastKelvins);
        double moister = Beyond(percent, rows.Rows.Min(r => r.Humidity.Percent), rows.Rows.Max(r => r.Humidity.Percent), LeastPercent);
        return warmer == 0 && moister == 0 ? null : new Extrapolation(warmer, moister);
    }

    /// <summary>Holds the climate of a coat against the rows of all stages that a window is made of.</summary>
    /// <param name="window">The window.</param>
    /// <param name="laws">The laws of its product.</param>
    /// <param name="wiped">When the evaporation clock started.</param>
    /// <param name="cureStart">When the cure clock started.</param>
    /// <param name="clockOf">The coat's clock for a stage.</param>
    /// <returns>How far the farthest of them is reckoned beyond its rows; null where none is.</returns>
    internal static Extrapolation? Of(
        WindowStage window, CoatLaws laws, TimeBounds wiped, TimeBounds cureStart, Func<TimedStage, CoatClock> clockOf)
    {
        (TimeBounds start, TimedStage?[] stages) = window switch
        {
            WindowStage.Flash => (wiped, [laws.Flash]),
            WindowStage.LevelOff => (wiped, [laws.Flash, laws.LevelByEvaporation]),
            WindowStage.Recoat => (cureStart, [laws.RecoatFrom, laws.RecoatBy]),
            WindowStage.KeepDry => (cureStart, [laws.KeepDry]),
            WindowStage.NoWash => (cureStart, [laws.NoWash]),
            _ => (cureStart, new[] { laws.FullCure }),
        };
        return stages.OfType<TimedStage>().Select(OfStage).OfType<Extrapolation>()
            .MaxBy(e => Math.Abs(e.KelvinsBeyond / LeastKelvins) + Math.Abs(e.PercentBeyond / LeastPercent));

        Extrapolation? OfStage(TimedStage stage) =>
            laws.Sheet.Stages.FirstOrDefault(s => s.Stage == stage.Stage) is { } rows
            && clockOf(stage).MeanUntil(start, stage.Milestone) is { } mean
                ? Of(rows, stage.Law, mean)
                : null;
    }

    private static double Beyond(double value, double least, double most, double tellable)
    {
        double beyond = value - Math.Clamp(value, least, most);
        return Math.Abs(beyond) < tellable ? 0 : beyond;
    }
}
