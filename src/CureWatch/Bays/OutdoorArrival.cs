using CureWatch.Panels;
using CureWatch.Readings;
using CureWatch.Units;
using CureWatch.Words;

namespace CureWatch.Bays;

/// <summary>How cold a car comes in from outdoors, by what was measured there.</summary>
/// <param name="Probe">The probe.</param>
/// <param name="LikelyKelvins">What it likely comes with [K]; null where nobody measured when it came in: then only how cold it may have been is known.</param>
/// <param name="ColdestKelvins">The coldest that it may come with [K].</param>
/// <param name="IsOfADay">Whether that is by the coldest of a day; else by what was measured when it came in.</param>
/// <remarks>
/// A car that is still to come is likely as cold as it is outdoors now, or from three hours before on as it was at that hour a day before; at the coldest, as the
/// last day's coldest. Source (choice): persistence, which a day ahead is off by 4 K in a year's hourly weather, so a day's coldest rather than one hour.
/// </remarks>
internal sealed record OutdoorArrival(string Probe, double? LikelyKelvins, double ColdestKelvins, bool IsOfADay)
{
    /// <summary>How much colder than the air a car outdoors may be, under a clear sky [3 K]. Source (choice): common practice, no source; frost on a roof at +3 °C.</summary>
    public const double SkyK = 3;

    private static readonly TimeSpan ADay = TimeSpan.FromDays(1), Soon = TimeSpan.FromHours(3);

    /// <summary>Looks at what its bay's own probe says, or else those of others.</summary>
    /// <param name="shop">The shop.</param>
    /// <param name="job">The car's job.</param>
    /// <param name="cameAt">When it came in from there, or is to come.</param>
    /// <returns>How cold it comes; null where nobody measured outdoors for a day.</returns>
    public static OutdoorArrival? Of(Shop shop, JobState job, DateTimeOffset cameAt) => shop.WithOutdoors.OrderBy(b => b != job.Job.Bay)
        .SelectMany(b => shop.Bays[b].Logs)
        .Where(l => l is { Probe.Measures: Measures.Outdoor, OutvotedAt: null, Air.Count: > 0 })
        .Select(l => Of(l, cameAt, job.IsExpectedAt(shop.Now) ? shop.Now : null, shop.Now))
        .FirstOrDefault(o => o is not null);

    private static OutdoorArrival? Of(ProbeLog log, DateTimeOffset came, DateTimeOffset? expectedSince, DateTimeOffset now)
    {
        if (expectedSince is null && HeardAt(log, came) is { } then)
        {
            return new OutdoorArrival(log.Probe.Id, then.Kelvins, then.Kelvins - SkyK, IsOfADay: false);
        }

        DateTimeOffset from = (expectedSince ?? came) - ADay, to = came + ADay < now ? came + ADay : now;
        int first = log.Air.CountWhile((in s) => s.At < from), last = log.Air.CountUpTo(to);
        if (first >= last)
        {
            return null;
        }

        double coldest = Enumerable.Range(first, last - first).Min(i => log.Air[i].Kelvins);
        TimeSpan ahead = came - now;
        Sample? likely = expectedSince is null ? null : HeardAt(log, ahead < Soon ? now : came - (ADay * Math.Ceiling(ahead / ADay)));
        return new OutdoorArrival(log.Probe.Id, likely?.Kelvins, Math.Min(coldest, likely?.Kelvins ?? coldest) - SkyK, IsOfADay: true);
    }

    private static Sample? HeardAt(ProbeLog log, DateTimeOffset at)
    {
        int count = log.Air.CountUpTo(at);
        return count > 0 && !Source.IsGapForCure(at - log.Air[count - 1].At, log.Probe.Every) ? log.Air[count - 1] : null;
    }

    /// <summary>Says what is reckoned with.</summary>
    /// <returns>A sentence.</returns>
    public Sentence InWords() => IsOfADay
        ? (Sentence)$"As cold as {Probe} measured outdoors within a day, less {new Figure.Difference(SkyK, "0")} for a clear sky, is reckoned with: {new Figure.Temperature(C(ColdestKelvins), "0.#")}."
        : $"It came in as {Probe} measured outdoors then, {new Figure.Temperature(C(LikelyKelvins!.Value), "0.#")}, or up to {new Figure.Difference(SkyK, "0")} colder under a clear sky.";

    private static double C(double kelvins) => Celsius.FromKelvins(kelvins).Degrees;
}
