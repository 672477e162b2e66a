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
/// <param name="HasMoisture">Whether it told humidity too; where no probe of the bay did, its moisture is that of a steady humidity, and says nothing.</param>
internal sealed record PastAir(string Probe, ReadingTally Readings, ImmutableArray<HourMean> Hours, bool HasMoisture)
{
    /// <summary>What a probe that tells only temperature is taken to be in [% RH]: any that no temperature of a bay makes impossible.</summary>
    private const double SteadyPct = 50;

    private static readonly Probe Anyone = new("", Measures.Air, 0, 0, ProbeAccuracy.UsualAirK, ProbeAccuracy.UsualHumidityPct, TimeSpan.FromMinutes(1));

    /// <summary>Fewest hours that make a course, and one of which a forecast can turn out.</summary>
    private const int LeastSpan = DailyCourse.LeastSpan + 1;

    /// <returns>The air; null where the file cannot be used, which the faults then say.</returns>
    public static PastAir? Read(string path, string bay, string? probe, Faults faults)
    {
        var told = new Dictionary<(string Probe, bool IsMoist), (ProbeLog Log, ReadingTally Tally)>();
        foreach (RawReading raw in Arrivals.Of(ReadingsFile.Read(path, faults)))
        {
            if (raw.Bay == bay && (probe is null || raw.Probe == probe) && raw.AirC is not null)
            {
                (string, bool) key = (raw.Probe, raw.HumidityPct is not null);
                (ProbeLog log, ReadingTally tally) = told.GetValueOrDefault(key, (new ProbeLog(Anyone with { Id = raw.Probe }, raw.ReceivedAt), ReadingTally.None));
                told[key] = Judge(log, tally, raw with { HumidityPct = raw.HumidityPct ?? SteadyPct });
            }
        }

        if (faults.Count > 0)
        {
            return null;
        }

        if (told.Count == 0)
        {
            faults.Add(path, "bay", bay, $"a bay of which {(probe is null ? "a probe" : $"the probe '{probe}'")} told air temperature, and humidity where it has it");
            return null;
        }

        ((string id, bool isMoist), (ProbeLog most, ReadingTally believed)) = told
            .OrderByDescending(t => t.Key.IsMoist).ThenByDescending(t => t.Value.Log.Air.Count).ThenBy(t => t.Key.Probe, StringComparer.Ordinal).First();
        int halves = isMoist && told.TryGetValue((id, false), out (ProbeLog, ReadingTally Tally) dry) ? dry.Tally.Accepted + dry.Tally.Rejected.Values.Sum() : 0;
        return new PastAir(id, halves > 0 ? believed.With([(Disbelief.Malformed, halves)]) : believed, [.. HourMean.Of(most.Air)], isMoist);
    }

    /// <summary>How good forecasts of it would have been.</summary>
    /// <param name="hours">How far they look ahead [h].</param>
    public Backtest Tried(int hours)
    {
        Backtest backtest = Backtest.Over(Hours, hours);
        return HasMoisture ? backtest : backtest with { Leads = [.. backtest.Leads.Select(l => l with { DewPoint = null })] };
    }

    private static (ProbeLog, ReadingTally) Judge(ProbeLog log, ReadingTally tally, RawReading raw) => log.Doubt(raw) switch
    {
        null => (log.Believe(raw), tally with { Accepted = tally.Accepted + 1 }),
        { } why when CureWatch.Readings.Refusal.TellsOfTheProbe(why) => (log.Refuse(raw, why), tally.With([(why, 1)])),
        { } why => (log, tally.With([(why, 1)])),
    };

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
