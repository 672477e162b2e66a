using CureWatch.Planning;

namespace CureWatch.Bays;

/// <summary>The work in a shop's airs that may harm open coats: planned, told, and what follows from lamps and from cars that come.</summary>
internal static class AirWorks
{
    /// <summary>How long the door is open for a car that is rolled in. Source (choice): common practice, no source.</summary>
    private static readonly TimeSpan RollsIn = TimeSpan.FromMinutes(10);

    /// <summary>What goes on or is about to: all but the cars that are only expected.</summary>
    public static IEnumerable<AirWork> Of(Shop shop)
    {
        foreach (PlannedWork work in shop.Planned)
        {
            if (work.To > shop.Now && AirspaceOf(shop, work.Bay) is { } air)
            {
                yield return new AirWork(work.Id, null, work.Bay, air, work.Work, work.From, work.To);
            }
        }

        foreach (ToldWork work in shop.ToldWorks)
        {
            if (work.To > shop.Now && AirspaceOf(shop, work.Bay) is { } air)
            {
                yield return new AirWork(null, work.Job, work.Bay, air, work.Work, work.From, work.To);
            }
        }

        foreach (BayState bay in shop.Bays.Values.Where(b => !b.Lamps.IsEmpty && !b.IsGone).OrderBy(b => b.Plan.Bay, StringComparer.Ordinal))
        {
            foreach (NearbyLamp lamp in bay.Lamps.Where(l => l.From <= shop.Now && l.EndIn(shop) > shop.Now))
            {
                yield return new AirWork(null, lamp.Job, bay.Plan.Bay, bay.Plan.Airspace, HarmfulWork.Lamp, lamp.From, lamp.EndIn(shop));
            }
        }
    }

    /// <summary>The doors that open for cars that are expected.</summary>
    public static IEnumerable<AirWork> OfCarsToCome(Shop shop) =>
        from job in shop.JobsInOrder
        where job.IsExpectedAt(shop.Now)
        let air = AirspaceOf(shop, job.Job.Bay)
        where air is not null
        select new AirWork(null, job.Job.Id, job.Job.Bay, air, HarmfulWork.CarComesIn, job.CameAt, job.CameAt + RollsIn);

    /// <summary>The air of a bay; null where the shop has no such bay any more.</summary>
    public static string? AirspaceOf(Shop shop, string bay) => shop.Bays.Find(bay) is { IsGone: false } state ? state.Plan.Airspace : null;
}
