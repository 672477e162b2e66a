using System.Globalization;

namespace CureWatch.Service.Settings;

/// <summary>The numbers a place allows. NaN is in no range.</summary>
internal readonly record struct NumberRange
{
    private readonly double _min;
    private readonly double _max;
    private readonly bool _open;
    private readonly string _unit;

    private NumberRange(double min, double max, bool open, string unit) => (_min, _max, _open, _unit) = (min, max, open, unit);

    /// <summary>Both ends belong to the range.</summary>
    public static NumberRange From(double min, double max, string unit) => new(min, max, open: false, unit);

    /// <summary>Neither end belongs to the range.</summary>
    public static NumberRange Between(double min, double max, string unit) => new(min, max, open: true, unit);

    public bool Holds(double value) => _open ? value > _min && value < _max : value >= _min && value <= _max;

    public override string ToString()
    {
        string ends = _open ? $"above {Text(_min)}, below {Text(_max)}" : $"{Text(_min)} to {Text(_max)}";
        return $"a number {ends} {_unit}".TrimEnd();
    }

    private static string Text(double value) => value.ToString(CultureInfo.InvariantCulture);
}
