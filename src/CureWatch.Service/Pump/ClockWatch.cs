using CureWatch.Readings;
using CureWatch.Service.Settings;
using CureWatch.Warnings;

namespace CureWatch.Service.Pump;

/// <summary>
/// Tells when this machine's clock is behind the journal. Time never goes back there, so the shop stands still until the clock has caught up,
/// and nothing else would show it.
/// </summary>
internal sealed class ClockWatch(Troubles troubles)
{
    private bool _isBehind;

    /// <param name="now">What time the clock says it is.</param>
    /// <param name="journalAt">The instant of the journal's last entry.</param>
    public void Look(DateTimeOffset now, DateTimeOffset journalAt)
    {
        bool isBehind = journalAt - now > ProbeLog.ClockTolerance;
        if (isBehind && !_isBehind)
        {
            troubles.Raise(WarningKind.ClockTrouble, $"it shows {UtcText.Of(now)}, and the last entry is of {UtcText.Of(journalAt)}");
        }
        else if (_isBehind && !isBehind)
        {
            troubles.Clear(WarningKind.ClockTrouble);
        }

        _isBehind = isBehind;
    }
}
