using CureWatch.Readings;

namespace CureWatch.Service.Telemetry;

/// <summary>What measurements are told apart by. Each has only as many values as the shop is set up with, or as the program has names.</summary>
internal static class Tags
{
    /// <summary>A probe or a push-button, as <c>bay/probe</c>.</summary>
    public const string Place = "curewatch.place";

    /// <summary>Why a reading was refused.</summary>
    public const string Reason = "curewatch.reason";

    /// <summary>The kind of a warning.</summary>
    public const string Kind = "curewatch.warning.kind";

    public static string PlaceOf(RawReading raw) => $"{raw.Bay}/{raw.Probe}";
}
