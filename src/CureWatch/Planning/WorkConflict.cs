using System.Collections.Immutable;

namespace CureWatch.Planning;

/// <summary>Work that harms a car's open coats in the air they share.</summary>
/// <param name="Work">The work.</param>
/// <param name="Job">The car that is harmed.</param>
/// <param name="Bay">The bay it is in.</param>
/// <param name="Surfaces">Its surfaces that are harmed.</param>
/// <param name="From">From when on.</param>
/// <param name="To">Until when.</param>
/// <param name="OpenUntil">Until when the harm would matter to those surfaces; null where nobody can tell.</param>
/// <param name="FreeFrom">The nearest time at which the same work harms nobody; null where there is none in sight, or it goes on already.</param>
public sealed record WorkConflict(
    AirWork Work,
    string Job,
    string Bay,
    ImmutableArray<string> Surfaces,
    DateTimeOffset From,
    DateTimeOffset To,
    DateTimeOffset? OpenUntil,
    DateTimeOffset? FreeFrom)
{
    /// <summary>How long before it begins people are warned. Source (choice): time to say no, and still fresh when it counts.</summary>
    public static readonly TimeSpan Lead = TimeSpan.FromMinutes(15);

    /// <summary>What the work does.</summary>
    public Harm Harm => Harms.Of(Work.Work);

    /// <summary>Finds every conflict that is not over.</summary>
    /// <param name="works">The works.</param>
    /// <param name="coats">The coats at risk.</param>
    /// <param name="hours">The shop's hours and its present.</param>
    /// <returns>One for each work and car, in the order they begin.</returns>
    public static ImmutableArray<WorkConflict> Between(IReadOnlyList<AirWork> works, IReadOnlyList<CoatAtRisk> coats, ShopHours hours) =>
    [
        .. from work in works
           from car in coats.Where(c => c.IsHarmedBy(work, Later(work.From, hours.Now), work.To)).GroupBy(c => (c.Job, c.Bay))
           let conflict = Of(work, car.Key.Job, car.Key.Bay, [.. car], coats, hours)
           orderby conflict.From, conflict.Work.Id, conflict.Job
           select conflict,
    ];

    private static WorkConflict Of(
        AirWork work, string job, string bay, ImmutableArray<CoatAtRisk> harmed, IReadOnlyList<CoatAtRisk> coats, ShopHours hours)
    {
        DateTimeOffset? until = EndOf(harmed, coats, work);
        return new WorkConflict(
            work,
            job,
            bay,
            [.. harmed.Select(c => c.Surface).Distinct()],
            Later(Later(work.From, harmed.Min(c => c.From)), hours.Now),
            until < work.To ? until.Value : work.To,
            until,
            work.From <= hours.Now ? null : NearestFree(work, coats, hours));
    }

    /// <summary>Until when the harm matters to surfaces, with the layers that go on them before it stops to.</summary>
    private static DateTimeOffset? EndOf(ImmutableArray<CoatAtRisk> harmed, IReadOnlyList<CoatAtRisk> coats, AirWork work)
    {
        Harm harm = Harms.Of(work.Work);
        CoatAtRisk[] onThem = [.. coats.Where(c => c.IsExposedTo(work) && harmed.Any(h => (h.Job, h.Bay, h.Surface) == (c.Job, c.Bay, c.Surface)))];
        DateTimeOffset? until = Last(harmed, harm);
        while (until is { } at && Last(onThem.Where(c => c.From <= at), harm) is var later && later != at)
        {
            until = later;
        }

        return until;
    }

    private static DateTimeOffset? Last(IEnumerable<CoatAtRisk> coats, Harm harm) => coats.Any(c => c.Until(harm) is null) ? null : coats.Max(c => c.Until(harm));

    /// <summary>The nearest time at which a work of the same length harms none of the coats, not before the present.</summary>
    /// <param name="work">The work.</param>
    /// <param name="coats">The coats at risk.</param>
    /// <param name="hours">The shop's hours and its present.</param>
    /// <returns>When it would begin; null where no time within sight is free. Inside opening hours where the work was.</returns>
    /// <remarks>
    /// Exact, without a grid: the nearest free time is where it was, or touches the end or the beginning of something that bounds it.
    /// </remarks>
    public static DateTimeOffset? NearestFree(AirWork work, IReadOnlyList<CoatAtRisk> coats, ShopHours hours)
    {
        TimeSpan length = work.To - work.From;
        Harm harm = Harms.Of(work.Work);
        CoatAtRisk[] exposed = [.. coats.Where(c => c.IsExposedTo(work))];
        bool keepsHours = hours.IsOpen(work.From, work.To);
        IEnumerable<DateTimeOffset> bounds = exposed.SelectMany(c => new[] { c.From - length, c.Until(harm) ?? DateTimeOffset.MinValue });
        return new[] { work.From, hours.Now }.Concat(bounds).Concat(keepsHours ? hours.Days.SelectMany(d => new[] { d.Opens, (d.LocksUp ?? hours.Until) - length }) : [])
            .Where(at => at >= hours.Now && at <= hours.Until && (!keepsHours || hours.IsOpen(at, at + length)) && !exposed.Any(c => c.IsHarmedBy(work, at, at + length)))
            .OrderBy(at => (at - work.From).Duration()).ThenBy(at => at)
            .Select(at => (DateTimeOffset?)at).FirstOrDefault();
    }

    private static DateTimeOffset Later(DateTimeOffset a, DateTimeOffset b) => a > b ? a : b;
}
