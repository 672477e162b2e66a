namespace CureWatch.Units;

/// <summary>Relative humidity over liquid water, at every temperature (the convention of WMO and of capacitive sensors).</summary>
/// <remarks>The default is 0 %, which the constructor refuses: bone-dry air has no dew point.</remarks>
public readonly record struct RelativeHumidity
{
    /// <summary>Takes a relative humidity.</summary>
    /// <param name="percent">Relative humidity [%], above 0, up to 100.</param>
    /// <exception cref="ArgumentOutOfRangeException">The humidity is outside its range, NaN included.</exception>
    public RelativeHumidity(double percent)
    {
        if (percent is not (> 0 and <= 100))
        {
            throw new ArgumentOutOfRangeException(nameof(percent), percent, "Expected above 0, up to 100 %.");
        }

        Percent = percent;
    }

    /// <summary>Relative humidity [%].</summary>
    public double Percent { get; }

    /// <summary>Relative humidity [1], the water activity over the air.</summary>
    public double Fraction => Percent / 100;

    /// <inheritdoc/>
    public override string ToString() => $"{Percent:0.##} %";
}
