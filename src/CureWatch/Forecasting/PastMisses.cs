namespace CureWatch.Forecasting;

/// <summary>How forecasts issued around the same time of day missed.</summary>
/// <remarks>
/// What goes together in a bay missed together: air, moisture and panel are taken from one forecast, over all its leads. Source (choice): the weights.
/// </remarks>
internal sealed class PastMisses
{
    /// <summary>Nights count half after so many days.</summary>
    private const double HalfLifeDays = 5;

    /// <summary>Forecasts issued within so many hours of the same time of day tell of it.</summary>
    private const int HoursAround = 2;

    private const int HoursPerDay = 24;
    private readonly int[] _leads;
    private readonly double[][] _kelvins;
    private readonly double[][] _ln;
    private readonly double[][] _panel;
    private readonly long _first;
    private readonly long _panelFirst;
    private readonly double _hour;
    private readonly long _courseFrom;

    public PastMisses(ClimateForecaster known, bool hasPanel, double hour)
    {
        _leads = [.. known.Kelvins.Leads.Select(l => l.Lead).Where(l => l <= HoursPerDay)];
        int[] places = [.. Enumerable.Range(0, _leads.Length)];
        _kelvins = [.. places.Select(known.Kelvins.ErrorsOf)];
        _ln = [.. places.Select(known.LnVapourPressure.ErrorsOf)];
        _panel = hasPanel ? [.. places.Select(known.Panel.ErrorsOf)] : [];
        _first = known.Kelvins.Past[0].Hour;
        _panelFirst = hasPanel ? known.Panel.Past[0].Hour : 0;
        _hour = hour;
        bool isWhole = known.Kelvins.Past[^1].Hour - _first >= DailyCourse.Window - HoursPerDay;
        _courseFrom = isWhole ? _first : _first + DailyCourse.LeastSpan;
    }

    public IEnumerable<Miss> All()
    {
        for (int day = 1; day * HoursPerDay <= DailyCourse.Window; day++)
        {
            for (int apart = -HoursAround; apart <= HoursAround; apart++)
            {
                long issued = (long)Math.Round(_hour) - (day * HoursPerDay) + apart;
                if (issued >= _courseFrom && Of(issued, Weight(day, apart)) is { } miss)
                {
                    yield return miss;
                }
            }
        }
    }

    private static double Weight(int day, int apart) =>
        Math.Pow(0.5, day / HalfLifeDays) * (HoursAround + 1 - Math.Abs(apart)) / ((HoursAround + 1) * (HoursAround + 1));

    private Miss? Of(long issued, double weight)
    {
        var at = new (double Hours, double K, double Ln, double Panel)[_leads.Length + 1];
        int known = 1;
        for (int i = 0; i < _leads.Length; i++)
        {
            double k = At(_kelvins[i], issued - _first), ln = At(_ln[i], issued - _first);
            double panel = _panel.Length > 0 ? At(_panel[i], issued - _panelFirst) : 0;
            if (double.IsNaN(k) || double.IsNaN(ln) || double.IsNaN(panel))
            {
                break;
            }

            at[known++] = (_leads[i], k, ln, panel);
        }

        return known > _leads.Length / 2 ? new Miss(weight, at[..known]) : null;
    }

    private static double At(double[] errors, long index) => index >= 0 && index < errors.Length ? errors[index] : double.NaN;
}

/// <summary>How one forecast missed; beyond its last lead it goes on missing as much.</summary>
internal readonly record struct Miss(double Weight, (double Hours, double K, double Ln, double Panel)[] Leads)
{
    public (double K, double Ln, double Panel) At(double hours)
    {
        int next = 1;
        while (next < Leads.Length && Leads[next].Hours < hours)
        {
            next++;
        }

        (double Hours, double K, double Ln, double Panel) last = Leads[^1];
        if (next == Leads.Length)
        {
            return (last.K, last.Ln, last.Panel);
        }

        (double Hours, double K, double Ln, double Panel) a = Leads[next - 1], b = Leads[next];
        double share = (hours - a.Hours) / (b.Hours - a.Hours);
        return (a.K + (share * (b.K - a.K)), a.Ln + (share * (b.Ln - a.Ln)), a.Panel + (share * (b.Panel - a.Panel)));
    }
}
