using System.Collections.Immutable;
using CureWatch.Curing;
using CureWatch.Forecasting;
using CureWatch.Panels;
using CureWatch.TimeWindows;

namespace CureWatch.Bays;

/// <summary>What is supposed of what is ahead, to see what would follow: nothing of it is told to anybody, or kept.</summary>
/// <param name="Bay">The bay whose climate is held otherwise; null where none is.</param>
/// <param name="Held">What is done about that climate.</param>
/// <param name="LampHours">What lamps would earn coats beyond what they earn without [reference h].</param>
internal sealed record Supposed(string? Bay, ClimateHeld? Held, ImmutableDictionary<CoatKey, double> LampHours)
{
    /// <summary>A milestone that lamps alone would make is left this little [reference h].</summary>
    private const double Least = 1e-6;

    public static Supposed Nothing { get; } = new(null, null, ImmutableDictionary<CoatKey, double>.Empty);

    /// <summary>When a surface's lamp would be off; it is ready no sooner.</summary>
    public ImmutableDictionary<string, DateTimeOffset> LampsUntil { get; init; } = ImmutableDictionary<string, DateTimeOffset>.Empty;

    /// <summary>Whether every panel has come as near to its air as it lasts: what a cold car has not yet, and will have before anybody coats it.</summary>
    public bool AreColdCarsWarm { get; init; }

    /// <summary>What is expected of a surface as is supposed.</summary>
    public Outlook Of(Outlook outlook) => !AreColdCarsWarm ? outlook : outlook with
    {
        Held = Warm(outlook.Held),
        Otherwise = [.. outlook.Otherwise.Select(Warm)],
        MayBe = [.. outlook.MayBe.Select(Of)],
    };

    /// <summary>The forecast of a bay as is supposed; where nothing is, the forecast itself.</summary>
    public ClimateForecast? Of(ClimateForecast? forecast, string bay, DateTimeOffset now, Exposure held) => bay == Bay && Held is not null
        ? (forecast ?? ClimateForecast.Staying(now, held)) with { Held = Held }
        : forecast;

    /// <summary>The laws of a coat, less what a lamp would earn it.</summary>
    public CoatLaws LawsOf(string job, Coat coat, CoatLaws laws) =>
        laws.KeepDry is { } keepDry && LampHours.TryGetValue(CoatKey.Of(job, coat), out double hours)
            ? laws with { KeepDry = keepDry with { Milestone = keepDry.Milestone with { ReferenceHours = Math.Max(Least, keepDry.Milestone.ReferenceHours - hours) } } }
            : laws;

    private static Exposure Warm(Exposure exposure) => exposure with
    {
        PanelKelvins = Math.Clamp(exposure.PanelKelvins, exposure.AirKelvins - PlausiblePanel.LastingK, exposure.AirKelvins + PlausiblePanel.LastingK),
    };
}
