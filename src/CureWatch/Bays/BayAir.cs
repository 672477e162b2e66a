using System.Collections.Immutable;
using CureWatch.Panels;
using CureWatch.Psychrometrics;
using CureWatch.Readings;

namespace CureWatch.Bays;

/// <summary>The worst the believed probes in one air of a bay say at present: the wettest air, the driest, the coldest panel.</summary>
/// <param name="HumidityMaxPct">Highest relative humidity [%].</param>
/// <param name="HumidityMinPct">Lowest relative humidity [%].</param>
/// <param name="CondensationKelvins">Highest condensation temperature [K].</param>
/// <param name="ColdestKelvins">
/// Coldest panel, measured or modelled under an open coat, and the coldest air where no panel is measured [K]; where a panel probe is silent that nobody
/// waits for any more, the coldest that panel may be under an open coat; null where one is missing without such a coat, and none of the others is wet.
/// </param>
/// <param name="IsPanelMeasured">Whether a panel probe measures.</param>
/// <param name="Wettest">What the air probe says whose air holds most water.</param>
/// <param name="WettestProbe">That probe.</param>
/// <param name="ColdestProbe">The probe of the coldest panel; null where no panel probe is heard, or the coldest is a modelled one.</param>
/// <param name="ModelLagKelvins">How far the coldest panel is from its air where it is modelled [K, at least 1]; else null.</param>
public sealed record BayAir(
    double HumidityMaxPct,
    double HumidityMinPct,
    double CondensationKelvins,
    double? ColdestKelvins,
    bool IsPanelMeasured,
    Sample Wettest,
    Probe WettestProbe,
    Probe? ColdestProbe,
    double? ModelLagKelvins)
{
    /// <summary>The coldest that was heard, whether one is missing beside it or not; infinite where nothing was [K].</summary>
    private double HeardKelvins { get; init; }

    /// <summary>How far the coldest panel is at or below the condensation temperature [K]; below 0 where it is dry, null where unknown.</summary>
    /// <remarks>Edges: saturated air is at its own condensation temperature, which is found to a millionth of a kelvin.</remarks>
    public double? WetByKelvins => CondensationKelvins - ColdestKelvins is { } difference ? Math.Round(difference, 6) : null;

    /// <summary>Looks at a bay, or at a place in it that has its own air.</summary>
    /// <param name="present">The shop at its present.</param>
    /// <param name="bay">The bay, with the probes and climates it has in that shop.</param>
    /// <param name="place">The place that stands for the air.</param>
    /// <returns>The air; null where no air probe was heard in time.</returns>
    public static BayAir? Of(Present present, BayState bay, Place place) => Measured(bay, place, present.Now) switch
    {
        { } air when !bay.Open.IsEmpty && IsOver(place, bay.Open) => air.With(ColdestModelled(present, bay, place)),
        var air => air,
    };

    private static bool IsOver(Place place, ImmutableArray<OpenCoats> coats) => coats.Any(o => o.Point.Air == place);

    /// <summary>Looks at a bay, and models no panel.</summary>
    /// <param name="bay">The bay.</param>
    /// <param name="place">The place that stands for the air.</param>
    /// <param name="now">The present.</param>
    /// <returns>The air as it is measured; null where no air probe was heard in time.</returns>
    internal static BayAir? Measured(BayState bay, Place place, DateTimeOffset now)
    {
        double humidityMax = 0, humidityMin = 100;
        Sample wettest = default;
        Probe? wettestProbe = null, coldestProbe = null;
        double coldestAir = double.PositiveInfinity, coldestPanel = double.PositiveInfinity;
        bool isPanelMeasured = false, isPanelMissing = false;
        for (int i = 0; i < bay.Logs.Length; i++)
        {
            if (!HeardIn.Tells(bay, i, place, now))
            {
                continue;
            }

            ProbeMount mount = bay.Plan.Probes[i];
            if (HeardIn.Air(bay, i, now) is { } air)
            {
                humidityMax = Math.Max(humidityMax, air.HumidityPct);
                humidityMin = Math.Min(humidityMin, air.HumidityPct);
                (wettest, wettestProbe) = air.VapourPressurePa > wettest.VapourPressurePa ? (air, mount.Probe) : (wettest, wettestProbe);
                coldestAir = Math.Min(coldestAir, air.Kelvins);
            }

            if (bay.Logs[i].Panel.Count > 0 && !HeardIn.IsUnderLamp(bay, i, now))
            {
                isPanelMeasured = true;
                Sample? panel = HeardIn.Panel(bay, i, now);
                isPanelMissing |= panel is null;
                (coldestPanel, coldestProbe) = panel?.Kelvins < coldestPanel ? (panel.Value.Kelvins, mount.Probe) : (coldestPanel, coldestProbe);
            }
        }

        if (wettestProbe is null)
        {
            return null;
        }

        double coldest = isPanelMeasured ? coldestPanel : coldestAir;
        double condensationKelvins = CondensationTemperature.OfPressure(wettest.VapourPressurePa).Kelvins;
        return new BayAir(
            humidityMax,
            humidityMin,
            condensationKelvins,
            double.IsPositiveInfinity(coldest) || (isPanelMissing && coldest > condensationKelvins) ? null : coldest,
            isPanelMeasured,
            wettest,
            wettestProbe,
            coldestProbe,
            ModelLagKelvins: null)
        {
            HeardKelvins = coldest,
        };
    }

    /// <summary>The air under open coats: of those whose panel no probe measures, it is known what the coldest may be.</summary>
    private BayAir With(Exposure? modelled)
    {
        Exposure? coldest = modelled?.PanelKelvins < HeardKelvins ? modelled : null;
        double kelvins = coldest?.PanelKelvins ?? HeardKelvins;
        return this with
        {
            ColdestKelvins = double.IsPositiveInfinity(kelvins) ? null : kelvins,
            ColdestProbe = coldest is null ? ColdestProbe : null,
            ModelLagKelvins = coldest is { } lagging ? Math.Max(ClimateDoubt.LagK, Math.Abs(lagging.PanelKelvins - lagging.AirKelvins)) : null,
        };
    }

    /// <summary>The coldest surface with an open coat that no probe measures, at its worst where one did and is silent; null where there is none.</summary>
    private static Exposure? ColdestModelled(Present present, BayState bay, Place place)
    {
        Exposure? coldest = null;
        WatchPoint? before = null;
        foreach (OpenCoats open in bay.Open)
        {
            if (open.Point.Air != place || open.Point == before || !bay.Climates.ContainsKey(open.Point))
            {
                continue;
            }

            before = open.Point;
            Watch watch = present.WatchAt(before);
            bool isGivenUp = watch.GivenUp(present.Now).Any();
            if ((isGivenUp || !watch.TellsPanelAt(present.Now)) && present.NewestAt(before) is { } newest)
            {
                Exposure worst = isGivenUp ? newest.Alternatives.Select(a => a.AtEnd).Append(newest.AtEnd).MinBy(e => e.PanelKelvins) : newest.AtEnd;
                coldest = worst.PanelKelvins >= coldest?.PanelKelvins ? coldest : worst;
            }
        }

        return coldest;
    }
}
