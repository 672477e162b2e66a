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
    public bool MayBeBorneOut => Why is StillReason.Unusual or StillReason.Suspected || (Why == StillReason.OtherMoved && What == Quantity.Temperature);

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
