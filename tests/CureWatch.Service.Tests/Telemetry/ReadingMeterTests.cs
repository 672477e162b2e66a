using System.Collections.Concurrent;
using System.Diagnostics.Metrics;
using CureWatch.Service.Pump;
using CureWatch.Service.Telemetry;
using CureWatch.Service.Tests.Pump;

namespace CureWatch.Service.Tests.Telemetry;

public class ReadingMeterTests
{
    [Theory]
    [InlineData(1)]
    [InlineData(2)]
    public async Task Day_Measured_SumsUpToWhatTheShopSays(int seed)
    {
        using var meter = new Meter("test");
        using var sums = new Sums(meter);
        using var pumped = new Pumped(AnyInputs.Shop, inbox => new ReadingMeter(meter, inbox));
        int came = 0, readings = 0;
        foreach ((DateTimeOffset at, IReadOnlyList<Func<Arrival>> arrivals) in new AnyInputs(seed).Groups(80))
        {
            pumped.Clock.SetUtcNow(at);
            Arrival[] group = [.. arrivals.Select(a => a())];
            came += group.Count(a => a is Arrival.Reading or Arrival.Refusal);
            readings += group.Count(a => a is Arrival.Reading);
            await pumped.AskTogether(group);
        }

        pumped.Stop();
        Register register = pumped.Recover().Register;
        Assert.Equal(came, sums.Of("curewatch.readings.received"));
        Assert.Equal(readings, sums.Of("curewatch.readings.journalled"));
        Assert.Equal(register.Shop!.Tally.Accepted, sums.Of("curewatch.readings.believed"));
        Assert.Equal(
            register.Refusals.GroupBy(r => r.Key.Reason).Select(g => (g.Key, (double)g.Sum(r => r.Value))).Order(),
            sums.By("curewatch.readings.refused", Tags.Reason).Order());
        Assert.Equal(came, sums.Of("curewatch.readings.believed") + sums.Of("curewatch.readings.refused"));
        Assert.True(sums.Of("curewatch.journal.batch.size") > readings);
        Assert.True(sums.Of("curewatch.journal.flush.duration") > 0);
    }

    // What .NET draws of itself are steps for milliseconds: 5, 10, 25 … of a second.
    [Fact]
    public void Flushes_AreDrawnInSteps_ThatTellAQuickDiskFromASlowOne_AndAStalledOne()
    {
        using var meter = new Meter("test");
        using var pumped = new Pumped();
        var steps = new List<double>();
        using var listener = new MeterListener
        {
            InstrumentPublished = (instrument, _) => steps.AddRange((instrument as Histogram<double>)?.Advice?.HistogramBucketBoundaries ?? []),
        };
        listener.Start();
        _ = new ReadingMeter(meter, pumped.Inbox);
        Assert.Equal(4, new[] { 0.000_4, 0.004, 0.4, 4 }.Select(seconds => steps.Count(s => s < seconds)).Distinct().Count());
        Assert.Contains(StorageWatch.LongWrite.TotalSeconds, steps);
    }

    [Fact]
    public async Task Strangers_AreNotToldApart()
    {
        using var meter = new Meter("test");
        using var sums = new Sums(meter);
        using var pumped = new Pumped(more: inbox => new ReadingMeter(meter, inbox));
        await pumped.AskTogether(Enumerable.Range(0, 300).Select(i => new Arrival.Refusal(Readings.Disbelief.UnknownProbe, $"place {i}")));
        pumped.Stop();
        Assert.Equal([("", 300.0)], sums.By("curewatch.readings.refused", Tags.Place));
    }

    [Fact]
    public async Task Nobody_Listening_NothingIsCounted()
    {
        using var meter = new Meter("test");
        using var pumped = new Pumped(more: inbox => new ReadingMeter(meter, inbox));
        await pumped.Read(20, 50);
        using var late = new Sums(meter);
        await pumped.Read(20.1, 50, Journal.Entries.At.AddSeconds(-30));
        pumped.Stop();
        Assert.Equal(1, late.Of("curewatch.readings.believed"));
        Assert.Equal(2, late.Of("curewatch.readings.received"));
    }

    /// <summary>Adds up what a meter measures, by instrument and tags.</summary>
    private sealed class Sums : IDisposable
    {
        private readonly ConcurrentDictionary<(string Instrument, string Tags), double> _sums = new();
        private readonly MeterListener _listener = new();

        public Sums(Meter meter)
        {
            _listener.InstrumentPublished = (instrument, listener) =>
            {
                if (instrument.Meter == meter)
                {
                    listener.EnableMeasurementEvents(instrument);
                }
            };
            _listener.SetMeasurementEventCallback<long>((i, value, tags, _) => Add(i, value, tags));
            _listener.SetMeasurementEventCallback<double>((i, value, tags, _) => Add(i, value, tags));
            _listener.Start();
        }

        public double Of(string instrument)
        {
            _sums.TryRemove(("curewatch.readings.received", ""), out _);
            _listener.RecordObservableInstruments();
            return _sums.Where(s => s.Key.Instrument == instrument).Sum(s => s.Value);
        }

        public IEnumerable<(string Tag, double Sum)> By(string instrument, string tag) =>
            _sums.Where(s => s.Key.Instrument == instrument)
                .GroupBy(s => s.Key.Tags.Split(';').Single(t => t.StartsWith($"{tag}=", StringComparison.Ordinal))[(tag.Length + 1)..])
                .Select(g => (g.Key, g.Sum(s => s.Value)));

        public void Dispose() => _listener.Dispose();

        private void Add(Instrument instrument, double value, ReadOnlySpan<KeyValuePair<string, object?>> tags)
        {
            string text = string.Join(';', tags.ToArray().Select(t => $"{t.Key}={t.Value}"));
            _sums.AddOrUpdate((instrument.Name, text), value, (_, sum) => sum + value);
        }
    }
}
