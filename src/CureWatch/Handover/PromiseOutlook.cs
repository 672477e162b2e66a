using System.Collections.Immutable;
using CureWatch.TimeWindows;

namespace CureWatch.Handover;

/// <summary>Whether a car is ready when its customer was told, as far as anybody can say.</summary>
/// <param name="PromisedAt">The pick-up time the customer was told last; null where none was.</param>
/// <param name="ReadyBy">When the last keep-dry has to be over for that, so that finishing fits into opening hours; null without a promise.</param>
/// <param name="ReadyAt">When the last keep-dry is over, coats still to go on with it; null where there is nothing on the car and nothing planned.</param>
/// <param name="CollectFrom">From when it can be collected by the slow bound, finished and in opening hours; null where nobody can tell.</param>
/// <param name="ChanceOnceLifted">The chance to make it if people lift in time what only they can lift [1]; null without a promise.</param>
/// <param name="Governing">The coat that decides it; null where there is none.</param>
/// <param name="ForPeople">The holds that only people can lift.</param>
/// <remarks>
/// The chance is of the keep-dry truly being over, by the same bounds as the windows: as with those, what slows one coat slows all, so the slowest
/// coat decides alone. A car is called ready by the slow bound only; where that comes after the promise the chance is below 95 %.
/// </remarks>
public sealed record PromiseOutlook(
    DateTimeOffset? PromisedAt,
    DateTimeOffset? ReadyBy,
    TimeBounds? ReadyAt,
    DateTimeOffset? CollectFrom,
    double? ChanceOnceLifted,
    AwaitedCoat? Governing,
    ImmutableArray<Hold> ForPeople)
{
    /// <summary>The chance to make it as things stand [1]: none as long as something holds the car that only people can lift; null without a promise.</summary>
    public double? Chance => ForPeople.IsEmpty ? ChanceOnceLifted : ChanceOnceLifted is null ? null : 0;

    /// <summary>When the last of some coats is ready.</summary>
    /// <param name="coats">The coats.</param>
    /// <returns>The bounds; null where there is none.</returns>
    public static TimeBounds? ReadyOf(IReadOnlyList<AwaitedCoat> coats)
    {
        ArgumentNullException.ThrowIfNull(coats);
        return coats.Count == 0 ? null : coats.Select(c => c.ReadyAt).Aggregate((a, b) => a.OrLater(b));
    }

    /// <summary>Looks ahead.</summary>
    /// <param name="coats">Every coat that is on, and every one still to go on.</param>
    /// <param name="holds">Everything that holds the car.</param>
    /// <param name="promisedAt">The pick-up time the customer was told last; null where none was.</param>
    /// <param name="hours">When the shop is open.</param>
    /// <param name="finishing">Hands-on time after the last keep-dry.</param>
    /// <returns>The outlook.</returns>
    public static PromiseOutlook Of(
        IReadOnlyList<AwaitedCoat> coats, IEnumerable<Hold> holds, DateTimeOffset? promisedAt, OpeningHours hours, TimeSpan finishing)
    {
        DateTimeOffset? readyBy = promisedAt is { } promised ? hours.LastStart(promised, finishing) : null;
        TimeBounds? readyAt = ReadyOf(coats);
        AwaitedCoat? governing = coats
            .OrderBy(c => readyBy is { } by ? c.ReadyAt.By(by) : 0).ThenByDescending(c => c.ReadyAt.Latest ?? DateTimeOffset.MaxValue).FirstOrDefault();
        return new PromiseOutlook(
            promisedAt,
            readyBy,
            readyAt,
            readyAt?.Latest is { } latest ? hours.AfterWork(latest, finishing) : null,
            promisedAt is null ? null : readyBy is not { } last ? 0 : governing?.ReadyAt.By(last) ?? 1,
            governing,
            [.. holds.Where(h => h.Kind is not (HoldKind.KeepDry or HoldKind.NotApplied or HoldKind.NotLevelled))]);
    }
}
