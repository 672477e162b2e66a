using CureWatch.Curing;
using CureWatch.Handover;
using CureWatch.Planning;
using CureWatch.TimeWindows;
using CureWatch.Words;

namespace CureWatch.Bays;

/// <summary>Says how a promise stands: one time, not three.</summary>
internal sealed class PromiseWords(OpeningHours hours, DateTimeOffset now)
{
    /// <summary>What people are told is told by the quarter of an hour, rounded up. Source (choice): nobody promises 10:07.</summary>
    private static readonly TimeSpan Grid = TimeSpan.FromMinutes(15);

    /// <summary>The time to tell for a collection that is foreseen: by the quarter of an hour, but within opening hours, and none that is past.</summary>
    public DateTimeOffset? TimeToTell(DateTimeOffset? collectFrom)
    {
        if (collectFrom is not { } foreseen)
        {
            return null;
        }

        DateTimeOffset from = foreseen > now ? foreseen : hours.AfterWork(now, TimeSpan.Zero) ?? now;
        DateTimeOffset quarter = Up(from, Grid);
        return hours.AfterWork(quarter, TimeSpan.Zero) == quarter ? quarter : Up(from, TimeSpan.FromMinutes(1));
    }

    /// <summary>How it stands.</summary>
    public Sentence Of(PromiseOutlook outlook, PromiseMove? move)
    {
        if (outlook.PromisedAt is not { } promised)
        {
            Sentence could = TimeToTell(outlook.CollectFrom) is { } time ? (Sentence)$"you can tell them {Clock(time)}" : $"no time can be told yet";
            return outlook.ForPeople is [var first, ..]
                ? (Sentence)$"The customer was told no time, and the car is held: {Surface.NameOf(first.Surface)}: {first.Text} Once that is lifted, {could}."
                : $"The customer was told no time; {could}.{Governing(outlook)}";
        }

        if (outlook.Standing == PromiseStanding.Missed)
        {
            return Missed(outlook, promised);
        }

        if (outlook.Standing == PromiseStanding.Kept)
        {
            return $"{Clock(promised)} is kept: the car was ready.{HeldSince(outlook)}";
        }

        if (move?.StandsAt(now) == true)
        {
            return Of(move);
        }

        if (outlook.IsUnknown)
        {
            return $"Whether {Clock(promised)} is made is not known.{Governing(outlook)}";
        }

        Sentence percent = Percent(outlook.ChanceOnceLifted ?? 0);
        return outlook.ForPeople.IsEmpty
            ? outlook.ChanceOnceLifted >= PromiseAdvice.UsualTarget
                ? (Sentence)$"{Clock(promised)} stands: {percent}.{Governing(outlook)}"
                : $"{Clock(promised)} is at risk: {percent}.{Governing(outlook)}"
            : $"{Clock(promised)} is held: {Surface.NameOf(outlook.ForPeople[0].Surface)}: {outlook.ForPeople[0].Text} Once that is lifted, {percent}.";
    }

    /// <summary>What happened to a car whose promise was kept; empty where it can be collected.</summary>
    private Sentence HeldSince(PromiseOutlook outlook)
    {
        if (!outlook.IsHeldAt(now))
        {
            return Sentence.None;
        }

        Sentence held = outlook.ForPeople is [var hold, ..] ? (Sentence)$" It is held since: {Surface.NameOf(hold.Surface)}: {hold.Text}" : Governing(outlook);
        return $"{held} {(TimeToTell(outlook.CollectFrom) is { } time ? (Sentence)$"The earliest to tell now is {Clock(time)}." : $"No new time can be told yet.")}";
    }

    /// <summary>The promise that is past, and the earliest time that can be told in its place.</summary>
    private Sentence Missed(PromiseOutlook outlook, DateTimeOffset promised)
    {
        Sentence held = outlook.ForPeople is [var hold, ..] ? (Sentence)$" It is held: {Surface.NameOf(hold.Surface)}: {hold.Text}" : Governing(outlook);
        return $"Missed at {Clock(promised)}; {(TimeToTell(outlook.CollectFrom) is { } time ? (Sentence)$"the earliest to tell now is {Clock(time)}" : $"no new time can be told yet")}.{held}";
    }

    /// <summary>The time to tell, why, and what would spare it.</summary>
    public Sentence Of(PromiseMove move)
    {
        Sentence tell = move.Tell is { } time ? (Sentence)$"Tell them {Clock(time)}, was {Clock(move.Was)}." : $"No time can be told for now, it was {Clock(move.Was)}.";
        return $"{tell} Reason: {move.Reason}{(move.GetsItBack is { } back ? (Sentence)$" Gets it back: {back}" : $"")}";
    }

    /// <summary>Whom a car waits for that is not begun, or why no start of it fits; a sentence after a space, empty where it waits for none.</summary>
    /// <param name="turn">Its turn; null where it has none.</param>
    /// <param name="ahead">What the car before it is called; null where there is none.</param>
    public Sentence OfTurn(QueuedCar? turn, string? ahead) => turn switch
    {
        null => Sentence.None,
        { Ahead: { LeavesAt: { Likely: { } likely, Latest: { } latest } } } when ahead is not null && turn.Chosen is not null =>
            $" It is begun after {ahead} leaves {turn.Car.Bay}, about {Clock(likely)}{(latest > likely ? (Sentence)$", {Clock(latest)} at the latest" : $"")}.",
        { Ahead: { LeavesAt.Likely: { } likely } } when ahead is not null && turn.Chosen is not null =>
            $" It is begun after {ahead} leaves {turn.Car.Bay}, about {Clock(likely)}; nobody can tell a latest.",
        { Ahead: { LeavesAt.Latest: null } } when ahead is not null => $" It is begun after {ahead} leaves {turn.Car.Bay}, and nobody can tell when that is.",
        { IsUnmeasured: true } => Sentence.None,
        { WhyNone: { } why } => $" No start of it fits: {why}",
        _ => Sentence.None,
    };

    /// <summary>A layer that the one below it takes no more by the time somebody is there to put it on; a sentence after a space, empty where there is none.</summary>
    /// <param name="layer">The layer; null where none is too late.</param>
    public Sentence OfUnfit(LayerWork? layer) => layer is null ? Sentence.None
        : $" Layer {layer.Layer} of {Surface.NameOf(layer.Surface)} would come only {Clock(layer.BeginsAt)}, when the layer below takes it no more: stay until it is levelled, or leave it out.";

    /// <summary>An instant as the shop's clock shows it.</summary>
    public Sentence Clock(DateTimeOffset at) => WallClock.Of(at, now, hours.Zone);

    private Sentence Governing(PromiseOutlook outlook) => outlook.Governing is not { } coat ? Sentence.None : coat.Waits switch
    {
        Awaits.Nothing => Sentence.None,
        _ when coat.IsUnmeasured => $" Nobody measures the air around {coat.Name}: how long it takes there is not known.",
        Awaits.Application => $" {coat.Name.Capital()} decides: it is still to go on, and holds the car{Ends(coat.ReadyAt)}.",
        Awaits.Levelling => $" {coat.Name.Capital()} decides: it waits to be levelled, and holds the car{Ends(coat.ReadyAt)}.",
        Awaits.Drying => $" {coat.Name.Capital()} decides: it is wet; dried now it would be over{Ends(coat.ReadyAt)}.",
        _ => $" {coat.Name.Capital()} decides: it has to stay dry{Ends(coat.ReadyAt)}.",
    };

    private Sentence Ends(TimeBounds readyAt) => readyAt switch
    {
        { Likely: { } likely, Latest: { } latest } when likely == latest => $" until {Clock(latest)}",
        { Likely: { } likely, Latest: { } latest } => $" until {Clock(likely)} likely, {Clock(latest)} at the latest",
        { Likely: { } likely } => $" until {Clock(likely)} likely, without a latest in this climate",
        _ => $", without an end in this climate",
    };

    private static DateTimeOffset Up(DateTimeOffset at, TimeSpan grid) => new(((at.UtcTicks + grid.Ticks - 1) / grid.Ticks) * grid.Ticks, TimeSpan.Zero);

    private static Sentence Percent(double chance) => $"{Math.Floor(100 * chance):0} %";
}
