using System.Collections.Immutable;
using CureWatch.TimeWindows;

namespace CureWatch.Handover;

/// <summary>Whether a car is ready when its customer was told, as far as anybody can say.</summary>
/// <param name="PromisedAt">The pick-up time the customer was told last; null where none was.</param>
/// <param name="ReadyBy">When the last keep-dry has to be over for that, so that finishing fits into opening hours; null without a promise.</param>
/// <param name="ReadyAt">When the last keep-dry is over, coats still to go on with it; null where there is nothing on the car and nothing planned.</param>
/// <param name="CollectFrom">From when it can be collected by the slow bound, finished and in opening hours; null where nobody can tell.</param>
/// <param name="ChanceOnceLifted">
/// The chance to make it if people lift in time what only they can lift [1]; null without a promise, and where nobody ever measured the air of one of its coats.
/// </param>
/// <param name="Governing">The coat that decides it; null where there is none.</param>
/// <param name="ForPeople">The holds that only people can lift.</param>
/// <remarks>
/// The chance is of the keep-dry truly being over, by the same bounds as the windows: as with those, what slows one coat slows all, so the slowest
/// coat decides alone. A car is called ready by the slow bound only; where that comes after the promise the chance is below 95 %. Once the time that was told has come there
/// is no chance any more: the promise is kept where the car could be called ready and be finished by then, and nothing holds it; else it is missed. What came of it stays so:
/// what happens to a car afterwards breaks no promise, and what is put right afterwards keeps none.
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
    /// <summary>Whether it is still to be made, or its time has come and it was kept or missed; null without a promise.</summary>
    public PromiseStanding? Standing { get; init; }

    /// <summary>The chance to make it as things stand [1]: none as long as something holds the car that only people can lift; null where it is not known, or without a promise.</summary>
    public double? Chance => ForPeople.IsEmpty || Standing == PromiseStanding.Kept ? ChanceOnceLifted : PromisedAt is null ? null : 0;

    /// <summary>Whether a promise is still to be made, and nobody can tell whether it will be: the air of one of its coats was never measured.</summary>
    public bool IsUnknown => Standing == PromiseStanding.Ahead && ChanceOnceLifted is null;

    /// <summary>Whether the car could not be collected now: a person has to lift something, or a coat is not ready.</summary>
    /// <param name="now">The present.</param>
    /// <returns>True where it is held, or waits.</returns>
    public bool IsHeldAt(DateTimeOffset now) => !ForPeople.IsEmpty || !(ReadyAt is null || ReadyAt.Latest <= now);

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
    /// <param name="now">The present.</param>
    /// <param name="cameTo">What came of the promise when its time had come; null where nobody looked then, or it has not come.</param>
    /// <returns>The outlook.</returns>
    public static PromiseOutlook Of(
        IReadOnlyList<AwaitedCoat> coats,
        IEnumerable<Hold> holds,
        DateTimeOffset? promisedAt,
        OpeningHours hours,
        TimeSpan finishing,
        DateTimeOffset now,
        PromiseStanding? cameTo = null)
    {
        ImmutableArray<Hold> all = [.. holds];
        ImmutableArray<Hold> forPeople = [.. all.Where(h => h.IsForPeople)];
        DateTimeOffset? readyBy = promisedAt is { } promised ? hours.LastStart(promised, finishing) : null;
        TimeBounds? readyAt = ReadyOf(coats);
        AwaitedCoat? governing = coats
            .OrderBy(c => readyBy is { } by ? c.ReadyAt.By(by) : 0).ThenByDescending(c => c.ReadyAt.Latest ?? DateTimeOffset.MaxValue).FirstOrDefault();
        PromiseStanding? standing = promisedAt is null ? null
            : promisedAt > now ? PromiseStanding.Ahead
            : cameTo is { } known ? known
            : all.IsEmpty && readyBy is not null && (readyAt is null || readyAt.Latest <= readyBy) ? PromiseStanding.Kept
            : PromiseStanding.Missed;
        DateTimeOffset? collectFrom = readyAt?.Latest is { } latest ? hours.AfterWork(latest, finishing) : null;
        return new PromiseOutlook(
            promisedAt,
            readyBy,
            readyAt,
            collectFrom < now && (standing == PromiseStanding.Missed || (standing == PromiseStanding.Kept && !forPeople.IsEmpty)) ? hours.AfterWork(now, TimeSpan.Zero) : collectFrom,
            standing switch
            {
                null => null,
                PromiseStanding.Kept => 1,
                PromiseStanding.Missed => 0,
                _ when coats.Any(c => c.IsUnmeasured) => null,
                _ => readyBy is not { } last ? 0 : governing?.ReadyAt.By(last) ?? 1,
            },
            governing,
            forPeople)
        {
            Standing = standing,
        };
    }
}

/// <summary>How a promise stands to its time.</summary>
public enum PromiseStanding
{
    /// <summary>Its time is still to come.</summary>
    Ahead,

    /// <summary>Its time has come, and the car was ready.</summary>
    Kept,

    /// <summary>Its time has come, and the car was not ready, or is held.</summary>
    Missed,
}
