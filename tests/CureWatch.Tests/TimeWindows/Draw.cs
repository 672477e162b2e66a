using CureWatch.Panels;
using CureWatch.Products;
using CureWatch.Psychrometrics;

namespace CureWatch.Tests.TimeWindows;

/// <summary>How far the probes may be off: ± limits, and the lag of a panel that is taken as the air [K, standard error].</summary>
internal sealed record Limits(double AirK, double HumidityPct, double PanelK, bool PanelIsMeasured)
{
    public static Limits Usual(bool panelIsMeasured) => new(0.3, 2, panelIsMeasured ? 0.5 : ClimateDoubt.LagK, panelIsMeasured);

    public ClimateDoubt Doubt => new(
        ClimateDoubt.VarianceOfLimit(AirK),
        ClimateDoubt.VarianceOfLimit(HumidityPct),
        PanelIsMeasured ? ClimateDoubt.VarianceOfLimit(PanelK) : PanelK * PanelK,
        PanelIsMeasured);
}

/// <summary>One state of the world: what the sheet's numbers and the probes' errors may really be, for a coat's whole life.</summary>
internal sealed record Draw(double Hours, double EnergyJmol, double Exponent, double AirErrorK, double HumidityErrorPct, double PanelErrorK, bool PanelIsMeasured)
{
    private const int Draws = 20_000;

    /// <summary>The 5th and 95th percentile of something over all draws (GUM supplement 1).</summary>
    public static (double Low, double High) Percentiles(StageFit fit, Limits limits, Func<Draw, double> ofDraw)
    {
        // One row in the sheet's own climate: its three numbers do not hang together.
        Assert.Equal(0, fit.Covariance.LnHoursEnergy + fit.Covariance.LnHoursExponent + fit.Covariance.EnergyExponent, 1e-9);
        var random = new Random(20260504);
        double[] drawn = [.. Enumerable.Range(0, Draws).Select(_ => ofDraw(From(fit, limits, random))).Order()];
        return (drawn[Draws / 20], drawn[Draws - (Draws / 20)]);
    }

    /// <summary>The rate in a climate as it really was where the probes told this one, worked out anew from the law's equation.</summary>
    public double RateIn(double airC, double humidityPct, double? panelC)
    {
        double air = airC + AirErrorK, panel = (PanelIsMeasured ? panelC!.Value : air) + PanelErrorK;
        double activity = (humidityPct + HumidityErrorPct) / 100 * SaturationPa(air) / SaturationPa(panel);
        return Math.Exp(EnergyJmol / 8.314462618 * ((1 / 293.15) - (1 / (panel + 273.15)))) * Math.Pow(Math.Clamp(activity, 0.05, 0.85) / 0.5, Exponent);
    }

    private static Draw From(StageFit fit, Limits limits, Random random) => new(
        Math.Exp(Math.Log(fit.ReferenceHours) + (Normal(random) * Math.Sqrt(fit.Covariance.LnHours))),
        fit.Law.ActivationEnergyJmol + (Normal(random) * Math.Sqrt(fit.Covariance.Energy)),
        fit.Law.HumidityExponent + (Normal(random) * Math.Sqrt(fit.Covariance.Exponent)),
        Within(random, limits.AirK),
        Within(random, limits.HumidityPct),
        limits.PanelIsMeasured ? Within(random, limits.PanelK) : Normal(random) * limits.PanelK,
        limits.PanelIsMeasured);

    private static double SaturationPa(double c) => SaturationPressure.OverWaterPa(c + 273.15);

    private static double Within(Random random, double limit) => limit * ((2 * random.NextDouble()) - 1);

    private static double Normal(Random random) =>
        Math.Sqrt(-2 * Math.Log(1 - random.NextDouble())) * Math.Cos(2 * Math.PI * random.NextDouble());
}
