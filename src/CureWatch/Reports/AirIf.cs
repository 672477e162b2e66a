using CureWatch.Bays;
using CureWatch.Curing;
using CureWatch.Forecasting;
using CureWatch.Handover;
using CureWatch.Panels;
using CureWatch.Products;
using CureWatch.Psychrometrics;
using CureWatch.Units;
using CureWatch.Words;

namespace CureWatch.Reports;

/// <summary>The air of a bay that would be held otherwise, once it is there, and how fast the coat that decides would cure in it.</summary>
/// <param name="Bay">The bay.</param>
/// <param name="AirC">Its temperature [°C].</param>
/// <param name="HumidityPct">Its humidity [% RH]: what it has of moisture, where nobody changes that.</param>
/// <param name="Surface">The surface of the coat that decides; null where none does, or its sheet tells no keep-dry.</param>
/// <param name="Pace">How many times as fast as now it would cure [1]; null likewise.</param>
/// <remarks>Equation: the ratio of the rate law at the panel in both airs, the panel as far off its air as it is. Source (law): RateLaw.</remarks>
public sealed record AirIf(string Bay, double AirC, double HumidityPct, string? Surface, double? Pace)
{
    /// <summary>The same in words: warmer air holds more water, so that heat alone leaves it drier.</summary>
    public Sentence Text
    {
        get
        {
            Sentence air = $"The air of {Bay} would be at {new Figure.Temperature(AirC, "0.#")} and {HumidityPct:0} %.";
            double percent = Math.Round(100 * Math.Abs((Pace ?? 1) - 1));
            return Pace is not { } pace ? air
                : percent < 1 ? (Sentence)$"{air} {Name} would cure as fast as now."
                : $"{air} {Name} would cure about {percent:0} % {(pace > 1 ? (Sentence)$"faster" : $"slower")} than now.";
        }
    }

    private Sentence Name => Sentence.Named(Curing.Surface.NameOf(Surface!)).Capital();

    /// <summary>The air as it is supposed to be held.</summary>
    /// <param name="present">The present, and what is supposed.</param>
    /// <param name="bay">The bay that is held otherwise.</param>
    /// <param name="job">The job.</param>
    /// <param name="governing">The coat that decides; null where none does.</param>
    /// <param name="shop">The shop.</param>
    /// <returns>The air; null where nobody measures it.</returns>
    internal static AirIf? Of(Shop shop, Present present, JobState job, BayState bay, AwaitedCoat? governing)
    {
        if (present.Supposed.Held is not { } supposed || BayAir.Measured(bay, Place.Outside, shop.Now) is not { } air)
        {
            return null;
        }

        ClimateHeld held = supposed with { ForHours = double.PositiveInfinity }; // while it is held, however long that is
        (double kelvins, double pascals) = held.Of((air.Wettest.Kelvins, air.Wettest.VapourPressurePa));
        (string Surface, double Pace)? pace = governing is null ? null : PaceOf(shop, present, job, bay, governing, held);
        return new AirIf(
            bay.Plan.Bay, Celsius.FromKelvins(kelvins).Degrees, 100 * pascals / SaturationPressure.OverWaterPa(kelvins), pace?.Surface, pace?.Pace);
    }

    private static (string Surface, double Pace)? PaceOf(Shop shop, Present present, JobState job, BayState bay, AwaitedCoat governing, ClimateHeld held)
    {
        SurfaceStory story = job.Stories.First(s => s.Surface.Id == governing.Surface.Id);
        return present.StaysOf(job.Job, story)[^1].Point is { } point && point.Bay == bay.Plan.Bay && present.ExposureAt(point) is { } now
            && shop.LawsOf(governing.Surface, governing.Layer).KeepDry?.Law is { } law
            ? (governing.Surface.Id, RateIn(law, held.Of(now)) / RateIn(law, now))
            : null;
    }

    private static double RateIn(RateLaw law, Exposure exposure) => law.Likely(law.Terms(exposure.PanelKelvins, exposure.VapourPressurePa));
}
