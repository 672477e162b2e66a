using System.Collections.Immutable;

namespace CureWatch.Forecasting;

/// <summary>Forecasts one thing by its hourly means, and keeps the account of how its forecasts turn out.</summary>
/// <param name="AssumedDeviation">How far it strays in the long run where nothing is known yet, in its own unit.</param>
/// <param name="Past">The hours of the last fourteen days, in order.</param>
/// <param name="Course">Its course through the day; null while too little is known.</param>
/// <param name="Leads">The account of each lead, the shortest first.</param>
/// <param name="Outlooks">What those accounts promise of the next forecast, which holds for an hour.</param>
/// <param name="Pending">Forecasts that have not turned out yet, the oldest first.</param>
public sealed record SeriesForecaster(
    double AssumedDeviation,
    ImmutableArray<HourValue> Past,
    DailyCourse? Course,
    ImmutableArray<LeadRecord> Leads,
    ImmutableArray<LeadOutlook> Outlooks,
    ImmutableArray<IssuedForecast> Pending)
{
    /// <summary>Share of an assumed departure that is left after an hour [1]. Source (choice): a bay drifts for a day and a half.</summary>
    private const double AssumedPersistence = 0.97;

    /// <summary>A forecaster that has heard nothing.</summary>
    /// <param name="assumedDeviation">How far the thing strays in the long run, in its own unit.</param>
    /// <param name="leads">The leads to keep account of [h], rising.</param>
    /// <returns>The forecaster.</returns>
    public static SeriesForecaster New(double assumedDeviation, ImmutableArray<int> leads) =>
        new SeriesForecaster(assumedDeviation, [], null, [], [], []).Trusting([.. leads.Select(LeadRecord.New)]);

    /// <summary>Takes in an hour's mean: settles the forecasts for it, and issues new ones from it.</summary>
    /// <param name="mean">The hour, after every hour heard before.</param>
    /// <returns>The forecaster after it.</returns>
    public SeriesForecaster Hear(HourValue mean)
    {
        ImmutableArray<HourValue> past = [.. Past.AsSpan()[CountBefore(mean.Hour - DailyCourse.Window + 1)..], mean];
        SeriesForecaster heard = Trusting(Settled(mean)) with { Past = past, Course = DailyCourse.Fit(past.AsSpan()) };
        return heard with { Pending = [.. Pending.AsSpan()[IssuedBefore(mean.Hour - Leads[^1].Lead + 1)..], heard.Issue(mean)] };
    }

    /// <summary>What is expected from an instant on.</summary>
    /// <param name="hour">The instant, in hours since 1970-01-01T00:00Z as means of hours are counted.</param>
    /// <param name="value">What is measured at it.</param>
    /// <returns>The forecast.</returns>
    public SeriesForecast From(double hour, double value) => new(hour, value, ChangeUntil(hour, value), Course, Outlooks);

    private SeriesForecaster Trusting(ImmutableArray<LeadRecord> leads) =>
        this with { Leads = leads, Outlooks = [.. leads.Select(l => l.Promise(AssumedAt(l.Lead)))] };

    /// <summary>By how much the forecasts issued at each past hour missed, for one lead.</summary>
    /// <param name="lead">Which lead, by its place among the leads.</param>
    /// <returns>What happened less what was forecast, by the hour it was issued, counted from the first of <see cref="Past"/>; NaN where nothing turned out.</returns>
    /// <remarks>The account of a lead has no hours: they are those that had another the lead before them.</remarks>
    internal double[] ErrorsOf(int lead)
    {
        if (Past.IsEmpty)
        {
            return [];
        }

        long first = Past[0].Hour;
        var errors = new double[Past[^1].Hour - first + 1];
        Array.Fill(errors, double.NaN);
        var isHeard = new bool[errors.Length];
        foreach (HourValue hour in Past)
        {
            isHeard[hour.Hour - first] = true;
        }

        LeadRecord record = Leads[lead];
        int ahead = record.Lead, left = record.Told.Count;
        for (long issued = errors.Length - 1 - ahead; issued >= 0 && left > record.First; issued--)
        {
            if (isHeard[issued] && isHeard[issued + ahead])
            {
                errors[issued] = record.Told[--left].Error;
            }
        }

        return errors;
    }

    /// <summary>Since the mean of the hour before: the last one heard that lies half an hour back or more, and two at most.</summary>
    private double ChangeUntil(double hour, double value)
    {
        for (int i = Past.Length - 1; i >= 0 && Course is not null && hour - Past[i].Hour <= 2; i--)
        {
            if (hour - Past[i].Hour >= 0.5)
            {
                return (value - Course.At(hour) - (Past[i].Value - Course.At(Past[i].Hour))) / (hour - Past[i].Hour);
            }
        }

        return 0;
    }

    private double AssumedAt(int lead) => AssumedDeviation * Math.Sqrt(1 - Math.Pow(AssumedPersistence, 2 * lead));

    private IssuedForecast Issue(HourValue mean) =>
        new IssuedForecast(mean.Hour, mean.Value, Course is not null, From(mean.Hour, mean.Value).AtItsLeads());

    private ImmutableArray<LeadRecord> Settled(HourValue mean)
    {
        ImmutableArray<LeadRecord>.Builder leads = Leads.ToBuilder();
        for (int i = 0; i < leads.Count; i++)
        {
            long hour = mean.Hour - leads[i].Lead;
            if (IssuedBefore(hour) is var place && place < Pending.Length && Pending[place] is { } issued && issued.Hour == hour)
            {
                IssuedLead said = issued.Leads[i];
                var matured = new Matured(mean.Value - said.Model, issued.Value - said.Model, mean.Value - said.Likely);
                leads[i] = leads[i].With(matured, said.HalfWidth80, said.HalfWidth90);
            }
        }

        return leads.MoveToImmutable();
    }

    private int CountBefore(long hour)
    {
        int count = 0;
        while (count < Past.Length && Past[count].Hour < hour)
        {
            count++;
        }

        return count;
    }

    /// <summary>How many of the pending forecasts were issued before an hour: one an hour where none is missing.</summary>
    private int IssuedBefore(long hour)
    {
        int count = (int)Math.Clamp(hour - (Pending.IsEmpty ? hour : Pending[0].Hour), 0, Pending.Length);
        while (count > 0 && Pending[count - 1].Hour >= hour)
        {
            count--;
        }

        return count;
    }
}

/// <summary>What was forecast at an hour.</summary>
/// <param name="Hour">The hour it was issued at.</param>
/// <param name="Value">What was measured then.</param>
/// <param name="HasCourse">Whether a course through the day was known then.</param>
/// <param name="Leads">What was said of each lead.</param>
public sealed record IssuedForecast(long Hour, double Value, bool HasCourse, ImmutableArray<IssuedLead> Leads);

/// <summary>What was forecast for one lead.</summary>
/// <param name="Model">What the course and the present departure said.</param>
/// <param name="Likely">What was forecast.</param>
/// <param name="HalfWidth80">Half-width of its 80 % band.</param>
/// <param name="HalfWidth90">Half-width of its 90 % band.</param>
/// <remarks>The default is a forecast of zero.</remarks>
public readonly record struct IssuedLead(double Model, double Likely, double HalfWidth80, double HalfWidth90);
