using System.Buffers;
using CureWatch.Readings;
using CureWatch.Service.Mqtt;
using CureWatch.Service.Pump;
using CureWatch.Service.Settings;

namespace CureWatch.Service.Tests.Mqtt;

public class ReceptionTests
{
    private const int TapRefused = 2400;
    private const int TapOfNoJob = 2401;
    private const int KeptTapIgnored = 2402;

    private readonly ToldLog<Reception> _log = new();

    [Fact]
    public async Task Tap_RefusedAgainAndAgain_IsToldOnceForEachTopicAndFault()
    {
        int asked = 0;
        await using var rig = new Rig(_log, _ => new Answer.Refused([new Fault("tap", "/at", $"{asked++} s ahead", $"no later than {asked}")]));
        for (int i = 0; i < 5; i++)
        {
            await rig.PressAsync("bay-1");
            await rig.PressAsync("bay-2");
        }

        await Eventually.TrueAsync(() => rig.Pump.Taken.All(a => a.Answered.IsCompleted) && _log.Of(TapRefused) >= 2, "both to be told");
        Assert.Equal(2, _log.Of(TapRefused));
    }

    [Fact]
    public async Task Taps_OfEverNewJobs_AreToldUpToABound()
    {
        int asked = 0;
        await using var rig = new Rig(_log, _ => new Answer.NoSuchJob($"job-{asked++}"));
        for (int i = 0; i < 1_100; i++)
        {
            await rig.PressAsync("bay-1");
        }

        await Eventually.TrueAsync(() => _log.Of(TapOfNoJob) >= 1_000, "those that are told");
        Assert.InRange(_log.Of(TapOfNoJob), 1_000, 1_002); // those that come together may be told together
    }

    [Fact]
    public async Task Tap_ThatABrokerKept_IsToldOnce()
    {
        await using var rig = new Rig(_log, null);
        await rig.PressAsync("bay-1", isRetained: true);
        await rig.PressAsync("bay-1", isRetained: true);
        await rig.Pump.RefusesAsync($"{Disbelief.RetainedTap} bay-1/tap", $"{Disbelief.RetainedTap} bay-1/tap");
        Assert.Equal(1, _log.Of(KeptTapIgnored));
    }

    private sealed class Rig : IAsyncDisposable
    {
        private readonly CatchUp _catchUp;
        private readonly Reception _reception;

        public Rig(ToldLog<Reception> log, Func<Arrival, Answer?>? answer)
        {
            var inbox = new Inbox();
            Pump = new StandInPump(inbox, answer);
            _catchUp = new CatchUp(inbox, TimeProvider.System);
            _reception = new Reception(inbox, _catchUp, BrokerRig.Limits, log);
        }

        public StandInPump Pump { get; }

        public async Task PressAsync(string bay, bool isRetained = false) => await _reception.TakeAsync(
            new Connection(), new TopicMeaning.Tap(bay), $"{Registers.Root}/{bay}/tap", new ReadOnlySequence<byte>("{}"u8.ToArray()), isRetained, TestContext.Current.CancellationToken);

        public async ValueTask DisposeAsync()
        {
            await _catchUp.DisposeAsync();
            await Pump.DisposeAsync();
        }
    }
}
