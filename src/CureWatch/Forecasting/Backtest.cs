using System.Collections.Immutable;
using CureWatch.Psychrometrics;

namespace CureWatch.Forecasting;

/// <summary>How good forecasts would have been over hours that are past, beside saying that all stays as it is.</summary>
/// <param name="Issued">How many forecasts were issued: one an hour, from the hour on at which a course through the day was known.</param>
/// <param name="Leads">How those of each lead turned out.</param>
public sealed record Backtest(int Issued, ImmutableArray<LeadScore> Leads)
{
    /// <summary>The longest lead [h].</summary>
    public const int LongestLead = 72;

    /// <summary>Runs the forecaster over the hours as they came.</summary>
    /// <param name="hours">The hours, in order, each once.</param>
    /// <param name="longest">The longest lead [h], 1 to <see cref="LongestLead"/>.</param>
    /// <returns>How it turned out.</returns>
    /// <exception cref="ArgumentOutOfRangeException">The lead is outside its range.</exception>
    public static Backtest Over(IEnumerable<HourMean> hours, int longest)
    {
        ArgumentNullException.ThrowIfNull(hours);
        if (longest is not (>= 1 and <= LongestLead))
        {
            throw new ArgumentOutOfRangeException(nameof(longest), longest, $"Expected 1 to {LongestLead} h.");
        }

        ClimateForecaster forecaster = ClimateForecaster.New([.. Enumerable.Range(1, longest)]);
        var temperature = new Tally(longest, kelvins => kelvins);
        var dewPoint = new Tally(longest, DewKelvins);
        int issued = 0;
        foreach (HourMean hour in hours)
        {
            temperature.Settle(forecaster.Kelvins, hour.Hour, hour.Kelvins);
            dewPoint.Settle(forecaster.LnVapourPressure, hour.Hour, hour.LnVapourPressure);
            forecaster = forecaster.Hear(hour);
            issued += forecaster.Kelvins.Course is null ? 0 : 1;
        }

        return new Backtest(
            issued, [.. Enumerable.Range(1, longest).Select(h => new LeadScore(h, temperature.ScoreAt(h), dewPoint.ScoreAt(h)))]);
    }

    private static double DewKelvins(double lnVapourPressure) =>
        DewPoint.OfPressure(Math.Clamp(Math.Exp(lnVapourPressure), DewPoint.LowestPressurePa, DewPoint.HighestPressurePa)).Kelvins;

    /// <param name="longest">The longest lead [h].</param>
    /// <param name="kelvinsOf">What is scored, of what is forecast.</param>
    private sealed class Tally(int longest, Func<double, double> kelvinsOf)
    {
        private readonly Sums[] _sums = new Sums[longest + 1];

        public void Settle(SeriesForecaster before, long hour, double value)
        {
            double kelvins = kelvinsOf(value);
            foreach (IssuedForecast issued in before.Pending.Where(p => p.HasCourse && p.Hour + longest >= hour))
            {
                int lead = (int)(hour - issued.Hour);
                IssuedLead said = issued.Leads[lead - 1];
                _sums[lead] = _sums[lead].With(
                    kelvins - kelvinsOf(said.Likely), kelvins - kelvinsOf(issued.Value), Math.Abs(value - said.Likely) <= said.HalfWidth80);
            }
        }

        public Score? ScoreAt(int lead) => _sums[lead].Score;
    }

    private readonly record struct Sums(int Count, double Squares, double PersistenceSquares, int Inside)
    {
        public Score? Score => Count == 0
            ? null
            : new Score(Math.Sqrt(Squares / Count), Math.Sqrt(PersistenceSquares / Count), Inside / (double)Count);

        public Sums With(double error, double persistenceError, bool isInside) => new(
            Count + 1,
            Squares + (error * error),
            PersistenceSquares + (persistenceError * persistenceError),
            Inside + (isInside ? 1 : 0));
    }
}

/// <summary>How the forecasts of one lead turned out.</summary>
/// <param name="Hours">The lead [h].</param>
/// <param name="Temperature">Those of the air temperature; null where none has turned out.</param>
/// <param name="DewPoint">Those of the dew point; null where none has turned out.</param>
public sealed record LeadScore(int Hours, Score? Temperature, Score? DewPoint);

/// <summary>How forecasts of one thing turned out.</summary>
/// <param name="RmseK">Root of their mean squared error [K].</param>
/// <param name="PersistenceRmseK">The same for saying that all stays as it is [K].</param>
/// <param name="Coverage80">The share of truths inside the 80 % band [1].</param>
public sealed record Score(double RmseK, double PersistenceRmseK, double Coverage80);
