using System.Globalization;

namespace CureWatch.Service.Settings;

/// <summary>The numbers a place allows. NaN is in no range.</summary>
internal readonly record struct NumberRange
{
    private readonly double min;
    private readonly double max;
    private readonly bool open;
    private readonly string unit;

    private NumberRange(double min, double max, bool open, string unit) => (this.min, this.max, this.open, this.unit) = (min, max, open, unit);

    /// <summary>Both ends belong to the range.</summary>
    public static NumberRange From(double min, double max, string unit) => new(min, max, open: false, unit);

    /// <summary>Neither end belongs to the range.</summary>
    public static NumberRange Between(double min, double max, string unit) => new(min, max, open: true, unit);

    public bool Holds(double value) => open ? value > min && value < max : value >= min && value <= max;

    public override string ToString()
    {
        string ends = open ? $"above {Text(min)}, below {Text(max)}" : $"{Text(min)} to {Text(max)}";
        return $"a number {ends} {unit}".TrimEnd();
    }

    private static string Text(double value) => value.ToString(CultureInfo.InvariantCulture);
}
