using CureWatch.Readings;
using CureWatch.Service.Settings;
using CureWatch.Warnings;

namespace CureWatch.Service.Pump;

/// <summary>
/// Tells when this machine's clock is not right. Behind the journal, the shop stands still until it has caught up, because time never goes back
/// there, and nothing else would show it. A jump ahead shows against the time that cannot be set.
/// </summary>
/// <param name="troubles">Where it is told.</param>
/// <param name="clock">The clock, and the time that cannot be set.</param>
internal sealed class ClockWatch(Troubles troubles, TimeProvider clock)
{
    /// <summary>How long a jump ahead is told: it cannot be seen to end. Source (choice): until somebody has come by.</summary>
    private static readonly TimeSpan Told = TimeSpan.FromHours(1);

    private (DateTimeOffset Now, long Timestamp)? _before;
    private (string Why, long Timestamp)? _jump;
    private string? _why;

    /// <param name="now">What time the clock says it is.</param>
    /// <param name="journalAt">The instant of the journal's last entry.</param>
    public void Look(DateTimeOffset now, DateTimeOffset journalAt)
    {
        LookForAJump(now, journalAt);
        Tell(journalAt - now > ProbeLog.ClockTolerance ? Behind(now, journalAt) : _jump?.Why);
    }

    /// <summary>The same words for as long as it is behind: a trouble that changes with every look is news with every look.</summary>
    private string Behind(DateTimeOffset now, DateTimeOffset journalAt) => _why is { } before && before != _jump?.Why
        ? before
        : $"it shows {UtcText.Of(now)}, and the last entry is of {UtcText.Of(journalAt)}";

    /// <summary>A clock that was behind and is set right does not jump ahead of the journal.</summary>
    private void LookForAJump(DateTimeOffset now, DateTimeOffset journalAt)
    {
        long timestamp = clock.GetTimestamp();
        TimeSpan jump = _before is { } before
            ? now - (before.Now > journalAt ? before.Now : journalAt) - clock.GetElapsedTime(before.Timestamp, timestamp)
            : TimeSpan.Zero;
        if (jump > ProbeLog.ClockTolerance)
        {
            _jump = ($"it was set ahead by {jump:d\\.hh\\:mm\\:ss} at {UtcText.Of(now)}, or the computer slept", timestamp);
        }
        else if (_jump is { } last && clock.GetElapsedTime(last.Timestamp, timestamp) > Told)
        {
            _jump = null;
        }

        _before = (now, timestamp);
    }

    private void Tell(string? why)
    {
        if (why == _why)
        {
            return;
        }

        if (why is null)
        {
            troubles.Clear(WarningKind.ClockTrouble);
        }
        else
        {
            troubles.Raise(WarningKind.ClockTrouble, why);
        }

        _why = why;
    }
}
