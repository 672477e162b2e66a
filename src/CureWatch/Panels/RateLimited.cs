using CureWatch.Units;

namespace CureWatch.Panels;

/// <summary>What a temperature may have been around readings of it, given how fast it can change.</summary>
/// <remarks>
/// Equation: v0 − r·s ≤ v ≤ v0 + r·s with s the time from the first reading, and likewise back from the second one, g later. Source
/// (choice): the rate r is that of a bay with its doors shut; where the second reading is out of its reach, a door stood open and r
/// doubles; where it is still out of reach there was a step at an unknown instant, and v is within reach of either reading. −20 and 40 °C
/// stop the envelope unless a reading lies beyond.
/// </remarks>
internal readonly struct RateLimited
{
    private const double FloorKelvins = Celsius.KelvinsAtZero - 20;
    private const double CeilingKelvins = Celsius.KelvinsAtZero + 40;
    private const double DoorFactor = 2;

    private readonly DateTimeOffset _start;
    private readonly double _from;
    private readonly double _to;
    private readonly double? _length;
    private readonly double _rate;
    private readonly bool _isStep;

    /// <summary>Takes the readings.</summary>
    /// <param name="bracket">When they were taken.</param>
    /// <param name="fromKelvins">The first [K].</param>
    /// <param name="toKelvins">The second [K].</param>
    /// <param name="ratePerHour">How fast it changes at most [K/h], above 0.</param>
    public RateLimited(Bracket bracket, double fromKelvins, double toKelvins, double ratePerHour)
    {
        _start = bracket.From;
        _from = fromKelvins;
        _to = bracket.To is null ? fromKelvins : toKelvins;
        _length = (bracket.To - bracket.From)?.TotalHours;
        double far = Math.Abs(_to - _from);
        _rate = far > ratePerHour * _length ? DoorFactor * ratePerHour : ratePerHour;
        _isStep = far > _rate * _length;
    }

    /// <summary>The temperature around readings, which moves no faster than <see cref="BayDrift"/> says, or a share of that.</summary>
    public static RateLimited Temperature(Bracket bracket, double share = 1) => new(bracket, bracket.FromKelvins, bracket.ToKelvins, share * BayDrift.TemperatureKPerHour);

    /// <summary>The dew point around readings, which moves no faster than <see cref="BayDrift"/> says, or a share of that.</summary>
    public static RateLimited DewPoint(Bracket bracket, double share = 1) =>
        new(bracket, DewKelvins(bracket.FromVapourPressurePa), DewKelvins(bracket.ToVapourPressurePa), share * BayDrift.DewPointKPerHour);

    private static double DewKelvins(double vapourPressurePa) => Psychrometrics.DewPoint.OfPressure(vapourPressurePa).Kelvins;

    /// <summary>What it may have been at an instant.</summary>
    /// <param name="at">The instant.</param>
    /// <returns>The least and the most [K].</returns>
    public (double Low, double High) At(DateTimeOffset at)
    {
        double hours = (at - _start).TotalHours;
        double reach = _rate * Math.Abs(hours);
        (double low, double high) = (_from - reach, _from + reach);
        if (_length is { } length)
        {
            double back = _rate * Math.Abs(length - hours);
            (low, high) = _isStep
                ? (Math.Min(low, _to - back), Math.Max(high, _to + back))
                : (Math.Max(low, _to - back), Math.Min(high, _to + back));
        }

        return (Math.Max(low, Math.Min(FloorKelvins, Math.Min(_from, _to))), Math.Min(high, Math.Max(CeilingKelvins, Math.Max(_from, _to))));
    }

    /// <summary>The instants at which an end of the envelope turns.</summary>
    /// <param name="turns">Where they are put, in any order, some of them outside the readings.</param>
    public void AddTurns(List<DateTimeOffset> turns)
    {
        turns.Add(After((CeilingKelvins - _from) / _rate));
        turns.Add(After((_from - FloorKelvins) / _rate));
        if (_length is { } length)
        {
            double half = length / 2, lean = (_to - _from) / (2 * _rate);
            turns.Add(After(half + lean));
            turns.Add(After(half - lean));
            turns.Add(After(length - ((CeilingKelvins - _to) / _rate)));
            turns.Add(After(length - ((_to - FloorKelvins) / _rate)));
        }
    }

    private DateTimeOffset After(double hours) => _start + TimeSpan.FromHours(hours);
}
