using System.Diagnostics.Metrics;
using CureWatch.Readings;
using CureWatch.Service.Book;
using CureWatch.Service.Mqtt;
using CureWatch.Service.Pump;
using CureWatch.Service.Settings;
using CureWatch.Warnings;

namespace CureWatch.Service.Telemetry;

/// <summary>Measures how things stand at the moment somebody looks: nothing is done while nobody does.</summary>
internal sealed class StateMeter : IFollower
{
    private readonly Latest _latest;
    private readonly Outputs _outputs;
    private readonly Troubles _troubles;
    private readonly TimeProvider _clock;
    private (long Sequence, long Since) _unpublished;

    /// <param name="meter">Where the measurements are offered.</param>
    /// <param name="inbox">What waits for the pump.</param>
    /// <param name="latest">The newest state.</param>
    /// <param name="outputs">What is published.</param>
    /// <param name="book">What people look things up in.</param>
    /// <param name="troubles">What keeps the program from its work.</param>
    /// <param name="clock">The shop's time.</param>
    /// <param name="link">The connection with an external broker; null with the embedded one.</param>
    public StateMeter(
        Meter meter, Inbox inbox, Latest latest, Outputs outputs, BookKeeper book, Troubles troubles, TimeProvider clock, BrokerLink? link = null)
    {
        (_latest, _outputs, _troubles, _clock) = (latest, outputs, troubles, clock);
        _unpublished = (0, TimeProvider.System.GetTimestamp()); // what was there at the start is published again
        meter.CreateObservableUpDownCounter("curewatch.inbox.depth", () => inbox.Count, "{arrival}", "What waits for the pump.");
        meter.CreateObservableUpDownCounter("curewatch.inbox.size", () => inbox.Bytes, "By", "What that takes up.");
        if (link is not null)
        {
            meter.CreateObservableGauge("curewatch.broker.connected", () => link.Trouble is null ? 1 : 0, null, "Whether the external broker is reached.");
        }

        meter.CreateObservableGauge("curewatch.journal.position", () => latest.Register.Sequence, "{entry}", "The number of the last entry on disk.");
        meter.CreateObservableGauge("curewatch.outputs.delay", OutputsDelay, "s", "For how long something on disk has not been published.");
        meter.CreateObservableGauge("curewatch.book.lag", () => Math.Max(0, latest.Register.Sequence - book.Booked.Sequence), "{entry}", "Entries on disk that are not in the book yet.");
        meter.CreateObservableGauge("curewatch.probe.age", ProbeAges, "s", "How long ago each probe measured what it last told.");
        meter.CreateObservableGauge("curewatch.probe.clock.offset", ClockOffsets, "s", "How far each probe's clock is ahead of ours.");
        meter.CreateObservableUpDownCounter("curewatch.warnings.standing", Warnings, "{warning}", "Warnings that stand, and troubles of the program itself, by kind.");
    }

    public void Follow(Commit commit)
    {
        if (_outputs.PublishedThrough >= Volatile.Read(ref _unpublished.Sequence))
        {
            Volatile.Write(ref _unpublished.Since, TimeProvider.System.GetTimestamp());
            Volatile.Write(ref _unpublished.Sequence, commit.After.Sequence);
        }
    }

    private double OutputsDelay() => _outputs.PublishedThrough >= Volatile.Read(ref _unpublished.Sequence)
        ? 0
        : TimeProvider.System.GetElapsedTime(Volatile.Read(ref _unpublished.Since)).TotalSeconds;

    private IEnumerable<Measurement<double>> ProbeAges()
    {
        DateTimeOffset now = _clock.GetUtcNow();
        return from bay in _latest.Register.Shop?.Bays.Values ?? []
               from log in bay.Logs
               let trail = log.Probe.Measures == Measures.Panel ? log.Panel : log.Air
               where trail.Count > 0
               select new Measurement<double>((now - trail.Last.At).TotalSeconds, new KeyValuePair<string, object?>(Tags.Place, $"{bay.Plan.Bay}/{log.Probe.Id}"));
    }

    private IEnumerable<Measurement<double>> ClockOffsets() =>
        from bay in _latest.Register.Shop?.Bays.Values ?? []
        from log in bay.Logs
        where log.Clock.OffsetSeconds is not null
        select new Measurement<double>(log.Clock.OffsetSeconds!.Value, new KeyValuePair<string, object?>(Tags.Place, $"{bay.Plan.Bay}/{log.Probe.Id}"));

    private IEnumerable<Measurement<int>> Warnings() =>
        from kind in (_latest.Register.Shop?.Standing.Keys.Select(s => s.Kind) ?? []).Concat(_troubles.Standing.Select(t => t.Kind))
        group kind by kind into same
        select new Measurement<int>(same.Count(), new KeyValuePair<string, object?>(Tags.Kind, WireName<WarningKind>.Of(same.Key)));
}
