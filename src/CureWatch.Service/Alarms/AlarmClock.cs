using System.Threading.Channels;
using CureWatch.Bays;
using CureWatch.Service.Pump;
using Quartz;

namespace CureWatch.Service.Alarms;

/// <summary>Keeps one alarm at the instant at which something falls due next, as the newest state has it.</summary>
/// <remarks>
/// Commits come by the thousand a second: only the newest state waits here, it is looked at on a thread of its own, and the alarm is set
/// again only where the instant is another one. In a large shop that is with every reading, so it rests a little after each time.
/// </remarks>
internal sealed class AlarmClock(ISchedulerFactory schedulers, Latest latest, TimeProvider clock, ILogger<AlarmClock> log)
    : BackgroundService, IFollower
{
    public static readonly TriggerKey Due = new("due");

    /// <summary>To set it takes a fraction of a millisecond: a twentieth of a processor at most. Source (choice).</summary>
    private const int RestPerWork = 19;

    /// <summary>Where the machine is busy with other things, setting it may take long, and nothing may fall due unheard meanwhile. Source (choice).</summary>
    private static readonly TimeSpan LongestRest = TimeSpan.FromSeconds(1);

    private readonly Channel<Register> _newest = Channel.CreateBounded<Register>(
        new BoundedChannelOptions(1) { SingleReader = true, FullMode = BoundedChannelFullMode.DropOldest });

    private DateTimeOffset? _armed;

    public void Follow(Commit commit) => _newest.Writer.TryWrite(commit.After);

    protected override async Task ExecuteAsync(CancellationToken stoppingToken)
    {
        IScheduler scheduler = await schedulers.GetScheduler(stoppingToken).ConfigureAwait(false);
        await ArmAsync(scheduler, latest.Register, stoppingToken).ConfigureAwait(false);
        await foreach (Register register in _newest.Reader.ReadAllAsync(stoppingToken).ConfigureAwait(false))
        {
            await ArmAsync(scheduler, register, stoppingToken).ConfigureAwait(false);
        }
    }

    private async Task ArmAsync(IScheduler scheduler, Register register, CancellationToken stopping)
    {
        DateTimeOffset? due = register.Shop is { } shop ? ShopFold.NextDueAt(shop) : null;
        if (due == _armed)
        {
            return;
        }

        long begun = TimeProvider.System.GetTimestamp();
        try
        {
            await SetAsync(scheduler, due, stopping).ConfigureAwait(false);
            _armed = due;
            await Task.Delay(RestAfter(TimeProvider.System.GetElapsedTime(begun)), TimeProvider.System, stopping).ConfigureAwait(false);
        }
        catch (SchedulerException e)
        {
            Log.NotArmed(log, e, due);   // the next commit tries again, and the tick of the minute wakes the pump in any case
        }
    }

    /// <summary>How long it is left alone after it was set.</summary>
    public static TimeSpan RestAfter(TimeSpan work) => RestPerWork * work < LongestRest ? RestPerWork * work : LongestRest;

    private async Task SetAsync(IScheduler scheduler, DateTimeOffset? due, CancellationToken stopping)
    {
        if (due is null)
        {
            await scheduler.UnscheduleJob(Due, stopping).ConfigureAwait(false);
            return;
        }

        ITrigger trigger = TriggerBuilder.Create(clock)
            .WithIdentity(Due)
            .ForJob(WakeJob.Key)
            .StartAt(WholeMillisecond(due.Value))
            .WithSchedule(SimpleScheduleBuilder.Create().WithMisfireInstruction(SimpleTriggerMisfireInstruction.FireNow))
            .Build();
        await scheduler.ScheduleTrigger(trigger, TriggerConflict.Replace, stopping).ConfigureAwait(false);
    }

    /// <summary>Up, never down: woken a fraction early, the pump would find nothing due.</summary>
    public static DateTimeOffset WholeMillisecond(DateTimeOffset instant)
    {
        long over = instant.Ticks % TimeSpan.TicksPerMillisecond;
        return over == 0 ? instant : instant.AddTicks(TimeSpan.TicksPerMillisecond - over);
    }
}
