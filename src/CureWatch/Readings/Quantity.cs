namespace CureWatch.Readings;

/// <summary>What a probe measures of its air, or of its panel.</summary>
public enum Quantity
{
    /// <summary>Temperature, of the air or a panel.</summary>
    Temperature,

    /// <summary>Relative humidity.</summary>
    Humidity,
}
