using System.Collections.Immutable;
using CureWatch.Planning;
using CureWatch.Warnings;
using CureWatch.Words;

namespace CureWatch.Bays;

/// <summary>Warns where work in a shared air harms an open coat, or is about to.</summary>
/// <remarks>
/// One warning for each work and car. What is looked at follows from what is planned and told alone, so nothing of it costs a reading anything;
/// windows move with the climate, so that what harms is looked at again every few minutes.
/// </remarks>
internal static class Conflicts
{
    /// <summary>How often is looked whether what goes on still harms, or harms by now. Source (choice).</summary>
    private static readonly TimeSpan Again = TimeSpan.FromMinutes(5);

    /// <summary>The planned work with another, in the order it begins, without what was over long ago.</summary>
    public static ImmutableArray<PlannedWork> With(Shop shop, PlannedWork work) =>
    [
        .. shop.Planned.Where(w => w.Id != work.Id && w.To > shop.Now - History.Kept).Append(work)
            .OrderBy(w => w.From).ThenBy(w => w.Id, StringComparer.Ordinal),
    ];

    /// <summary>Decides whom to warn.</summary>
    /// <param name="shop">The shop.</param>
    /// <param name="taken">What the message brought about; null where nothing.</param>
    /// <returns>What happened.</returns>
    public static IEnumerable<ShopEvent> Decide(Shop shop, ShopEvent? taken)
    {
        bool isTouched = taken is ShopEvent.TapTakenDown or ShopEvent.WorkPlanned or ShopEvent.WorkDropped or ShopEvent.CarHandedOver or ShopEvent.PlanReplaced;
        return isTouched || shop.ConflictsDueAt <= shop.Now ? Look(shop) : [];
    }

    private static IEnumerable<ShopEvent> Look(Shop shop)
    {
        AirWork[] works = [.. AirWorks.Of(shop)];
        AirWork[] near = [.. works.Where(w => w.From - WorkConflict.Lead <= shop.Now)];
        ImmutableArray<WorkConflict> conflicts = near.Length == 0 ? [] : Standing(shop, near);
        var subjects = new HashSet<Subject>();
        foreach (WorkConflict conflict in conflicts)
        {
            Subject subject = SubjectOf(conflict);
            if (subjects.Add(subject) && !shop.Standing.ContainsKey(subject))
            {
                TimeSpan lead = conflict.From > shop.Now ? conflict.From - shop.Now : TimeSpan.Zero;
                Sentence detail = ConflictWords.Of(conflict, new ShopHours(shop.Now, shop.Now, shop.Plan.Hours.Zone, []));
                yield return new ShopEvent.WarningRaised(new Warning(subject, subject.Surface, shop.Now, null, lead) { Detail = detail });
            }
        }

        foreach (Subject over in shop.Standing.Keys.Where(s => s.Kind == WarningKind.AirspaceConflict && !subjects.Contains(s)).Order(SubjectOrder.Instance))
        {
            yield return new ShopEvent.WarningCleared(over, shop.Now);
        }

        DateTimeOffset? next = works.Select(w => w.From - WorkConflict.Lead > shop.Now ? w.From - WorkConflict.Lead : Sooner(w.To, shop.Now + Again)).Select(at => (DateTimeOffset?)at).Min();
        if (next != shop.ConflictsDueAt)
        {
            yield return new ShopEvent.ConflictsForeseen(next);
        }
    }

    /// <summary>Against the coats that are on: what is only planned can be planned otherwise.</summary>
    private static ImmutableArray<WorkConflict> Standing(Shop shop, AirWork[] near)
    {
        var present = new Present(shop, shop.Now);
        HashSet<string> airs = [.. near.Select(w => w.Airspace)];
        CoatAtRisk[] coats =
        [
            .. shop.Jobs.Values.Where(j => j.LeftAt is null).OrderBy(j => j.Job.Id, StringComparer.Ordinal) // whoever measures its air, or nobody
                .SelectMany(j => CoatsAtRisk.Of(shop, present, j, (_, _) => null)).Where(c => airs.Contains(c.Airspace)),
        ];
        return WorkConflict.Between(near, coats, new ShopHours(shop.Now, shop.Now, shop.Plan.Hours.Zone, []));
    }

    private static Subject SubjectOf(WorkConflict conflict) =>
        new(WarningKind.AirspaceConflict)
        {
            Bay = conflict.Bay,
            Job = conflict.Job,
            Harm = conflict.Work.Id ?? $"{conflict.Work.Work} {conflict.Work.Job}",
        };

    private static DateTimeOffset Sooner(DateTimeOffset a, DateTimeOffset b) => a < b ? a : b;
}
