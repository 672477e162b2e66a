using System.Diagnostics;
using CureWatch.Bays;
using CureWatch.Service.Pump;
using CureWatch.Service.Settings;

namespace CureWatch.Service.Telemetry;

/// <summary>
/// Tells the way of a batch as a trace: how long it was folded and brought onto the disk, and what became of its first readings. A span for each message
/// would be more work than the message, so only a share of the batches is told, and of a batch only its beginning.
/// </summary>
internal sealed class Way : IFollower, IDisposable
{
    public const string Name = "CureWatch";

    /// <summary>Most readings of a batch that are named. Source (choice).</summary>
    private const int MostTold = 20;

    private readonly ActivitySource _source = new(Name);

    public void Follow(Commit commit)
    {
        if (!_source.HasListeners())
        {
            return;
        }

        DateTimeOffset now = TimeProvider.System.GetUtcNow();
        using Activity? batch = _source.StartActivity("journal batch", ActivityKind.Internal, default(ActivityContext), startTime: now - commit.FlushTook);
        if (batch is not { IsAllDataRequested: true })
        {
            return;
        }

        batch.SetTag("curewatch.journal.position", commit.After.Sequence);
        batch.SetTag("curewatch.batch.entries", commit.Steps.Length);
        foreach (ShopEvent happened in commit.Steps.SelectMany(s => s.Happened).Where(e => e is ShopEvent.ReadingBelieved or ShopEvent.ReadingDoubted).Take(MostTold))
        {
            batch.AddEvent(happened switch
            {
                ShopEvent.ReadingDoubted e => new ActivityEvent(
                    "reading refused", now, new ActivityTagsCollection([new(Tags.Place, Tags.PlaceOf(e.Raw)), new(Tags.Reason, WireName<Readings.Disbelief>.Of(e.Why))])),
                ShopEvent.ReadingBelieved e => new ActivityEvent("reading believed", now, new ActivityTagsCollection([new(Tags.Place, Tags.PlaceOf(e.Raw))])),
                _ => throw new UnreachableException(),
            });
        }
    }

    public void Dispose() => _source.Dispose();
}
