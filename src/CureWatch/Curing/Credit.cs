namespace CureWatch.Curing;

/// <summary>Cure progress over a stretch of time, in three bounds, with the mean climate it was earned in.</summary>
/// <param name="Slow">Reference hours the slow bound earns [h]: what may be counted on.</param>
/// <param name="Likely">Reference hours likely earned [h].</param>
/// <param name="Fast">Reference hours the fast bound earns [h]: what must be reckoned with.</param>
/// <param name="WeightedX">Likely hours times the law's x [h·mol/J].</param>
/// <param name="WeightedY">Likely hours times the law's y [h].</param>
/// <param name="WeightedAirKelvins">Likely hours times the air temperature [h·K].</param>
/// <param name="WeightedColderK">Likely hours times how much colder the surface may have been [h·K].</param>
/// <remarks>The default is no progress.</remarks>
public readonly record struct Credit(
    double Slow, double Likely, double Fast, double WeightedX, double WeightedY, double WeightedAirKelvins, double WeightedColderK)
{
    /// <summary>Progress over two stretches.</summary>
    /// <param name="a">One.</param>
    /// <param name="b">The other.</param>
    /// <returns>Their sum.</returns>
    public static Credit operator +(Credit a, Credit b) => new(
        a.Slow + b.Slow,
        a.Likely + b.Likely,
        a.Fast + b.Fast,
        a.WeightedX + b.WeightedX,
        a.WeightedY + b.WeightedY,
        a.WeightedAirKelvins + b.WeightedAirKelvins,
        a.WeightedColderK + b.WeightedColderK);

    /// <summary>Progress over a stretch less that over its beginning.</summary>
    /// <param name="a">The stretch.</param>
    /// <param name="b">Its beginning.</param>
    /// <returns>Their difference.</returns>
    public static Credit operator -(Credit a, Credit b) => new(
        a.Slow - b.Slow,
        a.Likely - b.Likely,
        a.Fast - b.Fast,
        a.WeightedX - b.WeightedX,
        a.WeightedY - b.WeightedY,
        a.WeightedAirKelvins - b.WeightedAirKelvins,
        a.WeightedColderK - b.WeightedColderK);

    /// <summary>A part of it, or more of the same.</summary>
    /// <param name="share">How much of it [1], 0 or more.</param>
    /// <returns>The progress.</returns>
    public Credit Times(double share) => new(
        Slow * share, Likely * share, Fast * share, WeightedX * share, WeightedY * share, WeightedAirKelvins * share, WeightedColderK * share);

    /// <summary>Progress at one of the paces.</summary>
    /// <param name="pace">The pace.</param>
    /// <returns>Reference hours [h].</returns>
    public double Of(Pace pace) => pace switch
    {
        Pace.Slow => Slow,
        Pace.Likely => Likely,
        _ => Fast,
    };
}

/// <summary>The paces progress is kept at.</summary>
public enum Pace
{
    /// <summary>What may be counted on: openings and releases wait for it.</summary>
    Slow,

    /// <summary>What is likely.</summary>
    Likely,

    /// <summary>What must be reckoned with: deadlines close on it.</summary>
    Fast,
}
