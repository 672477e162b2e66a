using System.Collections.Immutable;
using System.Globalization;
using CureWatch.Planning;

namespace CureWatch.Bays;

/// <summary>Says what gets a promise back.</summary>
internal sealed class WayWords(Shop shop, DateTimeOffset promised, double target)
{
    /// <summary>Says it in a sentence or two: what is enough, each with its chance; where nothing is, so, and what is soonest.</summary>
    public string Of(ImmutableArray<WayBack> ways, WayBack? soonest, Prospect asItIs)
    {
        WayBack[] enough = [.. ways.Where(w => w.IsEnough)];
        if (enough.Length > 0)
        {
            return Figures.Capital(string.Join("; or ", enough.Select(w => $"{Of(w)}: {Percent(w.Then.Chance)} for {Clock(promised)}"))) + ".";
        }

        if (soonest?.Then.CollectFrom <= promised)
        {
            return $"Nothing that this bay has, and the sheets allow, makes {Clock(promised)} as safe as {Percent(target)}. Safest is to {Of(soonest)}: {Percent(soonest.Then.Chance)}.";
        }

        string nothing = $"Nothing that this bay has, and the sheets allow, makes {Clock(promised)}.";
        return soonest is null || soonest.Then.CollectFrom is null
            ? $"{nothing} The soonest is {(asItIs.CollectFrom is { } at ? Clock(at) : "not foreseeable")}, as it is."
            : $"{nothing} The soonest is {Clock(soonest.Then.CollectFrom.Value)}: {Of(soonest)}.";
    }

    /// <summary>Says what is done.</summary>
    public string Of(WayBack way) => way.Kind switch
    {
        WayKind.Heat => Text($"hold {way.AirC:0.#} °C with {way.With}{Until(way)}, doors shut (the air is then at {way.HumidityPct:0} %: heat adds no water)"),
        WayKind.HeatAndMoisten => Text($"hold {way.AirC:0.#} °C and {way.HumidityPct:0} % with {way.With}{Until(way)}, doors shut"),
        WayKind.Moisten => Text($"hold {way.HumidityPct:0} % with {way.With}, doors shut"),
        WayKind.Air => Text($"air the bay with {way.With}, an inlet open: outdoors it is drier (the air is then at about {way.AirC:0} °C and {way.HumidityPct:0} %)"),
        WayKind.Dry => Text($"dry the air to {way.HumidityPct:0} % with {way.With}, doors shut"),
        _ => $"{Minutes(way)}, by its own measured temperature, off by {Clock(way.Until!.Value)}",
    };

    private static string Minutes(WayBack way) =>
        string.Join(", then ", way.LampMinutes.Select(l => $"{l.Minutes} min at lamp heat on {l.Surface.Replace('-', ' ')}"));

    private string Until(WayBack way) => way.Until is { } until ? $" until {Clock(until)}, while somebody is there" : "";

    private string Clock(DateTimeOffset at) => WallClock.Of(at, shop.Now, shop.Plan.Hours.Zone);

    private static string Percent(double chance) => Text($"{Math.Floor(100 * chance):0} %");

    private static string Text(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);
}
