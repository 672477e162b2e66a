using CureWatch.Readings;
using CureWatch.Words;

namespace CureWatch.Reports;

/// <summary>What people are told of how a probe compares with those that measure the same.</summary>
public static class DriftWords
{
    /// <summary>What a comparison with its twins says of a probe, and what to do about it.</summary>
    /// <param name="probe">The probe.</param>
    /// <param name="zone">The shop's time zone, in which a day is told.</param>
    /// <returns>A sentence.</returns>
    public static Sentence Of(ProbeReport probe, TimeZoneInfo zone)
    {
        if (probe.Twins.IsEmpty)
        {
            return $"No other probe measures the same: whether it drifts cannot be said.";
        }

        Sentence twins = Sentence.Names(", ", probe.Twins.Select(t => t.Id));
        if (probe.Beside is not { } beside)
        {
            return $"Not compared with {twins} for long enough to say whether it drifts.";
        }

        bool isWarm = beside.IsWarmOrCold(probe.LimitsK), isMoist = beside.IsMoistOrDry(probe.LimitsPct);
        Sentence[] off =
        [
            .. isWarm ? [Off(beside.Kelvins, $"{new Figure.Difference(Math.Abs(beside.Kelvins), "0.0")}", $"{new Figure.Difference(2 * beside.StandardKelvins, "0.0")}", beside.KelvinsSince, zone)] : Array.Empty<Sentence>(),
            .. isMoist ? [Off(beside.HumidityPct, $"{Math.Abs(beside.HumidityPct):0.0} % RH", $"{2 * beside.StandardHumidityPct:0.0}", beside.HumiditySince, zone)] : Array.Empty<Sentence>(),
        ];
        Sentence moisture = probe.Mount.Probe.Measures == Measures.Panel ? Sentence.None : $" and {Math.Abs(beside.HumidityPct):0.0} % RH";
        Sentence advice = probe.Twins.Length > 1 ? (Sentence)$"calibrate it" : $"calibrate both: the two cannot say which is off";
        return off.Length == 0
            ? (Sentence)$"Reads within {new Figure.Difference(Math.Abs(beside.Kelvins), "0.0")}{moisture} of {twins}."
            : $"Reads {Sentence.Join(" and ", off)}, beside {twins}; {advice}.";
    }

    private static Sentence Off(double above, Sentence by, Sentence giveOrTake, DateTimeOffset since, TimeZoneInfo zone) => above > 0
        ? (Sentence)$"{by} (give or take {giveOrTake}) above since {TimeZoneInfo.ConvertTime(since, zone):d MMM}"
        : $"{by} (give or take {giveOrTake}) below since {TimeZoneInfo.ConvertTime(since, zone):d MMM}";
}
