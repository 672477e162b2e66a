using CureWatch.Planning;
using CureWatch.Words;

namespace CureWatch.Bays;

/// <summary>Says what moved a collection: what is otherwise now than when it was last foreseen in time.</summary>
internal static class PromiseReason
{
    /// <summary>What nobody would call another climate [K, % RH]. Source (choice): a probe's error and a little.</summary>
    private const double TellableK = 0.5, TellablePct = 3;

    /// <summary>A later start that is worth telling. Source (choice).</summary>
    private static readonly TimeSpan TellableDelay = TimeSpan.FromMinutes(10);

    /// <summary>Says it, the hardest cause first and it alone.</summary>
    /// <param name="before">What it rested on when it was in time; null where it never was.</param>
    /// <param name="now">What it rests on.</param>
    /// <param name="holds">What only people can lift, in words; empty where nothing is.</param>
    /// <param name="clock">Says an instant.</param>
    /// <param name="isDryInTime">Whether the last keep-dry is over by the time that was told, so that only the finishing is in the way.</param>
    /// <returns>A sentence.</returns>
    public static Sentence Of(PromiseBasis? before, PromiseBasis now, IReadOnlyList<Sentence> holds, Func<DateTimeOffset, Sentence> clock, bool isDryInTime)
    {
        if (holds.Count > 0)
        {
            return holds[0];
        }

        if (now.WettedAt is { } wetted && wetted != before?.WettedAt)
        {
            return $"{now.Governing} was wetted {clock(wetted)}: its keep-dry begins again once it is dry.";
        }

        if (now.IsUnheard && before is not { IsUnheard: true })
        {
            return $"no air probe is heard where {now.Governing} is, and what nobody measures is not counted on.";
        }

        if (before?.CureStart is { } expected && now.CureStart - expected > TellableDelay)
        {
            return before.Governing == now.Governing
                ? (Sentence)$"{now.Governing} begins to cure {clock(now.CureStart!.Value)}, it was reckoned for {clock(expected)}."
                : $"{now.Governing} decides now, from {clock(now.CureStart!.Value)} on; before, {before.Governing} did.";
        }

        return Climate(before?.Climate, now) ?? (isDryInTime
            ? (Sentence)$"{now.Governing} is dry in time, but finishing it within the opening hours takes longer than was told."
            : $"{now.Governing} takes longer than was told.");
    }

    private static Sentence? Climate(PanelClimate? before, PromiseBasis now)
    {
        if (before is null || now.Climate is not { } climate)
        {
            return null;
        }

        double colderK = before.PanelC - climate.PanelC, drierPct = before.HumidityPct - climate.HumidityPct;
        bool isColder = colderK >= TellableK, isDrier = Math.Abs(drierPct) >= TellablePct;
        return isColder || isDrier
            ? (Sentence)$"{now.Governing} cures at {Figures.Degrees(climate.PanelC)} and {climate.HumidityPct:0} % on average, {Figures.Degrees(before.PanelC)} and {before.HumidityPct:0} % were reckoned."
            : null;
    }
}
