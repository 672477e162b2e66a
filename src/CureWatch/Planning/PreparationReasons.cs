using CureWatch.Curing;
using CureWatch.Panels;
using CureWatch.Products;
using CureWatch.Words;
using static CureWatch.Planning.Figures;

namespace CureWatch.Planning;

/// <summary>Every reason that the preparation of a surface gives not to coat it now: heat, trapped water, the wipe-down.</summary>
/// <remarks>
/// How long a wipe-down counts, its solvent takes to leave and edges drip are the shop's habits (choice: common practice, no source). Heat of a
/// polishing machine is measured, never modelled: it is over once a spot after it, or a probe fixed to the surface, lies inside the sheet's limits.
/// Heat of a lamp is over with the cool-down where that is reckoned from a reading of the surface; else it is measured likewise.
/// </remarks>
internal sealed class PreparationReasons(StartEvidence evidence, StartDay day, int? section = null)
{
    private readonly Sentence _name = section is { } one ? $"{evidence.Name}, section {one}" : evidence.Name;

    /// <summary>Of each kind one reason: where only another section of those that go on gives it, that one is named.</summary>
    public IEnumerable<StartReason> All() => evidence.Preparation is { } preparation
        ? new[] { CoolingDown(), Heat(preparation), Water(), Wipe(preparation) }.OfType<StartReason>().Concat(Others().SelectMany(o => o.All()))
            .GroupBy(r => r.Kind).Select(k => k.OrderBy(r => r.Weight).ThenByDescending(r => r.Until?.Latest).First())
        : [Of(
            StartReasonKind.NotWiped,
            StartWeight.Notes,
            $"Whether {_name} is wiped down, dry and cool from polishing is told of a car that was begun.")];

    private StartReason? CoolingDown() => evidence.CoolsUntil is not { } cool ? null : Of(
        StartReasonKind.LampCoolDown,
        StartWeight.Waits,
        $"{Capital(_name)} is {(evidence.AfterLamp!.IsMeasured ? Sentence.None : $"about ")}{Degrees(evidence.AfterLamp.PanelC)} from the lamp; "
        + $"work on it at {Degrees(evidence.AfterLamp.LimitC)}, from {day.Clock(cool)} if nothing warms it.") with
    {
        Until = TimeWindows.TimeBounds.Known(cool),
    };

    private StartReason? Heat(Preparation preparation)
    {
        if (preparation.LampOnAt is { } on)
        {
            return Of(
                StartReasonKind.Lamp,
                StartWeight.Stops,
                $"A lamp is on {_name} since {day.Clock(on)}.",
                $"Switch it off and tell it, let the panel cool, measure it and tell that.") with
            {
                ToldBy = Did.LampOff,
            };
        }

        if (preparation.HeatedAt is not { } heated || preparation.Spots.Any(s => s.At >= heated && IsInLimits(s.PanelC)) || IsMeasuredCoolSince(heated))
        {
            return null;
        }

        bool isPolish = heated == preparation.PolishedAt;
        if (!isPolish && (evidence.HasCooled || evidence.CoolsUntil is not null))
        {
            return null;
        }

        Sentence last = preparation.Spots is [.., var spot] && spot.At >= heated
            ? (Sentence)$"was {Degrees(spot.PanelC)} by hand {day.Clock(spot.At)}"
            : $"was not measured since";
        return Of(
            isPolish ? StartReasonKind.PolishingHeat : StartReasonKind.Lamp,
            StartWeight.Stops,
            $"{Capital(_name)} was {(isPolish ? (Sentence)$"polished" : $"under a lamp")} until {day.Clock(heated)} and {last}.",
            $"Let it cool, measure it and tell it: {Limits()}.");
    }

    private StartReason? Water()
    {
        if (evidence.Wettings.LastOrDefault(w => w.DriedAt is null) is { } wet)
        {
            return Of(
                StartReasonKind.TrappedWater,
                StartWeight.Stops,
                $"{Capital(_name)} got wet {day.Clock(wet.WettedAt)} and nobody told that it was dried.",
                $"Dry it, blow out edges and trim, and tell it.") with
            {
                ToldBy = Did.Dried,
            };
        }

        DateTimeOffset? dried = evidence.Wettings.Max(w => w.DriedAt), over = dried + day.Habits.DripsFor;
        return !(over > day.Now) ? null : Of(
            StartReasonKind.TrappedWater,
            StartWeight.Waits,
            $"{Capital(_name)} was dried {day.Clock(dried)}; edges and trim drip until {day.Clock(over)}.") with
        {
            Until = TimeWindows.TimeBounds.Known(over.Value),
        };
    }

    /// <summary>Cloth and leather are cleaned, not wiped down with solvent; nothing is wiped down between two layers.</summary>
    private StartReason? Wipe(Preparation preparation)
    {
        if (evidence.Surface.Material is Material.Fabric or Material.Leather || evidence.Next is { Layer: > 1 })
        {
            return null;
        }

        if (evidence.Coming is { NeedsWipe: true } coming && !coming.IsDryBy(day.Now))
        {
            return null; // wiping a panel that still gets wet helps nobody
        }

        if (evidence.Arrival is { NeedsWipe: true } arrival && (arrival.NowC is not null || arrival.IsDryBy(day.Now))
            && evidence.Panel is not { Basis: PanelBasis.ItsProbe } && preparation.WipedAt is not null)
        {
            Sentence came = arrival.NowC is null ? (Sentence)$"may have come" : $"came";
            return ToWipe(StartReasonKind.WasWet, $"{Capital(_name)} {came} in cold enough to get wet, and was not wiped down since it stays dry.");
        }

        if (preparation.WipedAt is not { } wiped)
        {
            return ToWipe(StartReasonKind.NotWiped, $"{Capital(_name)} was not wiped down.");
        }

        if (evidence.Wet.Since is not null || evidence.Wet.Until >= wiped)
        {
            Sentence when = evidence.Wet.Since is { } since ? (Sentence)$"since {day.Clock(since)}" : $"until {day.Clock(evidence.Wet.Until)}";
            return ToWipe(StartReasonKind.WasWet, $"Water condensed {when}, and {_name} was wiped down {day.Clock(wiped)}, before that was over.");
        }

        if (preparation.TouchedSince is { } touched)
        {
            return ToWipe(StartReasonKind.NotWiped, $"{Capital(_name)} was wiped down {day.Clock(wiped)} and {Words(touched.Did)} {day.Clock(touched.At)}.");
        }

        DateTimeOffset until = wiped + day.Habits.PanelWipeValid, dry = wiped + day.Habits.WipeDries;
        return until < day.Now
            ? ToWipe(StartReasonKind.NotWiped, $"{Capital(_name)} was wiped down {day.Clock(wiped)}, which counted until {day.Clock(until)}.")
            : dry > day.Now
            ? Of(
                StartReasonKind.WipeWet,
                StartWeight.Waits,
                $"The solvent of wiping {_name} down {day.Clock(wiped)} needs until {day.Clock(dry)} to leave.") with
            {
                Until = TimeWindows.TimeBounds.Known(dry),
            }
            : null;
    }

    /// <summary>Says that a wipe-down that counts now will not when waiting is over.</summary>
    /// <param name="from">When waiting is over.</param>
    public IEnumerable<StartReason> AfterWaiting(DateTimeOffset from) => OfItself(from).Concat(Others().SelectMany(o => o.AfterWaiting(from))).Take(1);

    private IEnumerable<PreparationReasons> Others() =>
        evidence.OtherSections.Select(o => new PreparationReasons(evidence with { Preparation = o.Preparation, OtherSections = [] }, day, o.Section));

    private IEnumerable<StartReason> OfItself(DateTimeOffset from)
    {
        if (evidence.Preparation is { WipedAt: { } wiped } preparation && Wipe(preparation) is null or { Weight: StartWeight.Waits }
            && wiped + day.Habits.PanelWipeValid is var until && until < from && evidence.Next is not { Layer: > 1 })
        {
            yield return Of(
                StartReasonKind.NotWiped,
                StartWeight.Notes,
                $"The wipe-down of {_name} counts until {day.Clock(until)}, less long than there is to wait.",
                $"Wipe it down again then, and tell it.");
        }
    }

    private bool IsMeasuredCoolSince(DateTimeOffset heated) =>
        evidence.Panel is { Basis: PanelBasis.ItsProbe } panel && panel.MeasuredAt >= heated && IsInLimits(panel.HottestC);

    private bool IsInLimits(double panelC) =>
        !(panelC < evidence.Laws.Sheet.Limits.PanelMinC) && !(panelC > evidence.Laws.Sheet.Limits.PanelMaxC);

    private Sentence Limits()
    {
        SheetLimits limits = evidence.Laws.Sheet.Limits;
        return limits switch
        {
            { PanelMinC: { } min, PanelMaxC: { } max } => $"its sheet asks for {Degrees(min)} to {Degrees(max)}",
            { PanelMaxC: { } max } => $"its sheet allows {Degrees(max)} at most",
            { PanelMinC: { } min } => $"its sheet asks for {Degrees(min)} at least",
            _ => $"its sheet states no limit",
        };
    }

    private static Sentence Words(Did did) => did switch
    {
        Did.Measured => $"measured after that",
        Did.Polished => $"polished after that",
        Did.Washed => $"washed after that",
        Did.Wetted => $"got wet after that",
        Did.Dried => $"dried after that",
        Did.Moved => $"moved after that",
        _ => $"worked on after that",
    };

    private StartReason ToWipe(StartReasonKind kind, Sentence text) =>
        Of(kind, StartWeight.Stops, text, $"Wipe it down and tell it.") with { ToldBy = Did.PanelWiped };

    private StartReason Of(StartReasonKind kind, StartWeight weight, Sentence text, Sentence? help = null) =>
        new(kind, weight, evidence.Surface.Id, text, help);
}
