using CureWatch.Panels;
using CureWatch.Planning;
using CureWatch.Psychrometrics;
using CureWatch.Readings;
using CureWatch.Units;

namespace CureWatch.Bays;

/// <summary>Looks up what a bay was like in the hours that are to come, on the two days it remembers.</summary>
internal static class NightLook
{
    private static readonly TimeSpan Day = TimeSpan.FromDays(1);

    /// <summary>
    /// How far ahead it looks at most: of the day before, what is younger than six hours is this day's work, a cold car and a wash, and no night.
    /// Source (choice).
    /// </summary>
    private static readonly TimeSpan Longest = TimeSpan.FromHours(18);

    /// <param name="bay">The bay.</param>
    /// <param name="place">The place that stands for the air.</param>
    /// <param name="now">The present.</param>
    /// <param name="ahead">How far ahead the hours reach; null for as far as it looks.</param>
    /// <returns>The worst of them; null where nobody measured then.</returns>
    public static HoursBefore? Of(BayState bay, Place place, DateTimeOffset now, TimeSpan? ahead)
    {
        TimeSpan span = ahead < Longest ? ahead.Value : Longest;
        HoursBefore? worst = null;
        for (int i = 0; i < bay.Logs.Length; i++)
        {
            if (bay.Plan.Probes[i] is not { Probe.Measures: Measures.Air } mount || PlaceAir.Of(mount.Place) != place)
            {
                continue;
            }

            Trail<Sample> air = bay.Logs[i].Air;
            for (int days = 2; days >= 1; days--)
            {
                DateTimeOffset from = now - (days * Day), to = from + span;
                for (int s = air.CountWhile(a => a.At < from); s < air.Count && air[s].At <= to; s++)
                {
                    worst = Worse(worst, air[s], ColdestPanel(bay, place, air[s].At) ?? air[s].Kelvins);
                }
            }
        }

        return worst;
    }

    private static HoursBefore Worse(HoursBefore? worst, Sample air, double panelKelvins)
    {
        double panelC = Celsius.FromKelvins(panelKelvins).Degrees;
        double spreadK = panelKelvins - CondensationTemperature.OfPressure(air.VapourPressurePa).Kelvins;
        var here = new HoursBefore(panelC, air.At, spreadK, air.At);
        if (worst is null)
        {
            return here;
        }

        HoursBefore colder = panelC < worst.ColdestC ? worst with { ColdestC = panelC, ColdestAt = air.At } : worst;
        return spreadK < colder.LeastSpreadK ? colder with { LeastSpreadK = spreadK, LeastSpreadAt = air.At } : colder;
    }

    private static double? ColdestPanel(BayState bay, Place place, DateTimeOffset at)
    {
        double? coldest = null;
        for (int i = 0; i < bay.Logs.Length; i++)
        {
            Trail<Sample> panel = bay.Logs[i].Panel;
            int before = panel.Count == 0 || PlaceAir.Of(bay.Plan.Probes[i].Place) != place ? 0 : panel.CountWhile(p => p.At <= at);
            if (before > 0 && !Source.IsGapForCure(at - panel[before - 1].At, bay.Plan.Probes[i].Probe.Every) && !(coldest <= panel[before - 1].Kelvins))
            {
                coldest = panel[before - 1].Kelvins;
            }
        }

        return coldest;
    }
}
