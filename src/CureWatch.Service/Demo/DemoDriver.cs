using CureWatch.Bays;
using CureWatch.Service.Pump;

namespace CureWatch.Service.Demo;

/// <summary>
/// Plays the day against the running service. The clock is stepped to the next act or due instant only once everything before it is
/// acknowledged, on disk, woken for, folded and heard.
/// </summary>
internal sealed class DemoDriver(
    SteppedClock clock,
    Latest latest,
    Stirring stirring,
    DemoSettings settings,
    Func<DemoAddresses> addresses,
    IHostApplicationLifetime lifetime,
    ILogger<DemoDriver> log) : BackgroundService
{
    /// <summary>Where people look on it ticks this often, so that nobody's countdown stands still. Source (choice).</summary>
    private static readonly TimeSpan Tick = TimeSpan.FromSeconds(1);

    private const long Millisecond = TimeSpan.TicksPerMillisecond;

    private readonly Earshot _earshot = new(stirring);
    private readonly DemoScript _script = new(new DemoDay(DemoDay.ShippedFolder));

    /// <summary>Whether it could not go on.</summary>
    public bool IsBroken { get; private set; }

    private bool IsReady => latest.Register.Shop!.Find(DemoDay.MainJob)?.IsReady == true;

    private bool IsOver => clock.GetUtcNow() >= DemoDay.StoryEnds;

    public override void Dispose()
    {
        _script.Dispose();
        base.Dispose();
    }

    protected override async Task ExecuteAsync(CancellationToken stoppingToken)
    {
        try
        {
            await StartedAsync(stoppingToken).ConfigureAwait(false);
            await using Cast cast = await Cast.ConnectAsync(addresses(), _earshot, log, stoppingToken).ConfigureAwait(false);
            await PlayAsync(cast, stoppingToken).ConfigureAwait(false);
        }
        catch (Exception) when (lifetime.ApplicationStopping.IsCancellationRequested)
        {
            // Told to stop in the middle of the day, whatever that broke off; with a data folder of its own it resumes there.
        }
#pragma warning disable CA1031 // whatever breaks the play ends the program, and is told
        catch (Exception e)
#pragma warning restore CA1031
        {
            IsBroken = true;
            Log.DemoBroke(log, e);
        }

        lifetime.StopApplication();
    }

    private Task StartedAsync(CancellationToken cancelled)
    {
        var started = new TaskCompletionSource(TaskCreationOptions.RunContinuationsAsynchronously);
        _ = lifetime.ApplicationStarted.Register(started.SetResult);
        return started.Task.WaitAsync(cancelled);
    }

    private async Task PlayAsync(Cast cast, CancellationToken cancelled)
    {
        var pace = new DemoPace();
        await SettleAsync(cancelled).ConfigureAwait(false);
        while (!IsOver && !(settings.UntilHandover && IsReady))
        {
            await StepAsync(cast, pace, cancelled).ConfigureAwait(false);
        }

        if (settings.UntilHandover)
        {
            return;
        }

        Log.StoryEnded(log);
        while (true)
        {
            await StepAsync(cast, pace, cancelled).ConfigureAwait(false);
        }
    }

    private async Task StepAsync(Cast cast, DemoPace pace, CancellationToken cancelled)
    {
        Register register = latest.Register;
        DateTimeOffset now = clock.GetUtcNow();
        DemoAct act = _script.Peek(register);
        DateTimeOffset? due = ShopFold.NextDueAt(register.Shop!) is { } instant ? WholeMillisecond(instant) : null;
        bool isAct = !(due <= act.At);
        DateTimeOffset next = isAct ? act.At : due!.Value;
        bool areGuestsAtWork = Guests.AreAtWork(register.Shop!);
        double minutesPerSecond = IsOver ? DemoPace.OfTheWall
            : areGuestsAtWork ? Math.Min(settings.MinutesPerSecond, Guests.MinutesPerSecond)
            : settings.MinutesPerSecond;
        if ((IsOver || areGuestsAtWork) && next - now > Tick)
        {
            await pace.AllowAsync(Tick, minutesPerSecond, cancelled).ConfigureAwait(false);
            clock.StepTo(now + Tick);
            return;
        }

        await pace.AllowAsync(next - now, minutesPerSecond, cancelled).ConfigureAwait(false);
        clock.StepTo(next);
        if (isAct)
        {
            await cast.DoAsync(_script.Take(register), cancelled).ConfigureAwait(false);
        }

        await SettleAsync(cancelled).ConfigureAwait(false);
    }

    /// <summary>Waits until the alarm clock rang for all that is due, the pump took it in, and people heard the warnings.</summary>
    private async Task SettleAsync(CancellationToken cancelled)
    {
        await stirring.UntilNothingAsync(Unsettled, cancelled).ConfigureAwait(false);
        foreach (HeardWarning warning in _earshot.Standing)
        {
            _script.Hear(warning, latest.Register);
        }
    }

    /// <returns>What is waited for; null for nothing.</returns>
    private string? Unsettled() =>
        ShopFold.NextDueAt(latest.Register.Shop!) is { } due && due <= clock.GetUtcNow() ? $"what is due at {due:u} to be woken for"
        : _earshot.IsOf(latest.Register.Shop!) ? null
        : $"the warnings that stand at {clock.GetUtcNow():u} to be heard";

    /// <summary>Up: the alarm clock rings on whole milliseconds, and would sleep through a step that ends a fraction before.</summary>
    private static DateTimeOffset WholeMillisecond(DateTimeOffset instant) =>
        new(((instant.UtcTicks + Millisecond - 1) / Millisecond) * Millisecond, TimeSpan.Zero);
}
