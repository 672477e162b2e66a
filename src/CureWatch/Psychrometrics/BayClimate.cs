using CureWatch.Units;

namespace CureWatch.Psychrometrics;

/// <summary>The climate of a bay at one instant, with all that follows from it.</summary>
public sealed record BayClimate
{
    /// <summary>Works out a climate.</summary>
    /// <param name="air">Air temperature [°C], −60 to 80.</param>
    /// <param name="humidity">Relative humidity over liquid water [%], above 0, up to 100; below 1 taken as 1.</param>
    /// <param name="panel">Panel temperature [°C], −60 to 100; null where none is known.</param>
    /// <param name="pressurePa">Air pressure [Pa], 50 000 to 110 000.</param>
    /// <exception cref="ArgumentOutOfRangeException">An input is outside its range, NaN included.</exception>
    public BayClimate(
        Celsius air, RelativeHumidity humidity, Celsius? panel = null, double pressurePa = ClimateRange.StandardPressurePa)
    {
        Air = air;
        Humidity = new RelativeHumidity(Vapour.UsedPercent(humidity));
        HumidityRaised = ClimateRange.RaisesHumidity(humidity);
        Panel = panel;
        VapourPressurePa = Vapour.PressurePa(air, humidity);
        DewPoint = Psychrometrics.DewPoint.Of(air, humidity);
        FrostPoint = Psychrometrics.FrostPoint.Of(air, humidity);
        Condensation = FrostPoint ?? DewPoint;
        AbsoluteHumidityGramsPerCubicMetre = MoistureContent.GramsPerCubicMetre(air, VapourPressurePa);
        MixingRatioGramsPerKilogram = MoistureContent.GramsPerKilogram(VapourPressurePa, pressurePa);
        WetBulb = Psychrometrics.WetBulb.Of(air, humidity, pressurePa);
        if (panel is { } surface)
        {
            ClimateRange.DemandPanel(surface);
            SpreadKelvins = surface.Degrees - Condensation.Degrees;
            PanelHumidityPercent = 100 * VapourPressurePa / SaturationPressure.OverWaterPa(surface.Kelvins);
        }
    }

    /// <summary>Air temperature [°C].</summary>
    public Celsius Air { get; }

    /// <summary>Relative humidity over liquid water that the rest was worked out with [%], 1 to 100.</summary>
    public RelativeHumidity Humidity { get; }

    /// <summary>Whether less humidity was given than <see cref="ClimateRange.LeastHumidityPct"/>, and it was raised to that.</summary>
    public bool HumidityRaised { get; }

    /// <summary>Panel temperature [°C]; null where none is known.</summary>
    public Celsius? Panel { get; }

    /// <summary>Dew point [°C], over supercooled water below 0 °C.</summary>
    public Celsius DewPoint { get; }

    /// <summary>Frost point [°C]; null where the dew point is 0 °C or more.</summary>
    public Celsius? FrostPoint { get; }

    /// <summary>Where water or frost begins to form [°C]: the frost point if there is one, else the dew point.</summary>
    public Celsius Condensation { get; }

    /// <summary>Partial pressure of the water vapour [Pa].</summary>
    public double VapourPressurePa { get; }

    /// <summary>Mass of water vapour in a volume of air [g/m³].</summary>
    public double AbsoluteHumidityGramsPerCubicMetre { get; }

    /// <summary>Mass of water vapour on a mass of dry air [g/kg].</summary>
    public double MixingRatioGramsPerKilogram { get; }

    /// <summary>Wet-bulb temperature [°C].</summary>
    public Celsius WetBulb { get; }

    /// <summary>Panel temperature above the condensation temperature [K], below zero when wet; null without a panel temperature.</summary>
    public double? SpreadKelvins { get; }

    /// <summary>
    /// Relative humidity over liquid water at the panel's face [%]: the water activity a coat on it feels. Above 100 on a panel colder
    /// than the dew point; null without a panel temperature.
    /// </summary>
    public double? PanelHumidityPercent { get; }

    /// <summary>Judges the panel by its spread alone.</summary>
    /// <param name="enoughKelvins">Spread from which the panel counts as dry [K], above zero.</param>
    /// <returns>
    /// Wet at a spread of zero or less, marginal below <paramref name="enoughKelvins"/>, else dry; null without a panel temperature.
    /// </returns>
    /// <exception cref="ArgumentOutOfRangeException">The wanted spread is not above zero, NaN included.</exception>
    public Verdict? Judge(double enoughKelvins)
    {
        if (enoughKelvins is not > 0)
        {
            throw new ArgumentOutOfRangeException(nameof(enoughKelvins), enoughKelvins, "Expected above 0 K.");
        }

        return SpreadKelvins switch
        {
            null => null,
            <= 0 => Verdict.Wet,
            double spread when spread < enoughKelvins => Verdict.Marginal,
            _ => Verdict.Dry,
        };
    }
}
