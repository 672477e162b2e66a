namespace CureWatch.Panels;

/// <summary>What a surface is exposed to at an instant.</summary>
/// <param name="AirKelvins">Air temperature [K].</param>
/// <param name="VapourPressurePa">Vapour pressure of the air [Pa], above 0.</param>
/// <param name="PanelKelvins">Temperature of the surface [K]: measured, else what it likely is in this air.</param>
/// <remarks>The default is no climate at all.</remarks>
public readonly record struct Exposure(double AirKelvins, double VapourPressurePa, double PanelKelvins)
{
    /// <summary>How much colder than that the surface may be, where nobody measures it [K], 0 or more: what has to be waited for reckons with it.</summary>
    public double ColderK { get; init; }

    /// <summary>The exposure part of the way to another, temperature and vapour pressure being linear in time.</summary>
    /// <param name="other">The exposure at the end of the way.</param>
    /// <param name="share">How far along [1], 0 to 1.</param>
    /// <returns>The exposure there.</returns>
    public Exposure Towards(Exposure other, double share) => new(
        AirKelvins + ((other.AirKelvins - AirKelvins) * share),
        VapourPressurePa + ((other.VapourPressurePa - VapourPressurePa) * share),
        PanelKelvins + ((other.PanelKelvins - PanelKelvins) * share))
    {
        ColderK = ColderK + ((other.ColderK - ColderK) * share),
    };

    /// <summary>The exposure of a surface without heat of its own: never warmer than the air.</summary>
    /// <returns>The exposure.</returns>
    public Exposure Unlit() => this with { PanelKelvins = Math.Min(PanelKelvins, AirKelvins) };

    /// <summary>The exposure of a surface that is warmer by some.</summary>
    /// <param name="kelvins">By how much [K], below 0 for a colder one.</param>
    /// <returns>The exposure.</returns>
    public Exposure Warmer(double kelvins) => this with { PanelKelvins = PanelKelvins + kelvins };
}
