using System.Collections.Concurrent;
using System.Diagnostics;
using CureWatch.Service.Telemetry;
using CureWatch.Service.Tests.Pump;

namespace CureWatch.Service.Tests.Telemetry;

public class WayTests
{
    [Fact]
    public async Task Batch_ThatIsSampled_TellsHowFarTheJournalIs_AndWhatBecameOfItsReadings()
    {
        var told = new ConcurrentQueue<Activity>();
        using var listener = new ActivityListener
        {
            ShouldListenTo = source => source.Name == Way.Name,
            Sample = (ref ActivityCreationOptions<ActivityContext> _) => ActivitySamplingResult.AllData,
            ActivityStopped = told.Enqueue,
        };
        ActivitySource.AddActivityListener(listener);
        using var pumped = new Pumped(more: _ => new Way());
        await pumped.Read(20, 50);
        await pumped.Read(20, 150, pumped.Clock.GetUtcNow().AddSeconds(-30));
        pumped.Stop();

        string[] events =
        [
            .. from batch in told
               where batch.OperationName == "journal batch" && batch.GetTagItem("curewatch.journal.position") is > 0L
               from happened in batch.Events
               let tags = happened.Tags.ToDictionary(t => t.Key, t => t.Value)
               select $"{happened.Name} {tags[Tags.Place]} {tags.GetValueOrDefault(Tags.Reason)}".Trim(),
        ];
        Assert.Equal(["reading believed bay-1/air-1", "reading refused bay-1/air-1 out-of-range"], events);
    }
}
