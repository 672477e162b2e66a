using System.Collections.Immutable;
using CureWatch.Curing;
using CureWatch.Planning;
using CureWatch.Words;

namespace CureWatch.Bays;

/// <summary>Says what gets a promise back.</summary>
internal sealed class WayWords(Shop shop, DateTimeOffset promised, double target)
{
    /// <summary>Says it in a sentence or two: what is enough, each with its chance; where nothing is, so, and what is soonest.</summary>
    public Sentence Of(ImmutableArray<WayBack> ways, WayBack? soonest, Prospect asItIs)
    {
        WayBack[] enough = [.. ways.Where(w => w.IsEnough)];
        if (enough.Length > 0)
        {
            Sentence all = Sentence.Join("; or ", enough.Select(w => (Sentence)$"{Of(w)}: {Percent(w.Then.Chance)} for {Clock(promised)}"));
            return $"{all.Capital()}.";
        }

        if (soonest?.Then.CollectFrom <= promised)
        {
            return $"Nothing that this bay has, and the sheets allow, makes {Clock(promised)} as safe as {Percent(target)}. Safest is to {Of(soonest)}: {Percent(soonest.Then.Chance)}.";
        }

        Sentence nothing = $"Nothing that this bay has, and the sheets allow, makes {Clock(promised)}.";
        return soonest is null || soonest.Then.CollectFrom is null
            ? (Sentence)$"{nothing} The soonest is {(asItIs.CollectFrom is { } at ? Clock(at) : $"not foreseeable")}, as it is."
            : $"{nothing} The soonest is {Clock(soonest.Then.CollectFrom.Value)}: {Of(soonest)}.";
    }

    /// <summary>Says what is done.</summary>
    public Sentence Of(WayBack way) => way.Kind switch
    {
        WayKind.Heat => $"hold {new Figure.Temperature(way.AirC!.Value, "0.#")} with {way.With}{Until(way)}, doors shut (the air is then at {way.HumidityPct!.Value:0} %: heat adds no water)",
        WayKind.HeatAndMoisten => $"hold {new Figure.Temperature(way.AirC!.Value, "0.#")} and {way.HumidityPct!.Value:0} % with {way.With}{Until(way)}, doors shut",
        WayKind.Moisten => $"hold {way.HumidityPct!.Value:0} % with {way.With}, doors shut",
        WayKind.Air => $"air the bay with {way.With}, an inlet open: outdoors it is drier (the air is then at about {new Figure.Temperature(way.AirC!.Value, "0")} and {way.HumidityPct!.Value:0} %)",
        WayKind.Dry => $"dry the air to {way.HumidityPct!.Value:0} % with {way.With}, doors shut",
        _ => LitFrom(way) is { } from
            ? (Sentence)$"{Minutes(way)}, lit no earlier than {Clock(from)}, by its own measured temperature, off by {Clock(way.Until!.Value)}"
            : $"{Minutes(way)}, by its own measured temperature, off by {Clock(way.Until!.Value)}",
    };

    /// <summary>From when on it may be lit, counted back from its end; null where that is now.</summary>
    private DateTimeOffset? LitFrom(WayBack way) =>
        way.Until!.Value - way.LampMinutes.Aggregate(TimeSpan.Zero, (all, l) => all + LampWays.HeatsUp + TimeSpan.FromMinutes(l.Minutes)) is var from
        && from > shop.Now + TimeSpan.FromMinutes(1)
            ? from
            : null;

    private static Sentence Minutes(WayBack way) =>
        Sentence.Join(", then ", way.LampMinutes.Select(l => (Sentence)$"{l.Minutes} min at lamp heat on {Surface.NameOf(l.Surface)}"));

    private Sentence Until(WayBack way) => way.Until is { } until ? (Sentence)$" until {Clock(until)}, while somebody is there" : $"";

    private Sentence Clock(DateTimeOffset at) => WallClock.Of(at, shop.Now, shop.Plan.Hours.Zone);

    private static Sentence Percent(double chance) => $"{Math.Floor(100 * chance):0} %";
}
