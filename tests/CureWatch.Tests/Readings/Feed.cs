using CureWatch.Readings;

namespace CureWatch.Tests.Readings;

/// <summary>A probe's log, fed the way a bay feeds it: believed, suspected or dropped.</summary>
internal sealed class Feed(Probe probe)
{
    public static readonly DateTimeOffset Start = new(2026, 5, 4, 8, 0, 0, TimeSpan.Zero);

    public static readonly Probe Air = new("air-1", Measures.Air, 0, 0, 0.3, 2, TimeSpan.FromMinutes(1));

    public static readonly Probe Panel = new("panel-1", Measures.Panel, 0, 0, 0.5, 2, TimeSpan.FromMinutes(1));

    public ProbeLog Log { get; private set; } = new(probe, Start);

    public static DateTimeOffset At(double minute) => Start + TimeSpan.FromMinutes(minute);

    /// <summary>Tells a reading that arrives at once or in another minute; says why it is not believed, null where it is.</summary>
    public Disbelief? Tell(double minute, double? airC, double? humidityPct, double? panelC = null, double? arrives = null, long? sequence = null, bool hasClock = true)
    {
        var raw = new RawReading("bay-1", Log.Probe.Id, At(minute), At(arrives ?? minute), airC, humidityPct, panelC, sequence, hasClock);
        Disbelief? doubt = Log.Doubt(raw);
        Log = doubt switch
        {
            null => Log.Believe(raw),
            { } why when Refusal.TellsOfTheProbe(why) => Log.Refuse(raw, why),
            _ => Log,
        };
        return doubt;
    }
}
