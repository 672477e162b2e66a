namespace CureWatch.Forecasting;

/// <summary>How far what changes now goes on, and how calm a shut bay is.</summary>
/// <remarks>
/// Equation: a change c an hour counts w = c²/(c² + (2s)²), s what such a bay does without any cause, and goes on as c·w·τ(1 − e^(−h/τ)). Source (choice),
/// common practice without a source: doors, people and water make a bay restless by day; what moves at night while it is shut has a cause outdoors or in the
/// heating and goes on for hours, but for the first hours after lock-up, in which the heating goes back.
/// </remarks>
internal sealed class NightTrend
{
    private const double QuietK = 0.25, QuietLn = 0.02;
    private const double RestlessK = 1, RestlessLn = 0.08;
    private const double MostK = 1.5, MostLn = 0.12;
    private const double LastsHoursK = 0.9, LastsHoursLn = 2.9;
    private const double SettlingHours = 4;

    /// <summary>Bands come from whole days; at night they are this much of that [1].</summary>
    private const double CalmShare = 0.5;

    private readonly double _settled;
    private readonly double _leavesInHours;
    private readonly double _opensInHours;

    public NightTrend(AirNow now)
    {
        _leavesInHours = now.LeavesAt is { } leaves ? (leaves - now.At).TotalHours : double.PositiveInfinity;
        _opensInHours = now.OpensAt is { } opens ? (opens - now.At).TotalHours : double.PositiveInfinity;
        _settled = _leavesInHours > 0 ? 0 : Math.Clamp(((now.At - (now.LeftAt ?? now.At)).TotalHours / SettlingHours), 0, 1);
    }

    public double GoesOnKelvins(double change, double hours) => GoesOn(Math.Clamp(change, -MostK, MostK), RestlessK + (_settled * (QuietK - RestlessK)), LastsHoursK, hours);

    public double GoesOnLn(double change, double hours) => GoesOn(Math.Clamp(change, -MostLn, MostLn), RestlessLn + (_settled * (QuietLn - RestlessLn)), LastsHoursLn, hours);

    /// <summary>The share of a day's doubt that is left some hours ahead.</summary>
    public double CalmAt(double hours) => hours > _leavesInHours && hours < _opensInHours + 1 ? CalmShare + ((1 - CalmShare) * 0.5 * (1 - _settled)) : 1;

    private static double GoesOn(double change, double usual, double lasts, double hours)
    {
        double weight = change * change / ((change * change) + (4 * usual * usual));
        return change * weight * lasts * (1 - Math.Exp(-hours / lasts));
    }
}
