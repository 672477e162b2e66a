using System.Collections.Immutable;
using CureWatch.Psychrometrics;

namespace CureWatch.Readings;

/// <summary>A stretch in which a probe repeated one value for longer than it can be right: what it repeated is not believed since it began to.</summary>
/// <param name="What">What it repeated.</param>
/// <param name="From">The first reading of the value: that one was measured.</param>
/// <param name="To">The first reading that said another; null while it stands still.</param>
/// <param name="Why">What speaks against it.</param>
/// <param name="Beside">What moved meanwhile, in a few words; null where nothing else tells.</param>
public sealed record Still(Quantity What, Sample From, Sample? To, StillReason Why, string? Beside)
{
    /// <summary>Whether it is believed after all where it goes on by a step, as a sound probe does: nothing proves that it was stuck.</summary>
    public bool MayBeBorneOut => Why == StillReason.Unusual || (Why == StillReason.OtherMoved && What == Quantity.Temperature);

    /// <summary>Whether it is about any of a stretch.</summary>
    /// <param name="from">The stretch's start.</param>
    /// <param name="to">Its end; the start itself for an instant.</param>
    /// <returns>False where it was over, or had not begun.</returns>
    public bool Covers(DateTimeOffset from, DateTimeOffset to) =>
        (from == to ? From.At < from : From.At < to) && !(To?.At <= from);

    /// <summary>A sample as it is read meanwhile: what stood still is held from its first reading, and runs straight to the one that said another.</summary>
    /// <param name="sample">A sample inside the stretch.</param>
    /// <returns>The sample; no moister than its air can be. Its relative humidity stays what the probe said.</returns>
    public Sample Read(Sample sample)
    {
        if (What == Quantity.Humidity)
        {
            double pascals = Between(sample.At, From.VapourPressurePa, To?.VapourPressurePa);
            return sample with { VapourPressurePa = Math.Min(pascals, SaturationPressure.OverWaterPa(sample.Kelvins)) };
        }

        double kelvins = Between(sample.At, From.Kelvins, To?.Kelvins);
        return sample with { Kelvins = kelvins, VapourPressurePa = sample.HumidityPct / 100 * SaturationPressure.OverWaterPa(kelvins) };
    }

    private double Between(DateTimeOffset at, double first, double? second) =>
        To is { } to && second is { } last && to.At > From.At ? first + ((last - first) * ((at - From.At) / (to.At - From.At))) : first;
}

/// <summary>What a probe measures of its air, or of its panel.</summary>
public enum Quantity
{
    /// <summary>Temperature, of the air or a panel.</summary>
    Temperature,

    /// <summary>Relative humidity.</summary>
    Humidity,
}

/// <summary>What speaks against a value that is repeated.</summary>
public enum StillReason
{
    /// <summary>Nothing but that it lasts far longer than this probe is used to.</summary>
    Unusual,

    /// <summary>The probe's other quantity moved: a temperature takes the humidity along, a humidity may move by itself.</summary>
    OtherMoved,

    /// <summary>A probe of something else moved, which would hardly have moved alone: a panel in this air, or the air around the panel.</summary>
    NeighbourMoved,

    /// <summary>Another probe of the same thing moved.</summary>
    TwinMoved,

    /// <summary>It ended in a jump: what lies between was not seen.</summary>
    Jumped,
}

/// <summary>The stretches in which one probe stood still, in order of their beginnings, few.</summary>
internal static class Stills
{
    /// <summary>More are put together, the oldest first: what lies between is not believed either. Source (choice).</summary>
    private const int Most = 32;

    public static Still? Open(this ImmutableArray<Still> stills, Quantity what)
    {
        for (int i = stills.Length - 1; i >= 0; i--)
        {
            if (stills[i].What == what && stills[i].To is null)
            {
                return stills[i];
            }
        }

        return null;
    }

    public static Still? Over(this ImmutableArray<Still> stills, Quantity what, DateTimeOffset from, DateTimeOffset to)
    {
        for (int i = stills.Length - 1; i >= 0; i--)
        {
            if (stills[i].What == what && stills[i].Covers(from, to))
            {
                return stills[i];
            }
        }

        return null;
    }

    public static ImmutableArray<Still> With(this ImmutableArray<Still> stills, Still still)
    {
        ImmutableArray<Still> all = stills.Add(still);
        if (all.Length <= Most)
        {
            return all;
        }

        int second = Enumerable.Range(1, all.Length - 1).FirstOrDefault(i => all[i].What == all[0].What && all[i].To is not null);
        return second > 0 ? all.RemoveAt(second).SetItem(0, all[0] with { To = all[second].To }) : all.RemoveAt(0);
    }
}
