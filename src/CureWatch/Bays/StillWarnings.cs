using System.Collections.Immutable;
using CureWatch.Readings;
using CureWatch.Warnings;
using CureWatch.Words;

namespace CureWatch.Bays;

/// <summary>Tells people of a probe that stands still: as advice while it is only doubted, as a warning once something else that moved proves it stuck.</summary>
/// <remarks>
/// The one takes the other's place, and both are over when the probe moves, or once people are told that it cannot be believed at all: it is one
/// episode. Nothing is looked up of a probe that moves.
/// </remarks>
internal static class StillWarnings
{
    private static readonly ImmutableArray<WarningKind> Kinds = [WarningKind.ProbeStandsStill, WarningKind.ProbeStuck];

    /// <summary>Decides what people are told of a probe that was just heard.</summary>
    /// <param name="shop">The shop, the reading taken in and judged.</param>
    /// <param name="raw">The reading.</param>
    /// <param name="happened">What happened.</param>
    /// <param name="since">From where on it did by this reading.</param>
    /// <returns>Warnings raised and cleared.</returns>
    public static IEnumerable<ShopEvent> Decide(Shop shop, RawReading raw, ImmutableArray<ShopEvent>.Builder happened, int since)
    {
        if (shop.Bays.Find(raw.Bay) is not { } bay || bay.IndexOf(raw.Probe) is not (>= 0 and var index))
        {
            return [];
        }

        ProbeLog log = bay.Logs[index];
        return log.Standing.IsStill || HasMoved(happened, since) ? Tell(shop, bay, index, log) : [];
    }

    private static bool HasMoved(ImmutableArray<ShopEvent>.Builder happened, int since)
    {
        for (int i = since; i < happened.Count; i++)
        {
            if (happened[i] is ShopEvent.ValueMoved)
            {
                return true;
            }
        }

        return false;
    }

    private static IEnumerable<ShopEvent> Tell(Shop shop, BayState bay, int index, ProbeLog log)
    {
        Still? still = ProbeBelief.IsKnownToBeAtFault(bay, index) ? null : Worst(log);
        WarningKind? told = still is null ? null : IsProven(still) ? WarningKind.ProbeStuck : WarningKind.ProbeStandsStill;
        foreach (WarningKind kind in Kinds)
        {
            Subject subject = ProbeBelief.Subject(kind, bay, index);
            bool stood = shop.Standing.ContainsKey(subject);
            if (kind == told && !stood)
            {
                yield return new ShopEvent.WarningRaised(new Warning(subject, null, shop.Now, null, null)
                {
                    Detail = Words(shop, log, still!),
                    Wakes = kind == WarningKind.ProbeStuck,
                });
            }
            else if (kind != told && stood)
            {
                yield return new ShopEvent.WarningCleared(subject, shop.Now);
            }
        }
    }

    /// <summary>What it stands still in, the proven before the doubted.</summary>
    private static Still? Worst(ProbeLog log)
    {
        Still? temperature = log.Standing.Open(Quantity.Temperature), humidity = log.Standing.Open(Quantity.Humidity);
        return humidity is null || (temperature is not null && IsProven(temperature)) ? temperature
            : temperature is null || IsProven(humidity) ? humidity
            : temperature;
    }

    /// <summary>What its own other quantity, or its habit, says against it is told as a probe that cannot be believed, once it is sure.</summary>
    private static bool IsProven(Still still) => still.Why is StillReason.TwinMoved or StillReason.NeighbourMoved or StillReason.FarFromAir;

    private static Sentence Words(Shop shop, ProbeLog log, Still still)
    {
        TimeSpan lasts = shop.Now - still.From.At;
        Sentence lasting = lasts < TimeSpan.FromHours(1) ? (Sentence)$"{lasts.TotalMinutes:0} min" : $"{lasts.TotalHours:0.#} h";
        DateTimeOffset since = TimeZoneInfo.ConvertTime(still.From.At, shop.Plan.Hours.Zone), now = TimeZoneInfo.ConvertTime(shop.Now, shop.Plan.Hours.Zone);
        Sentence day = since.Date == now.Date ? Sentence.None : $"{since:d MMM} ";
        Sentence said = log.Standing.Of(still.What) is not { } standing ? (Sentence)$"one value"
            : still.What == Quantity.Humidity ? (Sentence)$"{standing.Value:0.##} % RH"
            : $"{new Figure.Temperature(standing.Value, "0.##")}";
        return $"{log.Probe.Id} has said {said} for {lasting}, since {day}{since:HH:mm}: {BeliefWords.Of(still)}.";
    }
}
