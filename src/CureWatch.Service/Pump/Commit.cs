using System.Collections.Immutable;
using CureWatch.Bays;
using CureWatch.Service.Journal;

namespace CureWatch.Service.Pump;

/// <summary>What a batch brought about, on disk by now.</summary>
/// <param name="Steps">The entries in the order of the journal; none for what was already on disk at the start.</param>
/// <param name="After">The state after all of them.</param>
/// <param name="FlushTook">How long it took to get them there.</param>
internal sealed record Commit(ImmutableArray<Step> Steps, Register After, TimeSpan FlushTook = default);

/// <summary>An entry and what it brought about.</summary>
/// <param name="Sequence">Its number in the journal, from 1.</param>
/// <param name="At">Its instant.</param>
/// <param name="Entry">The entry.</param>
/// <param name="Happened">What happened in the shop, in order.</param>
/// <param name="After">The state it led to, which does not depend on where its batch ends.</param>
internal readonly record struct Step(
    long Sequence, DateTimeOffset At, Entry Entry, ImmutableArray<ShopEvent> Happened, Register After);

/// <summary>Somebody who acts on what was committed. Called on the pump's thread, one commit after the other: take it and return.</summary>
internal interface IFollower
{
    void Follow(Commit commit);
}
