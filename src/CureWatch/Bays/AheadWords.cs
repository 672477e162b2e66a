using CureWatch.Planning;
using CureWatch.Warnings;
using CureWatch.Words;

namespace CureWatch.Bays;

/// <summary>Says what is foreseen as one does in the bay.</summary>
internal static class AheadWords
{
    private const double Sure = 0.95;

    /// <summary>A warning with what was foreseen when it was given.</summary>
    /// <param name="shop">The shop.</param>
    /// <param name="warning">The warning.</param>
    /// <returns>The warning; one that tells of the present as it was.</returns>
    public static Warning Explained(Shop shop, Warning warning)
    {
        Subject subject = warning.Subject;
        if (!Foreseen.IsAhead(subject.Kind) || subject.Bay is not { } id || shop.Bays[id].Ahead?.Of(subject.Kind) is not { } risk)
        {
            return warning;
        }

        return warning with
        {
            Foretold = new Foretold(risk.Chance, risk.From, !risk.Remedies.IsEmpty),
            Lead = risk.From - shop.Now is var lead && lead > TimeSpan.Zero ? lead : TimeSpan.Zero,
            Detail = $"{Of(risk, shop.Now, shop.Plan.Hours.Zone)} {Helps(risk, shop)}",
            Wakes = IsOpenAt(shop, shop.Now) || (!risk.Remedies.IsEmpty && AlarmRule.Of(subject.Kind).Priority == 1),
        };
    }

    /// <summary>What may happen, how likely, when and for how long.</summary>
    public static Sentence Of(Risk risk, DateTimeOffset now, TimeZoneInfo zone) =>
        risk.Lasts > TimeSpan.Zero
            ? (Sentence)$"{Percent(risk.Chance)} chance that {What(risk.Kind)} from {WallClock.Of(risk.From, now, zone)}, for about {Length(risk.Lasts)}."
            : $"{Percent(risk.Chance)} chance that {What(risk.Kind)} from {WallClock.Of(risk.From, now, zone)}.";

    /// <summary>What still helps, with what it does; where nothing does, who looks at the coat when.</summary>
    public static Sentence Helps(Risk risk, Shop shop) => risk switch
    {
        { Remedies.IsEmpty: false } => Sentence.Join(" ", risk.Remedies.Select(r => Effect(r, risk.Chance))),
        { Kind: WarningKind.PanelHotAhead } => $"Nothing this bay has cools it: keep the sun off it, and put nothing on it then.",
        { Kind: WarningKind.CondensingAhead } when IsOpenAt(shop, risk.From) =>
            $"Nothing this bay has helps any more: look at the coat at {WallClock.Of(risk.From > shop.Now ? risk.From : shop.Now, shop.Now, shop.Plan.Hours.Zone)}, and dry it at once.",
        _ => $"Nothing this bay has helps any more: look at the coat in the morning.",
    };

    /// <summary>Whether people may be in the shop at an instant; where it has no hours, at any.</summary>
    public static bool IsOpenAt(Shop shop, DateTimeOffset at) => shop.Plan.Hours.DayAt(at) is not { } day || day.Opens <= at;

    /// <summary>What one thing does.</summary>
    public static Sentence Effect(RemedyEffect remedy, double chance) =>
        $"{remedy.Text}: the chance falls from {Percent(chance)} to {Percent(remedy.ChanceAfter)}.";

    /// <summary>A chance to five in a hundred, near none or all as such.</summary>
    public static Sentence Percent(double chance) => chance switch
    {
        < 0.025 => $"2 %",
        > Sure => $"over 95 %",
        _ => $"{5 * Math.Round(20 * chance):0} %",
    };

    private static Sentence What(WarningKind kind) => kind switch
    {
        WarningKind.CondensingAhead => $"water condenses on the coldest panel",
        WarningKind.HumidityHighAhead => $"the air is moister than the sheet allows",
        WarningKind.HumidityLowAhead => $"the air is drier than the sheet allows",
        WarningKind.PanelColdAhead => $"a panel is colder than the sheet allows",
        WarningKind.PanelHotAhead => $"a panel is hotter than the sheet allows",
        WarningKind.CureStalledAhead => $"the cure all but stops",
        _ => throw new ArgumentOutOfRangeException(nameof(kind), kind, "Not told ahead."),
    };

    private static Sentence Length(TimeSpan span) => span < TimeSpan.FromMinutes(90)
        ? (Sentence)$"{Math.Max(10, 10 * Math.Round(span.TotalMinutes / 10)):0} min"
        : $"{span.TotalHours:0.#} h";
}
