using CureWatch.Bays;

namespace CureWatch.Service.Settings;

/// <summary>When a car comes and is to be begun, as people write it into its job.</summary>
internal static class VisitOfJob
{
    public static readonly string[] Keys = ["arrivesAt", "arrivesAtC", "arrivesAtF", "plannedAt"];

    private static readonly NumberRange CarC = NumberRange.From(Visit.ColdestC, Visit.HottestC, "°C");

    /// <returns>The visit; null where nothing of it is said.</returns>
    public static Visit? Read(JsonCursor top)
    {
        DateTimeOffset? arrivesAt = top["arrivesAt"].Instant(), plannedAt = top["plannedAt"].Instant();
        double? arrivesAtC = top.Celsius("arrivesAt", CarC);
        if (plannedAt < arrivesAt)
        {
            top["plannedAt"].Refuse($"no earlier than arrivesAt, {UtcText.Of(arrivesAt.Value)}");
        }

        return arrivesAt is null && arrivesAtC is null && plannedAt is null ? null : new Visit(arrivesAt, arrivesAtC, plannedAt);
    }
}
