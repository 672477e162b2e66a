using CureWatch.Bays;
using CureWatch.Curing;
using CureWatch.Panels;
using CureWatch.Planning;
using CureWatch.Words;

namespace CureWatch.Reports;

/// <summary>Says what of a hypothesis is not allowed, or cannot be done: it is worked out all the same, but nobody should do it.</summary>
internal static class HypothesisLimits
{
    public static IEnumerable<Sentence> Beyond(Shop shop, JobState job, Hypothesis hypothesis)
    {
        if (hypothesis is { AirC: null, HumidityPct: null, Lamp: null } || PromiseReport.BaysOf(shop, job).FirstOrDefault() is not { } bay)
        {
            yield break;
        }

        ClimateReach reach = BayReaches.Of(shop, job, bay);
        bool isHeard = BayAir.Measured(bay, Place.Outside, shop.Now) is not null;
        if (hypothesis.AirC > reach.WarmestC && isHeard)
        {
            yield return $"{new Figure.Temperature(hypothesis.AirC!.Value, "0.#")} is warmer than every coat in {bay.Plan.Bay} and every surface of the car can take: {new Figure.Temperature(reach.WarmestC, "0.#")}.";
        }

        if (hypothesis.AirC > reach.AirC && reach.Heat is null && isHeard)
        {
            yield return $"{bay.Plan.Bay} has no heating that may be used now.";
        }

        if (hypothesis.AirC > reach.AirC && reach.HeatUntil is { } until && isHeard)
        {
            yield return $"{bay.Plan.Bay} is heated with {reach.Heat}: until {WallClock.Of(until, shop.Now, shop.Plan.Hours.Zone)}, and it is reckoned so.";
        }

        if (isHeard && MeansMissing(reach, hypothesis) is { } missing)
        {
            yield return $"{bay.Plan.Bay} has nothing to {missing} its air with.";
        }

        if (isHeard && ClimateSearch.PercentAfter(reach, hypothesis.AirC, hypothesis.HumidityPct) is var percent && (percent < reach.DriestPct || percent > reach.MoistestPct))
        {
            yield return $"The air would be at {percent:0} %; the coats in {bay.Plan.Bay} take {reach.DriestPct:0} to {reach.MoistestPct:0} %.";
        }

        if (hypothesis.Lamp is { } lamp && LampWays.Forbids(shop, job, lamp.Surface, lamp.Minutes))
        {
            yield return $"{lamp.Minutes} minutes under a lamp on {Surface.NameOf(lamp.Surface)} is not what its sheets, its heat limit, the bay's equipment, the hours and the solvent in its air allow: the lamp is left out.";
        }
    }

    /// <summary>What would have to be done about the moisture that the bay cannot do; a percent more or less nobody has to.</summary>
    private static Sentence? MeansMissing(ClimateReach reach, Hypothesis hypothesis) =>
        (hypothesis.HumidityPct - ClimateSearch.PercentAfter(reach, hypothesis.AirC, null)) switch
        {
            > 1 when reach.Moisten is null => $"moisten",
            < -1 when reach is { Dry: null, AiredWith: null } => $"dry",
            _ => null,
        };

    /// <summary>A start before the car is here and dry, or the bay is free: what is worked out begins once that is.</summary>
    public static IEnumerable<Sentence> BeyondBay(Shop shop, Hypothesis hypothesis, QueuedCar? turn)
    {
        if (hypothesis.StartAt is { } wished && turn?.ReadyFrom(shop.Now) is { } ready && ready > wished)
        {
            yield return $"It is not here, or not dry, before {WallClock.Of(ready, shop.Now, shop.Plan.Hours.Zone)}: it is begun then at the earliest.";
        }

        if (hypothesis.StartAt is { } start && turn?.Free[^1] is { Job: { } before } last && !(last.At <= start))
        {
            Sentence until = last.At is { } at ? (Sentence)$"until {WallClock.Of(at, shop.Now, shop.Plan.Hours.Zone)} at the latest: it is begun once that one leaves" : $"and nobody can tell until when";
            yield return $"{turn.Car.Bay} is taken by {before} {until}.";
        }
    }
}
