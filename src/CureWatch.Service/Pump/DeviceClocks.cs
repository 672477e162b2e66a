using CureWatch.Bays;
using CureWatch.Readings;

namespace CureWatch.Service.Pump;

/// <summary>Says in the log which device's clock is so far ahead that nothing it says is believed: once, until it is believed again.</summary>
internal sealed class DeviceClocks(ILogger<DeviceClocks> log) : IFollower
{
    private readonly HashSet<(string Bay, string Probe)> _ahead = [];

    public void Follow(Commit commit)
    {
        foreach (ShopEvent happened in commit.Steps.SelectMany(s => s.Happened))
        {
            switch (happened)
            {
                case ShopEvent.ReadingDoubted { Why: Disbelief.Future, Raw: var raw } when _ahead.Add((raw.Bay, raw.Probe)):
                    Log.DeviceIsAhead(log, raw.Bay, raw.Probe, TimeSpan.FromSeconds(Math.Round((raw.MeasuredAt - raw.ReceivedAt).TotalSeconds)));
                    break;
                case ShopEvent.ReadingBelieved { Raw: var raw } when _ahead.Count > 0:
                    _ahead.Remove((raw.Bay, raw.Probe));
                    break;
            }
        }
    }
}
