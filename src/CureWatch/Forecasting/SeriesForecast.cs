using System.Collections.Immutable;

namespace CureWatch.Forecasting;

/// <summary>What is expected of one thing from an instant on.</summary>
/// <param name="Hour">The instant, in hours since 1970-01-01T00:00Z as means of hours are counted.</param>
/// <param name="Value">What is measured at it.</param>
/// <param name="ChangeOfDeparture">How its departure from its usual course changed over the last hour; 0 where nobody knows.</param>
/// <param name="Course">Its usual course through the day; null where that is not known, and the present value is held.</param>
/// <param name="Leads">What is known of the leads, the shortest first.</param>
/// <remarks>
/// Equation: ŷ(t + h) = (1 − w)(course(t + h) + what is left of y − course(t)) + w y. Between two leads what is known of them is taken straight between
/// them, within the first from nothing at the present; beyond the last it stays.
/// </remarks>
public sealed record SeriesForecast(
    double Hour, double Value, double ChangeOfDeparture, DailyCourse? Course, ImmutableArray<LeadOutlook> Leads)
{
    /// <summary>The likely value.</summary>
    /// <param name="ahead">How far ahead [h], 0 or more.</param>
    /// <returns>The value.</returns>
    public double LikelyAt(double ahead) => Mixed(ModelAt(ahead), KnownAt(ahead).PersistenceShare);

    /// <summary>How far either side of the likely value the truth lies in 80 and in 90 % of the cases.</summary>
    /// <param name="ahead">How far ahead [h], 0 or more.</param>
    /// <returns>The half-widths.</returns>
    public (double Of80, double Of90) HalfWidthsAt(double ahead)
    {
        LeadOutlook known = KnownAt(ahead);
        double grown = ahead < Leads[0].Hours ? ahead / Leads[0].Hours : 1;
        return (known.HalfWidth80 * grown, known.HalfWidth90 * grown);
    }

    /// <summary>What the course and the present departure from it say, without persistence.</summary>
    /// <param name="ahead">How far ahead [h], 0 or more.</param>
    /// <returns>The value.</returns>
    public double ModelAt(double ahead) => Course is null
        ? Value
        : Course.At(Hour + ahead) + Course.Left(Value - Course.At(Hour), ChangeOfDeparture, ahead);

    /// <summary>What it says of each of its leads, whole hours: what is left of a departure is followed once for all of them.</summary>
    /// <returns>What it says, the shortest lead first.</returns>
    internal ImmutableArray<IssuedLead> AtItsLeads()
    {
        var said = ImmutableArray.CreateBuilder<IssuedLead>(Leads.Length);
        (double left, double change) = (Course is null ? 0 : Value - Course.At(Hour), ChangeOfDeparture);
        int hours = 0;
        foreach (LeadOutlook lead in Leads)
        {
            for (; Course is not null && hours < lead.Hours; hours++)
            {
                (left, change) = Course.AnHourOn(left, change);
            }

            double model = Course is null ? Value : Course.At(Hour + lead.Hours) + left;
            said.Add(new IssuedLead(model, Mixed(model, lead.PersistenceShare), lead.HalfWidth80, lead.HalfWidth90));
        }

        return said.MoveToImmutable();
    }

    private double Mixed(double model, double share) => ((1 - share) * model) + (share * Value);

    private LeadOutlook KnownAt(double ahead)
    {
        int next = 0;
        while (next < Leads.Length && Leads[next].Hours < ahead)
        {
            next++;
        }

        if (next == 0 || next == Leads.Length)
        {
            return Leads[Math.Min(next, Leads.Length - 1)];
        }

        (LeadOutlook before, LeadOutlook after) = (Leads[next - 1], Leads[next]);
        return before.Towards(after, (ahead - before.Hours) / (after.Hours - before.Hours));
    }
}

/// <summary>What is known of forecasts of one lead.</summary>
/// <param name="Hours">The lead [h].</param>
/// <param name="PersistenceShare">The share of persistence that is mixed in [1], 0 to 1.</param>
/// <param name="HalfWidth80">Half-width of the 80 % band.</param>
/// <param name="HalfWidth90">Half-width of the 90 % band.</param>
/// <remarks>The default is a lead of no time, which is always right.</remarks>
public readonly record struct LeadOutlook(double Hours, double PersistenceShare, double HalfWidth80, double HalfWidth90)
{
    internal LeadOutlook Towards(LeadOutlook other, double share) => new(
        Hours + ((other.Hours - Hours) * share),
        PersistenceShare + ((other.PersistenceShare - PersistenceShare) * share),
        HalfWidth80 + ((other.HalfWidth80 - HalfWidth80) * share),
        HalfWidth90 + ((other.HalfWidth90 - HalfWidth90) * share));
}
