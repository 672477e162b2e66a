using System.Collections.Immutable;
using System.Globalization;
using CureWatch.Forecasting;
using CureWatch.Readings;
using CureWatch.Service.Settings;

namespace CureWatch.Service.Commands;

/// <summary>The air of a bay as one probe of a readings file told it, as far as it is believed.</summary>
/// <param name="Probe">The probe.</param>
/// <param name="Believed">How many of its readings are believed.</param>
/// <param name="Doubted">How many are not.</param>
/// <param name="Hours">The means of its hours.</param>
internal sealed record PastAir(string Probe, int Believed, int Doubted, ImmutableArray<HourMean> Hours)
{
    /// <summary>Fewest hours of which a forecast can turn out: those that make a course, and one more. See <see cref="DailyCourse"/>.</summary>
    private const int LeastSpan = DailyCourse.LeastSpan + 1;

    private static readonly TimeSpan UsualEvery = TimeSpan.FromMinutes(1);

    /// <returns>The air; null where the file cannot be used, which the faults then say.</returns>
    public static PastAir? Read(string path, string bay, string? probe, Faults faults)
    {
        var logs = new Dictionary<string, ProbeLog>(StringComparer.Ordinal);
        var doubted = new Dictionary<string, int>(StringComparer.Ordinal);
        foreach (RawReading raw in Arrivals.Of(ReadingsFile.Read(path, faults)))
        {
            if (raw.Bay != bay || (probe is not null && raw.Probe != probe) || raw.AirC is null || raw.HumidityPct is null)
            {
                continue;
            }

            ProbeLog log = logs.GetValueOrDefault(raw.Probe) ?? new ProbeLog(new Probe(raw.Probe, Measures.Air, 0, 0, 0, 0, UsualEvery), raw.ReceivedAt);
            Disbelief? doubt = log.Doubt(raw);
            doubted[raw.Probe] = doubted.GetValueOrDefault(raw.Probe) + (doubt is null ? 0 : 1);
            logs[raw.Probe] = doubt switch
            {
                null => log.Believe(raw),
                { } why when Readings.Refusal.TellsOfTheProbe(why) => log.Refuse(raw, why),
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

        ImmutableArray<HourMean> hours = [.. HourMean.Of(most.Air)];
        long span = hours.IsEmpty ? 0 : hours[^1].Hour - hours[0].Hour;
        if (span < LeastSpan)
        {
            faults.Add(path, "bay", string.Create(CultureInfo.InvariantCulture, $"{span} hours of '{bay}'"), $"readings over at least {LeastSpan} hours");
            return null;
        }

        return new PastAir(most.Probe.Id, most.Air.Count, doubted[most.Probe.Id], hours);
    }
}
