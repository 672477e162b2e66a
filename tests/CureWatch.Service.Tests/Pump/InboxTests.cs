using CureWatch.Readings;
using CureWatch.Service.Journal;
using CureWatch.Service.Pump;
using CureWatch.Service.Tests.Mqtt;
using Microsoft.Extensions.Time.Testing;

namespace CureWatch.Service.Tests.Pump;

public class InboxTests
{
    private const int Batch = 2_000;

    private readonly FakeTimeProvider _time = new();

    [Fact]
    public async Task Probe_ThatFloods_DelaysNobodyElse()
    {
        var inbox = new Inbox(1_000_000);
        List<Task> flood = [.. Enumerable.Range(0, 100_000).Select(i => Post(inbox, Reading("wild", i)))];
        Arrival quiet = Reading("quiet", 1);
        await Post(inbox, quiet);
        Assert.Equal(Inbox.MostInLane + 1, inbox.Count);

        List<Arrival> batch = Take(inbox);

        Assert.Contains(quiet, batch);
        Assert.Contains(flood, f => !f.IsCompleted);
        Assert.Equal(Enumerable.Range(0, batch.Count - 1), batch.Where(a => a != quiet).Select(Number));
    }

    [Fact]
    public async Task Everything_ThatWasHeldBack_ComesInItsOrder()
    {
        var inbox = new Inbox(1_000_000);
        Task[] posted = [.. Enumerable.Range(0, 50_000).Select(i => Post(inbox, Reading("wild", i)))];
        var taken = new List<int>();
        while (taken.Count < 50_000)
        {
            Assert.InRange(inbox.Count, 1, Inbox.MostInLane);
            taken.AddRange(Take(inbox, 700).Select(Number));
        }

        Assert.Equal(Enumerable.Range(0, 50_000), taken);
        await Task.WhenAll(posted).InTimeAsync();
        Assert.Equal((0, 0L), (inbox.Count, inbox.Bytes));
    }

    [Fact]
    public async Task Inbox_ThatIsFull_StillHasRoomForAQuietProbe()
    {
        var inbox = new Inbox(1_000_000);
        Task[] posted = [.. Enumerable.Range(0, 60_000).Select(i => Post(inbox, Reading($"wild-{i % 30}", i)))];
        Assert.Equal(Inbox.Most, inbox.Count);
        Assert.True(Post(inbox, Reading("quiet", 0)).IsCompleted);
        Assert.True(Post(inbox, new Arrival.Wake()).IsCompleted);
        Assert.IsType<Arrival.Wake>(Take(inbox, 1)[0]);
        while (inbox.Count > 0)
        {
            Take(inbox);
        }

        await Task.WhenAll(posted).InTimeAsync();
    }

    [Fact]
    public void Taps_AreBoundedByTheirBytes()
    {
        var inbox = new Inbox();
        Task[] posted = [.. Enumerable.Range(0, 1_000).Select(_ => Post(inbox, new Arrival.Tap("t", null, new byte[262_144])))];
        Assert.InRange(inbox.Bytes, Inbox.MostBytes / 2, Inbox.MostBytes);
        Assert.Contains(posted, p => !p.IsCompleted);
    }

    [Fact]
    public async Task Taps_InAFlood_LeaveReadingsTheirTurn()
    {
        var inbox = new Inbox();
        for (int i = 0; i < 500; i++)
        {
            await Post(inbox, new Arrival.Tap("t", null, default));
        }

        await Post(inbox, Reading("quiet", 0));
        await Post(inbox, new Arrival.Refusal(Disbelief.Malformed, "bay-1/quiet"));
        List<Arrival> batch = Take(inbox, 100);
        Assert.Contains(batch, a => a is Arrival.Reading);
        Assert.Contains(batch, a => a is Arrival.Refusal);
        Assert.IsType<Arrival.Tap>(batch[0]);
    }

    [Fact]
    public async Task Probe_BeyondItsAllowance_IsDelayedAndLosesNothing()
    {
        var inbox = new Inbox(10, _time);
        for (int i = 0; i < 1_000; i++)
        {
            await Post(inbox, Reading("wild", i));
        }

        int burst = Take(inbox).Count;
        Assert.InRange(burst, 2, 999);
        await Post(inbox, Reading("quiet", 0));
        Assert.Single(Take(inbox));

        Task<List<Arrival>> next = Task.Run(() => Take(inbox), TestContext.Current.CancellationToken);
        int left = 1_000 - burst;
        while (left > 0)
        {
            await Eventually.TrueAsync(
                () =>
                {
                    _time.Advance(TimeSpan.FromMilliseconds(100));
                    return next.IsCompleted;
                },
                "the next reading");
            left -= (await next).Count;
            next = left > 0 ? Task.Run(() => Take(inbox), TestContext.Current.CancellationToken) : next;
        }

        Assert.Equal((0, 0), (left, inbox.Count));
        Assert.True(_time.GetUtcNow() - new FakeTimeProvider().GetUtcNow() >= TimeSpan.FromSeconds((1_000 - burst - 2) / 10.0));
    }

    [Fact]
    public async Task Sender_WhoGivesUp_LeavesNothingBehind()
    {
        var inbox = new Inbox();
        for (int i = 0; i < Inbox.MostInLane; i++)
        {
            await Post(inbox, Reading("wild", i));
        }

        using var patience = new CancellationTokenSource();
        Task held = inbox.PostAsync(Reading("wild", -1), patience.Token).AsTask();
        Task after = Post(inbox, Reading("wild", Inbox.MostInLane));
        Assert.False(held.IsCompleted);
        await patience.CancelAsync();
        await Assert.ThrowsAnyAsync<OperationCanceledException>(() => held);

        List<int> taken = [.. Take(inbox, 900).Select(Number), .. Take(inbox).Select(Number)];
        await after.InTimeAsync();
        Assert.Equal(Enumerable.Range(0, taken.Count), taken);
    }

    [Fact]
    public async Task Person_WhoAsksForTooLong_IsToldToComeAgain()
    {
        var inbox = new Inbox(time: _time);
        for (int i = 0; i < Inbox.MostInLane; i++)
        {
            await Post(inbox, new Arrival.Wake());
        }

        Task<Answer> asked = inbox.AskAsync(new Arrival.HandOver("job-1", null, null), TestContext.Current.CancellationToken);
        Assert.False(asked.IsCompleted);
        _time.Advance(TimeSpan.FromSeconds(2));
        Assert.IsType<Answer.NotStored>(await asked.InTimeAsync());
        Assert.Equal(Inbox.MostInLane, inbox.Count);
    }

    [Fact]
    public async Task Inbox_ThatCloses_AnswersEverybody()
    {
        var inbox = new Inbox(1, _time);
        Arrival.Reading[] readings = [.. Enumerable.Range(0, Inbox.MostInLane + 500).Select(i => Reading("wild", i))];
        Task[] posted = [.. readings.Select(r => Post(inbox, r))];
        int taken = Take(inbox).Count;
        inbox.Close();
        await Task.WhenAll(posted).InTimeAsync();

        var rest = new List<Arrival>();
        for (var batch = new List<Arrival>(); inbox.Take(batch, Batch); batch.Clear())
        {
            rest.AddRange(batch);
        }

        Assert.Equal(readings.Length, taken + rest.Count + readings.Count(r => r.Answered is { IsCompleted: true, Result: Answer.NotStored }));
        Arrival late = Reading("wild", 0);
        await Post(inbox, late);
        Assert.IsType<Answer.NotStored>(await late.Answered);
    }

    private static Task Post(Inbox inbox, Arrival arrival) => inbox.PostAsync(arrival, TestContext.Current.CancellationToken).AsTask();

    private static Arrival.Reading Reading(string probe, int number) => new(new Entry.Reading("bay-1", probe, null, number, 50, null));

    private static int Number(Arrival arrival) => (int)((Arrival.Reading)arrival).Entry.AirC!.Value;

    private static List<Arrival> Take(Inbox inbox, int most = Batch)
    {
        var batch = new List<Arrival>();
        Assert.True(inbox.Take(batch, most));
        return batch;
    }
}
