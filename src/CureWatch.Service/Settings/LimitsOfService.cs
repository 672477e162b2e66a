namespace CureWatch.Service.Settings;

/// <summary>What a sender may take up, as people write it. Every number here is a choice.</summary>
internal static class LimitsOfService
{
    /// <summary>A tap with a long note is 3 kB, a talkative sensor's message less; and a full inbox of the longest still fits in memory.</summary>
    private const int UsualPayloadBytes = 16_384;
    private const int LeastPayloadBytes = 1024;
    private const int MostPayloadBytes = 262_144;

    /// <summary>Ten bays of six probes, each with a connection of its own, and as many buttons and displays twice over.</summary>
    private const int UsualClients = 200;
    private const int MostClients = 10_000;

    /// <summary>Several for each of those clients; at the usual longest payload 16 MB.</summary>
    private const int UsualRetained = 1000;
    private const int MostRetained = 100_000;

    /// <summary>So that a probe's full lane is emptied in 20 s: a sender that is not acknowledged for 30 s is disconnected, and would send all of it again for ever.</summary>
    private const int LeastReadingsPerSecond = 100;
    private const int MostReadingsPerSecond = 1_000_000;

    public static LimitSettings Read(JsonCursor limits)
    {
        _ = limits.Keys([], "payloadBytes", "clients", "retained", "readingsPerSecond");
        return new LimitSettings(
            limits["payloadBytes"].Integer(LeastPayloadBytes, MostPayloadBytes) ?? UsualPayloadBytes,
            limits["clients"].Integer(1, MostClients) ?? UsualClients,
            limits["retained"].Integer(0, MostRetained) ?? UsualRetained,
            limits["readingsPerSecond"].Integer(LeastReadingsPerSecond, MostReadingsPerSecond) ?? LimitSettings.UsualReadingsPerSecond);
    }
}
