using System.Collections.Immutable;
using System.Globalization;
using CureWatch.Bays;
using CureWatch.Forecasting;
using CureWatch.Readings;
using CureWatch.Service.Documents;
using CureWatch.Service.Settings;

namespace CureWatch.Service.Commands;

/// <summary>The air of a bay as one probe of a readings file told it, as far as it is believed.</summary>
/// <param name="Probe">The probe.</param>
/// <param name="Readings">How many of its readings are believed, and why others are not.</param>
/// <param name="Hours">The means of its hours.</param>
internal sealed record PastAir(string Probe, ReadingTally Readings, ImmutableArray<HourMean> Hours)
{
    /// <summary>Fewest hours that make a course, and one of which a forecast can turn out.</summary>
    private const int LeastSpan = DailyCourse.LeastSpan + 1;

    private static readonly TimeSpan UsualEvery = TimeSpan.FromMinutes(1);

    /// <returns>The air; null where the file cannot be used, which the faults then say.</returns>
    public static PastAir? Read(string path, string bay, string? probe, Faults faults)
    {
        var logs = new Dictionary<string, ProbeLog>(StringComparer.Ordinal);
        var tallies = new Dictionary<string, ReadingTally>(StringComparer.Ordinal);
        foreach (RawReading raw in Arrivals.Of(ReadingsFile.Read(path, faults)))
        {
            if (raw.Bay != bay || (probe is not null && raw.Probe != probe) || raw.AirC is null || raw.HumidityPct is null)
            {
                continue;
            }

            ProbeLog log = logs.GetValueOrDefault(raw.Probe) ?? new ProbeLog(new Probe(raw.Probe, Measures.Air, 0, 0, 0, 0, UsualEvery), raw.ReceivedAt);
            Disbelief? doubt = log.Doubt(raw);
            ReadingTally tally = tallies.GetValueOrDefault(raw.Probe) ?? ReadingTally.None;
            tallies[raw.Probe] = doubt is { } reason ? tally.With([(reason, 1)]) : tally with { Accepted = tally.Accepted + 1 };
            logs[raw.Probe] = doubt switch
            {
                null => log.Believe(raw),
                { } why when CureWatch.Readings.Refusal.TellsOfTheProbe(why) => log.Refuse(raw, why),
                _ => log,
            };
        }

        if (faults.Count > 0)
        {
            return null;
        }

        if (logs.Values.OrderByDescending(l => l.Air.Count).ThenBy(l => l.Probe.Id, StringComparer.Ordinal).FirstOrDefault() is not { } most)
        {
            faults.Add(path, "bay", bay, $"a bay of which {(probe is null ? "a probe" : $"the probe '{probe}'")} told air temperature and humidity");
            return null;
        }

        return new PastAir(most.Probe.Id, tallies[most.Probe.Id], [.. HourMean.Of(most.Air)]);
    }

    /// <summary>What is told where no forecast could turn out.</summary>
    public Fault TooLittleOf(string path, string bay)
    {
        long span = Hours.IsEmpty ? 0 : Hours[^1].Hour - Hours[0].Hour;
        return new Fault(
            path,
            "bay",
            string.Create(CultureInfo.InvariantCulture, $"{Hours.Length} hours of '{bay}' within {span}; readings: {TallyText.Of(Readings)}"),
            $"readings over at least {LeastSpan} hours, half of them measured, in the order of their arrival, and one as long after as is asked for");
    }
}
