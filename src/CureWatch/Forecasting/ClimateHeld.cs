using CureWatch.Panels;
using CureWatch.Psychrometrics;

namespace CureWatch.Forecasting;

/// <summary>What somebody does about a bay's climate, and what becomes of any climate by it. Moisture is kept, never relative humidity.</summary>
/// <remarks>
/// Equation: heated, T ← max(T, T_held), or cooled, T ← min(T, T_held), at the same vapour pressure; dried, e ← min(e, φ·e_w(T)); moistened, e ← max(e, φ·e_w(T)); aired,
/// e ← e_out + (e − e_out)·e^(−n·t), T as far as the walls let it. What takes time gets there as 1 − e^(−t/τ).
/// Source (law): 15 °C and 55 % are 35 % at 22 °C, for heat adds no water. Source (choice): the times, common practice without a source: a bay's
/// heating takes an hour, drying and moistening two; extraction changes the air four times an hour, and the walls give back half of what the air loses.
/// Edges: an unvented burner adds water and is no way to heat; nothing here says that the equipment is strong enough.
/// </remarks>
public sealed record ClimateHeld
{
    private const double HoursToHeat = 1;
    private const double HoursToDry = 2;
    private const double AirChangesPerHour = 4;
    private const double ShareThatWallsGiveBack = 0.5;

    /// <summary>The air temperature the bay is held at or above [K]; null where it is not heated.</summary>
    public double? LeastAirKelvins { get; init; }

    /// <summary>The air temperature the bay is held at or below [K]; null where it is not cooled.</summary>
    public double? MostAirKelvins { get; init; }

    /// <summary>The relative humidity the bay is dried to, where it is above [%]; null where it is not dried.</summary>
    public double? MostHumidityPct { get; init; }

    /// <summary>The relative humidity the bay is moistened to, where it is below [%]; null where it is not moistened.</summary>
    public double? LeastHumidityPct { get; init; }

    /// <summary>The outdoor air it is aired with: temperature [K] and vapour pressure [Pa]; null where it is not aired.</summary>
    public (double Kelvins, double VapourPressurePa)? AiredWith { get; init; }

    /// <summary>How long it is done for [h]; for good where nobody says. What it has brought about goes as it came.</summary>
    public double ForHours { get; init; } = double.PositiveInfinity;

    /// <summary>What becomes of an air.</summary>
    /// <param name="air">Its temperature [K] and vapour pressure [Pa] if nobody did anything.</param>
    /// <param name="hours">How long it has been done for [h], 0 or more; left out: for good.</param>
    /// <returns>The air; its vapour pressure never above saturation.</returns>
    public (double Kelvins, double VapourPressurePa) Of((double Kelvins, double VapourPressurePa) air, double hours = double.PositiveInfinity)
    {
        (double kelvins, double pascals) = air;
        if (AiredWith is { } outdoors)
        {
            double changed = Reached(hours, 1 / AirChangesPerHour);
            kelvins += ShareThatWallsGiveBack * changed * (outdoors.Kelvins - kelvins);
            pascals += changed * (outdoors.VapourPressurePa - pascals);
        }

        if (LeastAirKelvins is { } held && held > kelvins)
        {
            kelvins += (held - kelvins) * Reached(hours, HoursToHeat);
        }

        if (MostAirKelvins is { } most && most < kelvins)
        {
            kelvins += (most - kelvins) * Reached(hours, HoursToHeat);
        }

        double saturationPa = SaturationPressure.OverWaterPa(kelvins), done = Reached(hours, HoursToDry);
        double wantedPa = Math.Clamp(pascals, (LeastHumidityPct ?? 0) / 100 * saturationPa, (MostHumidityPct ?? 100) / 100 * saturationPa);
        return (kelvins, Math.Min(pascals + ((wantedPa - pascals) * done), saturationPa));
    }

    /// <summary>How much of what is wanted has been reached [1], or is left once nobody does it any more.</summary>
    private double Reached(double hours, double timeConstantHours) => hours <= ForHours
        ? 1 - Math.Exp(-hours / timeConstantHours)
        : (1 - Math.Exp(-ForHours / timeConstantHours)) * Math.Exp((ForHours - hours) / timeConstantHours);

    /// <summary>What becomes of an exposure once it has been done for long: the panel has gone along with the air.</summary>
    /// <param name="exposure">The exposure if nobody did anything.</param>
    /// <returns>The exposure.</returns>
    public Exposure Of(Exposure exposure)
    {
        (double kelvins, double pascals) = Of((exposure.AirKelvins, exposure.VapourPressurePa));
        return exposure with { AirKelvins = kelvins, VapourPressurePa = pascals, PanelKelvins = exposure.PanelKelvins + kelvins - exposure.AirKelvins };
    }
}
