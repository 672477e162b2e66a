using CureWatch.Products;
using CureWatch.TimeWindows;
using CureWatch.Words;
using static CureWatch.Planning.Figures;

namespace CureWatch.Planning;

/// <summary>Every reason that the rest of the day, and the night after it, give not to start a surface now.</summary>
/// <remarks>
/// A day is planned as if the work began now, or when its panel is ready or its car comes, with nothing else to do. What does not fit that day waits for the first
/// one that holds it; a layer that its recoat window lets wait for the next day is only noted, and so is one that is begun: it is finished before people go. Of a
/// night counts what the coat lives through wet: from its first wipe, once all waiting is over, until its keep-dry ends at the latest.
/// </remarks>
internal sealed class DayReasons(StartEvidence evidence, WorkPlan plan, StartDay day)
{
    /// <summary>
    /// A chance of water from which nothing new is begun [1]. Source (choice): well above the one from which people are warned of a coat that is on, which costs
    /// a look; this costs a day.
    /// </summary>
    private const double LikelyEnough = 0.35;

    /// <summary>A chance of water that is said [1]: as for a coat that is on, so that nothing is begun untold of which people would be warned once it is.</summary>
    private const double WorthKnowing = NightAhead.WorthAWarning;

    private readonly Sentence _name = evidence.Name;
    private readonly ShopHours _days = day.Days;

    public IEnumerable<StartReason> All()
    {
        StartReason? hours = Hours();
        return new[] { hours, Timing(), Layers(), Night(hours?.Until?.Latest) }.OfType<StartReason>();
    }

    private StartReason? Hours()
    {
        bool isBegun = evidence.Next?.IsBegun == true;
        if (day.IsClosed)
        {
            return isBegun ? null : Of(StartReasonKind.Closed, StartWeight.Waits, $"The shop is closed until {day.Clock(day.Today?.Opens)}.") with
            {
                Until = TimeBounds.Known(day.Today!.Opens),
            };
        }

        DateTimeOffset begun = plan.Layers.IsEmpty ? day.Now : plan.Layers[0].BeginsAt;
        if (plan.DoneAt is not { } done || _days.DayAt(begun) is not { } own)
        {
            return null;
        }

        if (own.Opens > begun && begun > day.Now)
        {
            return Of(StartReasonKind.Closed, StartWeight.Waits, $"At {day.Clock(begun)} the shop is closed until {day.Clock(own.Opens)}.") with
            {
                Until = TimeBounds.Known(own.Opens),
            };
        }

        if (own.LocksUp is not { } lockUp || done <= lockUp)
        {
            return null;
        }

        LayerWork late = plan.Layers.First(l => l.DoneAt > lockUp);
        DateTimeOffset? nextOpens = _days.DayAt(lockUp)?.Opens;
        Sentence text = $"Layer {late.Layer} of {_name} would be done {day.Clock(late.DoneAt)}, lock-up is {day.Clock(lockUp)}";
        if (late.Layer == plan.Layers[0].Layer && isBegun)
        {
            return Of(StartReasonKind.ClosingTime, StartWeight.Notes, $"{text}; it is begun: stay until it is levelled.");
        }

        if (late.Layer > plan.Layers[0].Layer && MayWait(late, lockUp, nextOpens) is { } by)
        {
            return Of(
                StartReasonKind.ClosingTime,
                StartWeight.Notes,
                $"{text}; it may go on the next day from {day.Clock(nextOpens)}{(by == DateTimeOffset.MaxValue ? Sentence.None : $" to {day.Clock(by)}")}.");
        }

        return _days.Fit(lockUp, done - begun) is { } fits
            ? Of(StartReasonKind.ClosingTime, StartWeight.Waits, $"{text}: it all fits {(fits == nextOpens ? $"the next day" : day.Clock(fits))}.") with { Until = TimeBounds.Known(fits) }
            : Of(StartReasonKind.ClosingTime, StartWeight.Stops, $"{text}, and it fits no whole day either.") with
            {
                Help = $"Plan fewer layers or sections, or stay until it is levelled.",
            };
    }

    /// <summary>Until when a layer that does not fit its day may go on the next one; null where the one below takes it no more by then.</summary>
    private DateTimeOffset? MayWait(LayerWork late, DateTimeOffset lockUp, DateTimeOffset? nextOpens)
    {
        LayerWork below = plan.Layers.Last(l => l.Layer == late.Layer - 1);
        DateTimeOffset by = evidence.Times[below.Layer - plan.Layers[0].Layer].OverBy(below.BeginsAt) ?? DateTimeOffset.MaxValue;
        return below.DoneAt <= lockUp && nextOpens <= by ? by : null;
    }

    private StartReason? Timing() => plan.Layers.Any(l => !l.IsTimed)
        ? Of(StartReasonKind.JudgeByEye, StartWeight.Notes, $"Level-off of {_name} is too short to time in this climate: smaller sections, judge by eye.")
        : null;

    private StartReason? Layers() => plan.Layers.FirstOrDefault(l => l.IsTooLate) is { } late
        ? Of(
            StartReasonKind.RecoatMissed,
            StartWeight.Notes,
            $"Layer {late.Layer} of {_name} would come only {day.Clock(late.BeginsAt)}, when its first sections may take it no more: fewer sections at a time.")
        : null;

    private StartReason? Night(DateTimeOffset? waitsUntil)
    {
        if (evidence.Night is not { } nights || plan.ReadyAt(evidence.Surface.Id) is not { } planned)
        {
            return null;
        }

        DateTimeOffset begins = plan.Layers[0].BeginsAt;
        TimeSpan delay = waitsUntil > begins ? waitsUntil.Value - begins : TimeSpan.Zero;
        DateTimeOffset? dryBy = planned.Latest + delay;
        if (_days.DayAt(begins + delay) is { LocksUp: { } lockUp } own && own.Opens - StartDay.EarlyBird <= begins + delay && dryBy <= lockUp)
        {
            return null;
        }

        Sentence until = dryBy is null ? (Sentence)$"without an end in this climate" : $"until {day.Clock(dryBy)}";
        if (nights(begins + delay, dryBy) is not { } night)
        {
            return Of(StartReasonKind.Night, StartWeight.Notes, $"{Capital(_name)} has to stay dry {until}; what that night brings is not known yet.");
        }

        SheetLimits limits = evidence.Laws.Sheet.Limits;
        bool isWet = night.WetChance >= LikelyEnough, isThin = night.LeastSpreadK < limits.SpreadMinK || night.WetChance >= WorthKnowing, isCold = night.ColdestC < limits.PanelMinC;
        if (!isThin && !isCold)
        {
            return null;
        }

        Sentence figures = Sentence.Join(" and ", new[]
        {
            isThin ? (Sentence)$"{Kelvins(night.LeastSpreadK)} above the dew point ({day.Clock(night.LeastSpreadAt)}), needs {Kelvins(limits.SpreadMinK)}" : null,
            isCold ? (Sentence)$"{Degrees(night.ColdestC)} ({day.Clock(night.ColdestAt)}), needs {Degrees(limits.PanelMinC!.Value)}" : null,
        }.OfType<Sentence>());
        Sentence water = night.WetChance >= WorthKnowing && night.WetFrom is { } from
            ? (Sentence)$" In {100 * night.WetChance:0} of 100 such nights water condenses on it, from about {day.Clock(from)}."
            : $"";
        return Of(
            StartReasonKind.Night,
            isWet ? StartWeight.Stops : StartWeight.Notes,
            $"{Capital(_name)} has to stay dry {until}; until then it likely comes down to {figures}.{water}") with
        {
            Help = evidence.Means.HeatAtNight is { } heat ? (Sentence)$"Hold the bay warm overnight with {heat}, doors shut."
                : evidence.Means.DryAtNight is { } dry && !isCold ? (Sentence)$"Hold the air dry overnight with {dry}, doors shut."
                : $"This bay has nothing that may heat it overnight: begin where its keep-dry ends in daylight, or cure it elsewhere.",
            IsHelpHeat = true,
        };
    }

    private StartReason Of(StartReasonKind kind, StartWeight weight, Sentence text) => new(kind, weight, evidence.Surface.Id, text);
}
