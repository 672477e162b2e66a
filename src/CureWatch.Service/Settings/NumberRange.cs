using CureWatch.Words;

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

    /// <summary>The same range in degrees Fahrenheit.</summary>
    /// <param name="zero">What 0 is there: 32 for temperatures, 0 for differences of them.</param>
    public NumberRange InFahrenheit(double zero) => new((_min * Units.Fahrenheit.PerKelvin) + zero, (_max * Units.Fahrenheit.PerKelvin) + zero, _open, "°F");

    public bool Holds(double value) => _open ? value > _min && value < _max : value >= _min && value <= _max;

    /// <summary>The range for people.</summary>
    public Sentence Words
    {
        get
        {
            Sentence range = _open ? (Sentence)$"a number above {_min:0.######}, below {_max:0.######}" : $"a number {_min:0.######} to {_max:0.######}";
            return _unit.Length == 0 ? range : $"{range} {_unit}";
        }
    }
}
