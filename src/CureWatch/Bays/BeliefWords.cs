using System.Collections.Immutable;
using CureWatch.Readings;
using CureWatch.Units;
using CureWatch.Words;

namespace CureWatch.Bays;

/// <summary>What people are told of a probe that is not believed: what it says, and what speaks against it.</summary>
public static class BeliefWords
{
    /// <summary>Why a reading is not believed, in words that follow "not believed:".</summary>
    /// <param name="why">The reason.</param>
    /// <returns>The words.</returns>
    public static Sentence Of(Disbelief why) => why switch
    {
        Disbelief.OutOfRange => $"it says what no sensor of its kind can measure",
        Disbelief.Implausible => $"it jumps further than air or a panel can",
        Disbelief.Frozen => $"it repeats one value for far longer than it is used to",
        Disbelief.Disagreeing => $"its twins agree with each other, and not with it",
        Disbelief.LampNear => $"a lamp warms it: its moisture counts, its temperature is held at what it was before the lamp, or at its twin's",
        Disbelief.Late => $"it came too long after it was measured, or its clock is behind",
        Disbelief.Future => $"its clock is ahead of this one",
        Disbelief.Duplicate => $"it was told before",
        _ => $"it is no reading of this probe",
    };

    /// <summary>Why what a probe repeated is not believed, in words that follow what it did.</summary>
    /// <param name="still">The stretch.</param>
    /// <returns>The words.</returns>
    public static Sentence Of(Still still) => still.Why switch
    {
        StillReason.Suspected when still.Beside is { } near => $"{near} near it moved a little, so what it may have become since then counts too, until it moves",
        StillReason.Suspected => $"longer than is likely, so what it may have become since then counts too, until it moves",
        StillReason.Jumped => $"it ended in a jump, and what lies between was not seen",
        StillReason.Refused => $"so long that it is stuck, and is not believed since then",
        StillReason.FarFromAir => $"so far from {still.Beside} no panel keeps its temperature, so it is not believed since then",
        StillReason.TwinMoved => $"{still.Beside} beside it moved, so it is not believed since then",
        StillReason.NeighbourMoved => $"{still.Beside} moved meanwhile, so it is not believed since then",
        StillReason.OtherMoved when still.What == Quantity.Humidity => $"the temperature moved and would have taken it along, so it is not believed since then",
        StillReason.OtherMoved => $"the humidity moved far, so what it can have been at worst counts until it moves",
        _ => $"far longer than it is used to, so what it can have been at worst counts until it moves",
    };

    internal static Sentence OfFault(RawReading raw, Disbelief why)
    {
        Sentence[] said =
        [
            .. raw.AirC is { } air ? [(Sentence)$"{new Figure.Temperature(air, "0.#")}"] : Array.Empty<Sentence>(),
            .. raw.HumidityPct is { } pct ? [(Sentence)$"{pct:0.#} %"] : Array.Empty<Sentence>(),
            .. raw.PanelC is { } panel ? [(Sentence)$"panel {new Figure.Temperature(panel, "0.#")}"] : Array.Empty<Sentence>(),
        ];
        return $"{raw.Probe} says {Sentence.Join(", ", said)}: {Of(why)}.";
    }

    /// <summary>What is told of a probe that sends and counts as silent, because of its clock; null of one that does not send.</summary>
    internal static Sentence? OfClock(ProbeLog log, DateTimeOffset now) => Lapses.WhyOf(log, now) is { } why && Refusal.IsForItsInstant(why)
        ? (Sentence)$"{log.Probe.Id} sends, and what it sends is refused: {Of(why)}."
        : null;

    internal static Sentence OfDisagreement(BayState bay, ImmutableArray<int> heard, Testimony[] said, Accord accord, int place)
    {
        Testimony own = said[place];
        int other = Enumerable.Range(0, heard.Length).Where(i => i != place && !accord.IsOdd(i)).MaxBy(i => own.DistanceTo(said[i]));
        string[] against =
            [.. Enumerable.Range(0, heard.Length).Where(i => !accord.Agree(place, i) && !accord.IsOdd(i)).Select(i => bay.Plan.Probes[heard[i]].Probe.Id)];
        double aboveK = own.Kelvins - said[other].Kelvins;
        Sentence moisture = own.VapourPressurePa > 0 ? (Sentence)$" and {own.MoistureAboveAsPct(said[other]):+0.0;-0.0;0.0} % RH" : $"";
        Sentence verdict = accord.IsOdd(place) ? (Sentence)$"it is the odd one out" : $"nobody can say which is right, so the worse of them counts";
        string id = bay.Plan.Probes[heard[place]].Probe.Id;
        return $"{id} against {Sentence.Names(", ", against)}: {new Figure.Difference(aboveK, "+0.0;-0.0;0.0")}{moisture} ({Degrees(own)} and {Degrees(said[other])}), "
            + $"more than their limits allow; {verdict}.";
    }

    private static Figure.Temperature Degrees(Testimony said) => new Figure.Temperature(Celsius.FromKelvins(said.Kelvins).Degrees, "0.0");
}
