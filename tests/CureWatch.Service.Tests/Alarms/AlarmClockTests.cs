using CureWatch.Bays;
using CureWatch.Service.Alarms;
using CureWatch.Service.Journal;
using CureWatch.Service.Pump;
using CureWatch.Service.Tests.Mqtt;
using CureWatch.Service.Tests.Pump;
using CureWatch.Service.Tests.Settings;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.Hosting;
using Quartz;

namespace CureWatch.Service.Tests.Alarms;

/// <summary>The alarm clock in a host of its own. The shop's only probe reports every 10 s and so falls silent after 30.</summary>
public sealed class AlarmClockTests : IAsyncDisposable
{
    private static readonly DateTimeOffset Start = new(2026, 5, 4, 8, 0, 0, TimeSpan.Zero);
    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(30);

    private readonly AwaitedClock _clock = new(Start);
    private readonly Folded _folded = new();
    private readonly Inbox _inbox = new();
    private readonly Latest _latest = new();
    private readonly IHost _host;

    public AlarmClockTests()
    {
        _latest.Register = _folded.Take(Start, Folded.Shop(Edited.At(ShopVariants.Least, "/bays/0/probes/0/every", "\"00:00:10\""))).After;
        HostApplicationBuilder builder = Host.CreateEmptyApplicationBuilder(null);
        builder.Services.AddSingleton(_inbox).AddSingleton(_latest).AddSingleton<TimeProvider>(_clock).AddLogging().AddAlarms(_clock);
        _host = builder.Build();
    }

    private AlarmClock Alarm => _host.Services.GetRequiredService<AlarmClock>();

    private DateTimeOffset? NextDue => ShopFold.NextDueAt(_folded.Register.Shop!);

    public async ValueTask DisposeAsync()
    {
        await _host.StopAsync();
        _host.Dispose();
    }

    [Fact]
    public async Task Due_WhileRunning_WakesOnce()
    {
        await StartAsync();
        Assert.Equal(Start.AddSeconds(30), NextDue);

        await _clock.AdvanceToAsync(Start.AddSeconds(29));
        Assert.Equal(0, _inbox.Count);
        await _clock.AdvanceToAsync(Start.AddSeconds(30));

        await AssertWokenAsync();
        await UntilAsync(async s => !await s.Exists(AlarmClock.Due));
        Assert.Equal(0, _inbox.Count);
    }

    [Fact]
    public async Task DueMeanwhile_IsToldAtTheStart()
    {
        _clock.Advance(TimeSpan.FromHours(9));

        await _host.StartAsync(TestContext.Current.CancellationToken);

        await AssertWokenAsync();
    }

    // A reading puts off when its probe falls silent.
    [Fact]
    public async Task Due_ThatIsPutOff_WakesWhereItIsThen()
    {
        await StartAsync();
        await _clock.AdvanceToAsync(Start.AddSeconds(20));
        Hear(0);
        await UntilArmedAsync(Start.AddSeconds(50));
        await _clock.AdvanceToAsync(Start.AddSeconds(49));
        Assert.Equal(0, _inbox.Count);
        await _clock.AdvanceToAsync(Start.AddSeconds(50));
        await AssertWokenAsync();
    }

    [Theory]
    [InlineData(1, 19)]
    [InlineData(50, 950)]
    [InlineData(600, 1_000)]
    [InlineData(20_000, 1_000)]
    public void Rest_IsNineteenTimesTheWork_AndASecondAtMost(int work, int rest) =>
        Assert.Equal(TimeSpan.FromMilliseconds(rest), AlarmClock.RestAfter(TimeSpan.FromMilliseconds(work)));

    [Fact]
    public async Task NothingDueAnyMore_NeedsNoAlarm()
    {
        await StartAsync();
        await _clock.AdvanceToAsync(Start.AddSeconds(30));
        await AssertWokenAsync();

        Alarm.Follow(_folded.Take(_clock.GetUtcNow(), new Entry.ClockReached()));

        Assert.Null(NextDue);
        await UntilAsync(async s => !await s.Exists(AlarmClock.Due));
    }

    [Fact]
    public async Task Minute_OfSilence_WakesToo()
    {
        await StartAsync();
        await _clock.AdvanceToAsync(Start.AddSeconds(30));
        await AssertWokenAsync();

        for (int minute = 1; minute <= 3; minute++)
        {
            await _clock.AdvanceToAsync(Start.AddMinutes(minute));
            await AssertWokenAsync();
        }
    }

    [Fact]
    public async Task TenThousandMoves_LeaveOneAlarm()
    {
        await StartAsync();

        for (int i = 1; i <= 10_000; i++)
        {
            _clock.Advance(TimeSpan.FromMilliseconds(1));
            Hear(i);
        }

        DateTimeOffset due = NextDue!.Value;
        await UntilArmedAsync(due);
        IScheduler scheduler = await SchedulerAsync();
        PagedResult<TriggerHeader> triggers = await scheduler.QueryTriggers(new TriggerQuery(), TestContext.Current.CancellationToken);
        Assert.Equal(["due", "minute"], triggers.Items.Select(t => t.Key.Name).Order());
        Assert.Equal(0, _inbox.Count);
        await _clock.AdvanceToAsync(due);
        await AssertWokenAsync();
        await UntilAsync(async s => !await s.Exists(AlarmClock.Due));
        Assert.Equal(0, _inbox.Count);
    }

    private void Hear(int tenths) => Alarm.Follow(_folded.Take(
        _clock.GetUtcNow(), new Entry.Reading("b", "p", null, 20 + (tenths % 7 * 0.1), 50, null)));

    private async Task StartAsync()
    {
        await _host.StartAsync(TestContext.Current.CancellationToken);
        await UntilArmedAsync(NextDue!.Value);
    }

    private async Task AssertWokenAsync()
    {
        await Eventually.TrueAsync(() => _inbox.Count > 0, "the alarm");
        var batch = new List<Arrival>();
        _inbox.Take(batch, 1);
        Assert.IsType<Arrival.Wake>(Assert.Single(batch));
    }

    private Task UntilArmedAsync(DateTimeOffset instant) =>
        UntilAsync(async s => (await s.GetTrigger(AlarmClock.Due))?.NextFireTimeUtc == instant && _clock.IsAwaited);

    private async Task UntilAsync(Func<IScheduler, ValueTask<bool>> condition)
    {
        IScheduler scheduler = await SchedulerAsync();
        using var patience = new CancellationTokenSource(Patience);
        while (!await condition(scheduler))
        {
            await Task.Delay(TimeSpan.FromMilliseconds(5), TimeProvider.System, patience.Token);
        }
    }

    private ValueTask<IScheduler> SchedulerAsync() => _host.Services.GetRequiredService<ISchedulerFactory>().GetScheduler();
}
