using CureWatch.TimeWindows;
using CureWatch.Words;
using static CureWatch.Planning.Figures;

namespace CureWatch.Planning;

/// <summary>Every reason that the layer below gives not to go over it now.</summary>
internal sealed class LayerReasons(StartEvidence evidence, NextLayer next, StartDay day)
{
    private readonly Sentence _below = next switch
    {
        { IsPart: false } => $"layer {next.Layer - 1} of {evidence.Name}",
        { Sections: [var one] } => $"layer {next.Layer - 1} of {evidence.Name}, section {one}",
        _ => $"layer {next.Layer - 1} of {evidence.Name}, sections {Sentence.Join(", ", next.Sections.Select(s => (Sentence)$"{s}"))}",
    };

    public IEnumerable<StartReason> All() =>
        new[] { NotLevelled(), Recoat() }.OfType<StartReason>()
            .Concat(next.Held.Select(h => Of(StartReasonKind.BelowHeld, StartWeight.Stops, $"{Capital(_below)} is held: {h}")))
            .Concat(next.Elsewhere.Select(ByItself));

    private StartReason ByItself(OtherSection other) => Of(
        other.Until < day.Now ? StartReasonKind.RecoatMissed : StartReasonKind.RecoatUpcoming,
        StartWeight.Notes,
        other switch
        {
            { Until: { } until } when until < day.Now => $"Leave out section {other.Section} of {evidence.Name}: it took layer {next.Layer} until {day.Clock(until)} only.",
            { From: { } from } => $"Section {other.Section} of {evidence.Name} takes layer {next.Layer} by itself, from {day.Clock(from)}.",
            _ => $"Section {other.Section} of {evidence.Name} takes layer {next.Layer} by itself, later.",
        });

    private StartReason? NotLevelled() => next.Below.Any(b => b.HasToBeLevelled)
        ? Of(StartReasonKind.BelowNotLevelled, StartWeight.Stops, $"{Capital(_below)} is not levelled.") with { Help = $"Level it and tell it." }
        : null;

    /// <summary>All those sections count: the next layer is worked over them in one go.</summary>
    private StartReason? Recoat()
    {
        BelowCoat[] stated = [.. next.Below.Where(b => b.Recoat is not null && !b.HasToBeLevelled)];
        if (stated.Length == 0)
        {
            return null;
        }

        TimeBounds opens = stated.Select(b => b.Recoat!.OpensAt).Aggregate((a, b) => a.OrLater(b));
        DateTimeOffset? closes = stated.Where(b => !b.IsFoundClear).Min(b => b.Recoat!.ClosesAt?.Earliest);
        if (closes < day.Now)
        {
            return Of(
                StartReasonKind.RecoatMissed, StartWeight.Stops, $"{Capital(_below)} took another layer until {day.Clock(closes)} only.") with
            {
                Help = $"See the sheet; what was done about it, inspect and find clear.",
            };
        }

        if (Window.IsTooShortFor(opens, closes) && day.Now < opens.Latest)
        {
            return TooShort(opens, closes!.Value);
        }

        if (!(opens.Latest <= day.Now))
        {
            bool isNever = opens.Latest is null;
            return Of(
                StartReasonKind.RecoatUpcoming,
                isNever ? StartWeight.Stops : StartWeight.Waits,
                isNever
                    ? (Sentence)$"{Capital(_below)} does not get ready for another in this climate."
                    : $"{Capital(_below)} takes another layer from {day.Clock(opens.Latest)}{(closes is null ? Sentence.None : $" to {day.Clock(closes)}")}.") with
            {
                Until = isNever ? null : opens,
            };
        }

        return closes is null
            ? null
            : Of(StartReasonKind.RecoatClosing, StartWeight.Notes, $"{Capital(_below)} takes another layer until {day.Clock(closes)}.");
    }

    /// <summary>In a warm and moist climate, or a badly known one, it may close before anybody can rely on its being open.</summary>
    private StartReason TooShort(TimeBounds opens, DateTimeOffset closes)
    {
        bool isWorthWaiting = opens.Likely > day.Now && opens.Likely < closes;
        bool isToBeTried = opens.Likely <= day.Now;
        return Of(
            isToBeTried ? StartReasonKind.JudgeByEye : StartReasonKind.RecoatUpcoming,
            isToBeTried ? StartWeight.Notes : isWorthWaiting ? StartWeight.Waits : StartWeight.Stops,
            $"When {_below} takes another layer is too short to time in this climate: it may close at {day.Clock(closes)}.") with
        {
            Help = $"See the sheet and judge by eye, or change the climate; inspect it before the next layer.",
            Until = isWorthWaiting ? TimeBounds.Known(opens.Likely!.Value) : null,
        };
    }

    private StartReason Of(StartReasonKind kind, StartWeight weight, Sentence text) => new(kind, weight, evidence.Surface.Id, text);
}
