using System.Diagnostics.Metrics;
using CureWatch.Bays;
using CureWatch.Readings;
using CureWatch.Service.Journal;
using CureWatch.Service.Pump;
using CureWatch.Service.Settings;

namespace CureWatch.Service.Telemetry;

/// <summary>
/// Counts the way of the readings: received, journalled, then believed or refused. What the library says has happened is counted, so that
/// the sums are those of <c>/api/v1/readings</c>.
/// </summary>
internal sealed class ReadingMeter : IFollower
{
    private const string Unit = "{reading}";

    /// <summary>From one entry to all that a slow disk lets wait. Source (choice).</summary>
    private static readonly InstrumentAdvice<long> Batches = new() { HistogramBucketBoundaries = [1, 2, 5, 10, 20, 50, 100, 200, 500, 1_000, 2_000, 5_000] };

    /// <summary>
    /// From a quick disk's fraction of a millisecond to a card that hangs [s]. Source (choice). What nobody advises is drawn in steps for milliseconds,
    /// and every flush would lie in the first.
    /// </summary>
    private static readonly InstrumentAdvice<double> Flushes = new()
    {
        HistogramBucketBoundaries = [0.000_2, 0.000_5, 0.001, 0.002, 0.005, 0.01, 0.02, 0.05, 0.1, 0.2, 0.5, 1, 3, 10],
    };

    private readonly Counter<long> _journalled;
    private readonly Counter<long> _believed;
    private readonly Counter<long> _refused;
    private readonly Histogram<long> _batch;
    private readonly Histogram<double> _flush;
    private readonly Dictionary<(string Bay, string Probe), KeyValuePair<string, object?>> _places = [];

    public ReadingMeter(Meter meter, Inbox inbox)
    {
        meter.CreateObservableCounter("curewatch.readings.received", () => inbox.Received, Unit, "Messages of probes that came in, whatever they said.");
        _journalled = meter.CreateCounter<long>("curewatch.readings.journalled", Unit, "Readings that are on disk.");
        _believed = meter.CreateCounter<long>("curewatch.readings.believed", Unit, "Readings that are on disk and believed.");
        _refused = meter.CreateCounter<long>("curewatch.readings.refused", Unit, "Messages that were no reading, and readings nobody believes, by reason.");
        _batch = meter.CreateHistogram("curewatch.journal.batch.size", "{entry}", "Entries behind one flush to the disk.", tags: null, Batches);
        _flush = meter.CreateHistogram("curewatch.journal.flush.duration", "s", "How long a flush to the disk took.", tags: null, Flushes);
    }

    public void Follow(Commit commit)
    {
        if (!_believed.Enabled)
        {
            return;
        }

        _batch.Record(commit.Steps.Length);
        _flush.Record(commit.FlushTook.TotalSeconds);
        foreach (Step step in commit.Steps)
        {
            if (step.Entry is Entry.Reading reading)
            {
                _journalled.Add(1, PlaceOf(reading.Bay, reading.Probe));
            }
            else if (step.Entry is Entry.RefusalsCounted counted)
            {
                Refuse(counted);
            }

            foreach (ShopEvent happened in step.Happened)
            {
                switch (happened)
                {
                    case ShopEvent.ReadingBelieved e:
                        _believed.Add(1, PlaceOf(e.Raw.Bay, e.Raw.Probe));
                        break;
                    case ShopEvent.ReadingDoubted e:
                        _refused.Add(1, new(Tags.Reason, WireName<Disbelief>.Of(e.Why)), PlaceOf(e.Raw.Bay, e.Raw.Probe));
                        break;
                }
            }
        }
    }

    /// <summary>A sender makes up as many unknown places as it likes, so those are not told apart.</summary>
    private void Refuse(Entry.RefusalsCounted counted)
    {
        string unknown = WireName<Disbelief>.Of(Disbelief.UnknownProbe);
        foreach (RefusalCount count in counted.Counts)
        {
            _refused.Add(count.Count, new(Tags.Reason, count.Reason), new(Tags.Place, count.Reason == unknown ? null : count.Place));
        }
    }

    private KeyValuePair<string, object?> PlaceOf(string bay, string probe)
    {
        if (!_places.TryGetValue((bay, probe), out KeyValuePair<string, object?> place))
        {
            place = new KeyValuePair<string, object?>(Tags.Place, $"{bay}/{probe}");
            _places.Add((bay, probe), place);
        }

        return place;
    }
}
