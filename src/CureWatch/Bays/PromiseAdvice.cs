using System.Collections.Immutable;
using CureWatch.Handover;
using CureWatch.Planning;
using CureWatch.Words;

namespace CureWatch.Bays;

/// <summary>The least that would make a car's promise with a stated chance, by what its bay has.</summary>
/// <param name="Target">The chance asked for [1].</param>
/// <param name="IsNeeded">Whether anything has to be done for that.</param>
/// <param name="Ways">What could be done, one of each kind, what is enough first; empty where nothing is needed, or nothing can be done.</param>
/// <param name="Soonest">The way with the soonest collection where none is enough; null where one is, or there is none.</param>
/// <param name="Text">The same in words.</param>
public sealed record PromiseAdvice(double Target, bool IsNeeded, ImmutableArray<WayBack> Ways, WayBack? Soonest, Sentence Text)
{
    /// <summary>The chance that is asked for where nobody says another [1].</summary>
    public const double UsualTarget = 0.9;

    /// <summary>A gain in chance, and one in time, that is worth heating a bay for where nothing is enough. Source (choice): what is told, and by what grid, shows no less.</summary>
    private const double LeastGain = 0.01;

    private static readonly TimeSpan LeastSooner = TimeSpan.FromMinutes(15);

    /// <summary>Advises on a car.</summary>
    /// <param name="shop">The shop.</param>
    /// <param name="id">The job's id; the job must be there.</param>
    /// <param name="target">The chance asked for [1], above 0 and below 1.</param>
    /// <returns>The advice; null where the customer was told no time.</returns>
    /// <exception cref="ArgumentOutOfRangeException">The chance is outside its range, NaN included.</exception>
    public static PromiseAdvice? Of(Shop shop, string id, double target = UsualTarget)
    {
        if (target is not (> 0 and < 1))
        {
            throw new ArgumentOutOfRangeException(nameof(target), target, "Expected above 0 and below 1.");
        }

        JobState job = shop.Find(id) ?? throw new ArgumentException($"No job '{id}'.", nameof(id));
        return PromiseReport.PromisedAt(job) is { } promised ? Of(shop, job, promised, target) : null;
    }

    internal static PromiseAdvice Of(Shop shop, JobState job, DateTimeOffset promised, double target)
    {
        ImmutableArray<Hold> holds = JobReport.RulingOn(shop, job).Holds;
        if (Look(Supposed.Nothing).IsUnknown)
        {
            return new PromiseAdvice(target, IsNeeded: true, [], null, $"What would make it is not known before its air is measured: see to the air probe, its power, its place and the network.");
        }

        Prospect asItIs = Prospect(Supposed.Nothing);
        if (asItIs.Chance >= target)
        {
            return new PromiseAdvice(target, IsNeeded: false, [], null, $"Nothing has to be done.");
        }

        ImmutableArray<WayBack> ways =
        [
            .. from bay in PromiseReport.BaysOf(shop, job)
               from way in new ClimateSearch(BayReaches.Of(shop, job, bay), target, shop.Now, held => Prospect(Supposed.Nothing with { Bay = bay.Plan.Bay, Held = held })).Ways()
               select way,
            .. LampWays.Of(shop, job, target, Prospect),
        ];
        ways = [.. ways.Where(w => w.IsEnough || w.Then.Chance >= asItIs.Chance + LeastGain || IsSooner(w)).OrderByDescending(w => w.IsEnough)];
        WayBack? soonest = ways.Any(w => w.IsEnough) ? null : ways.Where(IsSooner).OrderBy(w => w.Then.CollectFrom).ThenByDescending(w => w.Then.Chance).FirstOrDefault();
        return new PromiseAdvice(target, IsNeeded: true, ways, soonest, new WayWords(shop, promised, target).Of(ways, soonest, asItIs));

        bool IsSooner(WayBack way) => way.Then.CollectFrom is { } then && (asItIs.CollectFrom is not { } now || now - then >= LeastSooner);

        Prospect Prospect(Supposed supposed)
        {
            PromiseOutlook outlook = Look(supposed);
            return new Prospect(outlook.ChanceOnceLifted ?? 0, outlook.CollectFrom);
        }

        PromiseOutlook Look(Supposed supposed) => PromiseScene.Of(shop, new Present(shop, shop.Now) { Supposed = supposed }, job).Outlook(holds, promised);
    }
}
