using CureWatch.Panels;
using CureWatch.Products;
using CureWatch.TimeWindows;
using CureWatch.Words;
using static CureWatch.Planning.Figures;

namespace CureWatch.Planning;

/// <summary>Every reason that the climate gives not to coat a surface now.</summary>
internal sealed class ClimateReasons(StartEvidence evidence, StartDay day)
{
    private readonly SheetLimits _limits = evidence.Laws.Sheet.Limits;
    private readonly Sentence _name = evidence.Name;

    public IEnumerable<StartReason> All() =>
        new[] { Unheard(), Condensing(), Spread(), Cold(), Hot(), Arriving(), Moist(), Dry() }.OfType<StartReason>();

    private StartReason? Unheard() => evidence.Silence switch
    {
        null => null,
        { Probe: null } s => Of(
            StartReasonKind.Unwatched,
            $"Nobody measures {s.Where}: nothing there counts as fine.",
            $"Put an air probe there, or bring it where one is."),
        { } s when evidence.Air is null => Of(
            StartReasonKind.AirSilent, $"{Heard(s)}: the air around {_name} is not known.", $"Look at its battery, its place and the network."),
        { } s => Of(
            StartReasonKind.PanelSilent,
            $"{Heard(s)}: how warm {_name} is, is not known.",
            $"Look at its battery, its place and the network; or measure the panel by hand and tell it."),
    };

    private Sentence Heard(Silence silence) => silence.Since is { } since
        ? (Sentence)$"Probe {silence.Probe} in {silence.Where} was last heard {day.Clock(since)}"
        : $"Probe {silence.Probe} in {silence.Where} was never heard";

    private bool IsItselfWet => evidence is { Air: { } air, Panel: { } panel } && panel.SpreadK(air) <= 0;

    /// <summary>The coldest panel around governs: where water condenses on it, nothing is coated.</summary>
    private bool IsCondensing => IsItselfWet || evidence.Wet.Since is not null;

    private StartReason? Condensing() => !IsCondensing ? null : Of(
        StartReasonKind.Condensing,
        IsItselfWet
            ? (Sentence)$"Water condenses: {_name} is {Degrees(evidence.Panel!.ColdestC)}{HowKnown(evidence.Panel)}, the dew point {Degrees(evidence.Air!.CondensationC)}."
            : $"Water condenses around {_name}: the coldest panel is at or below the dew point since {day.Clock(evidence.Wet.Since)}.",
        Join(Warmer, Drier, $"wait until it stays dry, then wipe it down")) with
    {
        IsHelpHeat = true,
    };

    private StartReason? Spread()
    {
        if (IsCondensing || evidence is not { Air: { } air, Panel: { } panel } || panel.LeastSpreadK(air) >= _limits.SpreadMinK)
        {
            return null;
        }

        Sentence least = $"may be as little as {Kelvins(panel.LeastSpreadK(air))}";
        return Of(
            StartReasonKind.SpreadThin,
            $"{Capital(_name)} is {Kelvins(panel.SpreadK(air))} above the dew point of {Degrees(air.CondensationC)}, {least}{HowKnown(panel)}; "
            + $"needs {Kelvins(_limits.SpreadMinK)}.",
            Join(Warmer, Drier, panel.IsMeasured ? null : Measure),
            TimeTo(panel, air, air.CondensationC + _limits.SpreadMinK + panel.SpreadK(air) - panel.LeastSpreadK(air))) with
        {
            IsHelpHeat = true,
        };
    }

    private StartReason? Cold()
    {
        if (evidence.Panel is not { } panel || _limits.PanelMinC is not { } minC || panel.ReckonedColdestC >= minC)
        {
            return null;
        }

        return Of(
            StartReasonKind.PanelCold,
            $"{Capital(_name)} is {Degrees(panel.ColdestC)}{HowKnown(panel)}, needs {Degrees(minC)}.",
            Join(Warmer, panel.IsMeasured ? null : Measure),
            evidence.Air is { } air ? TimeTo(panel, air, minC + panel.ColdestC - panel.ReckonedColdestC) : null) with
        {
            IsHelpHeat = true,
        };
    }

    /// <summary>Time alone warms a panel only in air that is warmer; a lamp and polishing are told otherwise.</summary>
    private TimeBounds? TimeTo(PanelLook panel, AirLook air, double targetC) => panel.Basis == PanelBasis.Air
        ? null
        : new Warming(PanelHeat.Of(evidence.Surface.Material, evidence.Surface.Over), evidence.Surface.Place != Place.OffCar)
            .ReachedAt(day.Now, panel.ColdestC, air.AirC, targetC);

    /// <summary>A car that came in cold is wet before anyone sees it; where its panel is measured, that says more.</summary>
    private StartReason? Arriving()
    {
        if (evidence.Coming is not { } arrival || arrival.IsDryBy(day.Now))
        {
            return null;
        }

        Sentence now = arrival.NowC is { } nowC
            ? (Sentence)$"{Capital(_name)} came in cold, is likely {Degrees(nowC)} now"
            : $"How cold {_name} came in is not known; at the coldest, {Degrees(arrival.ColdestC ?? day.Habits.ColdestArrivalC)}, it is slow to warm";
        return Of(
            StartReasonKind.Arrival,
            arrival.DryAt.Latest is null
                ? (Sentence)$"{now} and does not get {Kelvins(_limits.SpreadMinK)} above the dew point in this air."
                : $"{now} and is {Kelvins(_limits.SpreadMinK)} above the dew point from {day.Clock(arrival.DryAt.Latest)} at the latest.",
            arrival.NowC is null ? (Sentence)$"Read it with an infrared thermometer and tell it: one spot is enough." : $"Read it by hand and tell it: then it is known better.",
            arrival.DryAt.Latest is null ? null : arrival.DryAt);
    }

    private StartReason? Hot()
    {
        if (evidence.Panel is not { } panel || _limits.PanelMaxC is not { } maxC || panel.ReckonedHottestC <= maxC
            || (panel.Basis == PanelBasis.Spot && evidence.HasCooled)) // it was read before it had cooled
        {
            return null;
        }

        return Of(
            StartReasonKind.PanelHot,
            $"{Capital(_name)} is {Degrees(panel.HottestC)}{HowKnown(panel)}, at most {Degrees(maxC)}.",
            Join($"Shade it and let it cool, then measure it", panel.IsMeasured ? null : Measure),
            panel.Basis <= PanelBasis.ItsProbe && evidence.CoolsUntil is { } cool ? TimeBounds.Known(cool) : null);
    }

    private StartReason? Moist()
    {
        if (evidence.Air is not { } air || _limits.HumidityMaxPct is not { } maxPct || air.HumidityMaxPct <= maxPct)
        {
            return null;
        }

        Sentence? warmed = evidence.Means.Heat is { } heat && air.WarmedToC(maxPct) is { } warmC && !(warmC > _limits.PanelMaxC)
            ? (Sentence)$"warm the bay to {Degrees(warmC)} with {heat}: the same moisture is {Percent(maxPct)} there"
            : null;
        return Of(
            StartReasonKind.HumidityHigh,
            $"The air around {_name} is at {Percent(air.HumidityMaxPct)}, at most {Percent(maxPct)}.",
            Join(Drier, warmed, $"stop washing next door")) with
        {
            IsHelpHeat = true,
        };
    }

    private StartReason? Dry() =>
        evidence.Air is { } air && air.HumidityMinPct < _limits.HumidityMinPct
            ? Of(
                StartReasonKind.HumidityLow,
                $"The air around {_name} is at {Percent(air.HumidityMinPct)}, at least {Percent(_limits.HumidityMinPct.Value)}.",
                evidence.Means switch
                {
                    { Moisten: { } moisten, Heat: null } => (Sentence)$"Add moisture with {moisten}.",
                    { Moisten: { } moisten } => $"Add moisture with {moisten}, or heat less.",
                    { Heat: null } => $"This bay has nothing to add moisture with.",
                    _ => $"Heat less; this bay has nothing to add moisture with.",
                })
            : null;

    private static Sentence Measure => $"measure the panel";

    private Sentence? Warmer => evidence.Means.Heat is { } heat ? (Sentence)$"warm it with {heat}" : null;

    private Sentence? Drier => evidence.Means.Dry is { } dry ? (Sentence)$"dry the air with {dry}" : null;

    private Sentence HowKnown(PanelLook panel) => panel.Basis switch
    {
        PanelBasis.Spot when PanelSpot.IsSuspectOn(evidence.Surface.Material) => $" by hand (± {Kelvins(panel.DoubtK)}: what is bright mirrors the room)",
        PanelBasis.Spot => $" by hand",
        PanelBasis.ItsProbe or PanelBasis.OwnProbe => $"",
        PanelBasis.OtherProbes => $" (not measured itself; taken from the panels that are, ± {Kelvins(panel.DoubtK)})",
        _ => $" (panel not measured; reckoned from the air, which it lags, ± {Kelvins(panel.DoubtK)})",
    };

    private StartReason Of(StartReasonKind kind, Sentence text, Sentence? help, TimeBounds? until = null) =>
        new(kind, until is null ? StartWeight.Stops : StartWeight.Waits, evidence.Surface.Id, text, help, until);

    private static Sentence? Join(params Sentence?[] ways)
    {
        Sentence[] known = [.. ways.OfType<Sentence>()];
        return known.Length == 0 ? null : (Sentence)$"{Capital(Sentence.Join(", or ", known))}.";
    }
}
