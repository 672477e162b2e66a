using System.Collections.Immutable;

namespace CureWatch.Panels;

/// <summary>The roof and the walls that a car outside of any cabin faces, and how much colder than its air they may keep a panel that nobody measures.</summary>
/// <param name="Outdoors">Sources of the air outdoors, each with a sample; empty where nobody measures it.</param>
/// <remarks>
/// <para>
/// Equation: B = (h_r/h)·(1 − f)·(T_air − T_out + 2.2 K), h_r = 4·ε·σ·T³ = 5.1 of h = 8.29 W/m²K what of a panel's heat is radiation, f = 0.7 how near to
/// its air a building keeps its coldest inner surface (f = (T_si − T_out)/(T_air − T_out)). Source (law): balance of a panel that has no heat of its own.
/// Source for f: DIN 4108-2 asks for 0.70 at least, so that no mould grows, in 20 °C with −5 °C outdoors; from memory. Source for 2.2 K: a clear sky takes from
/// an unshaded roof what 11 K · 5 W/m²K · 0.04 m²K/W of colder air would, ISO 13790, 11.3 to 11.4; from memory.
/// </para>
/// <para>
/// Source (choice): all that a panel faces counts as cold as the coldest. In more than those 25 K the hall must be better insulated than that, so B grows no further. Where nobody
/// measures outdoors it is 2 K, what it is at 9 K: nineteen of twenty simulated bays stay within it (median 0.5 K, most 4.1 K). A probe outdoors that falls silent leaves
/// the larger of the two. It is for what must be waited for; whether water condenses is asked of the likely panel and its error, or every quiet night would be called wet.
/// </para>
/// </remarks>
public sealed record Surroundings(ImmutableArray<Source> Outdoors)
{
    /// <summary>How much colder than its air a panel may be where nobody measures outdoors [K].</summary>
    public const double UnknownK = 2;

    private const double RadiantShare = 5.1 / PanelHeat.StillAirWm2K;
    private const double ColdestSurface = 1 - 0.7;
    private const double ClearSkyK = 2.2;
    private const double MostApartK = 25;

    /// <summary>How much colder than its air a panel may be.</summary>
    /// <param name="airKelvins">The air in the bay [K].</param>
    /// <param name="at">When.</param>
    /// <returns>By how much at most [K], 0 or more.</returns>
    public double ColderK(double airKelvins, DateTimeOffset at)
    {
        double? coldest = null;
        bool isHeard = false;
        foreach (Source source in Outdoors)
        {
            if (source.HeardBy(at) is { } heard && source.Around(at, at) is { } around)
            {
                isHeard |= !source.IsGapForCure(at - heard);
                coldest = coldest <= around.FromKelvins ? coldest : around.FromKelvins;
            }
        }

        double known = coldest is { } outdoors ? BelowAir(airKelvins - outdoors) : 0;
        return isHeard ? known : Math.Max(known, UnknownK);
    }

    private static double BelowAir(double apartK) => RadiantShare * ColdestSurface * (Math.Clamp(apartK, -ClearSkyK, MostApartK) + ClearSkyK);
}
