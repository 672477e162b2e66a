using System.Collections.Immutable;

namespace CureWatch.Readings;

/// <summary>How a probe differed from its twins over the last thirty days, by which a slow drift shows.</summary>
/// <remarks>
/// What it says above its twins is averaged by windows of six hours, each as long as a bay needs to turn over its air many times, so that a door or a
/// lamp beside one of them does not stay. Source (choice): thirty days of them; the difference now is the median of the last two days.
/// </remarks>
public sealed record TwinRecord
{
    private const int MostWindows = 120;
    private const int WindowsOfNow = 8;

    /// <summary>Below this a mean of windows is never surer [K], [% RH]: what probes tell is rounded. Source (choice).</summary>
    private const double LeastStandardK = 0.02, LeastStandardPct = 0.1;

    /// <summary>Standard error of a median against a mean's, and standard deviation against the median deviation, of normal errors [1]. Source (law).</summary>
    private const double MedianToMean = 1.2533, DeviationToStandard = 1.4826;

    private static readonly TimeSpan Window = TimeSpan.FromHours(6);

    private readonly ImmutableArray<Mean> _past = [];
    private readonly Mean _open;

    private TwinRecord(ImmutableArray<Mean> past, Mean open) => (_past, _open) = (past, open);

    /// <summary>A probe that was never compared.</summary>
    public static TwinRecord None { get; } = new([], default);

    /// <summary>Takes a comparison in.</summary>
    /// <param name="at">When the probe measured.</param>
    /// <param name="aboveK">How much warmer than its twins it said it is [K].</param>
    /// <param name="abovePct">How much moister it said the air is, as relative humidity [% RH]; 0 for a panel.</param>
    /// <returns>The record with it.</returns>
    public TwinRecord With(DateTimeOffset at, double aboveK, double abovePct)
    {
        long number = at.UtcTicks / Window.Ticks;
        if (_open.Count == 0 || number > _open.Number)
        {
            return new TwinRecord(_open.Count == 0 ? _past : Shortened().Add(_open), new Mean(number, 1, aboveK, abovePct));
        }

        return new TwinRecord(_past, _open with { Count = _open.Count + 1, SumK = _open.SumK + aboveK, SumPct = _open.SumPct + abovePct });
    }

    /// <summary>How much it says above its twins now.</summary>
    /// <returns>The difference; null until two windows were compared.</returns>
    public TwinDifference? Now()
    {
        ImmutableArray<Mean> windows = _open.Count > 0 ? _past.Add(_open) : _past;
        if (windows.Length < 2)
        {
            return null;
        }

        double[] kelvins = [.. windows.Select(w => w.MeanK)], percents = [.. windows.Select(w => w.MeanPct)];
        (double aboveK, double standardK) = Estimate(kelvins, LeastStandardK);
        (double abovePct, double standardPct) = Estimate(percents, LeastStandardPct);
        return new TwinDifference(aboveK, standardK, Since(windows, kelvins, aboveK), abovePct, standardPct, Since(windows, percents, abovePct));
    }

    private ImmutableArray<Mean> Shortened() => _past.Length < MostWindows ? _past : _past.RemoveAt(0);

    private static (double Now, double Standard) Estimate(double[] windows, double least)
    {
        double[] last = windows[^Math.Min(WindowsOfNow, windows.Length)..];
        double now = Median(last);
        double deviation = Median([.. last.Select(w => Math.Abs(w - now))]);
        return (now, Math.Max(least, MedianToMean * DeviationToStandard * deviation / Math.Sqrt(last.Length)));
    }

    /// <summary>Since when it differs to the same side by half as much at least.</summary>
    private static DateTimeOffset Since(ImmutableArray<Mean> windows, double[] values, double now)
    {
        int first = windows.Length - 1;
        while (first > 0 && values[first - 1] * Math.Sign(now) >= Math.Abs(now) / 2)
        {
            first--;
        }

        return new DateTimeOffset(windows[first].Number * Window.Ticks, TimeSpan.Zero);
    }

    private static double Median(double[] values)
    {
        double[] sorted = [.. values.Order()];
        return (sorted[(sorted.Length - 1) / 2] + sorted[sorted.Length / 2]) / 2;
    }

    private readonly record struct Mean(long Number, int Count, double SumK, double SumPct)
    {
        public double MeanK => SumK / Count;

        public double MeanPct => SumPct / Count;
    }
}

/// <summary>How much a probe says above its twins.</summary>
/// <param name="Kelvins">Temperature [K]; below 0 where it says less.</param>
/// <param name="StandardKelvins">Standard uncertainty of that, from how much it scatters [K].</param>
/// <param name="KelvinsSince">Since when it was half as much at least.</param>
/// <param name="HumidityPct">Moisture of the air, as relative humidity at one temperature [% RH]; 0 for a panel.</param>
/// <param name="StandardHumidityPct">Standard uncertainty of that [% RH].</param>
/// <param name="HumiditySince">Since when it was half as much at least.</param>
public sealed record TwinDifference(
    double Kelvins, double StandardKelvins, DateTimeOffset KelvinsSince, double HumidityPct, double StandardHumidityPct, DateTimeOffset HumiditySince)
{
    /// <summary>Which difference is worth a calibration: half of what the data sheets allow both probes. Source (choice).</summary>
    private const double ShareOfLimits = 0.5;

    /// <summary>How many standard uncertainties it must be clear of [1]. Source (choice).</summary>
    private const double Clearly = 2;

    /// <summary>Whether its temperature is worth a calibration.</summary>
    /// <param name="limitsK">The ± limits of the probe and a twin, added [K].</param>
    /// <returns>True where it is clearly off by more than half of that.</returns>
    public bool IsWarmOrCold(double limitsK) => Math.Abs(Kelvins) > Math.Max(ShareOfLimits * limitsK, Clearly * StandardKelvins);

    /// <summary>Whether its humidity is worth a calibration.</summary>
    /// <param name="limitsPct">The ± limits of the probe and a twin, added [% RH].</param>
    /// <returns>True where it is clearly off by more than half of that.</returns>
    public bool IsMoistOrDry(double limitsPct) => Math.Abs(HumidityPct) > Math.Max(ShareOfLimits * limitsPct, Clearly * StandardHumidityPct);
}
