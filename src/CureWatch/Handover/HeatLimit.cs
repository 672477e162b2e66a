using CureWatch.Curing;
using CureWatch.Panels;
using CureWatch.Products;

namespace CureWatch.Handover;

/// <summary>How hot a surface may get.</summary>
public static class HeatLimit
{
    /// <summary>Film and bare plastic where no sheet says otherwise [°C]. Source (choice): common practice, no source.</summary>
    public const double UnstatedC = 60;

    /// <summary>How hot a surface may get.</summary>
    /// <param name="surface">The surface.</param>
    /// <param name="sheet">The sheet of what is on it.</param>
    /// <returns>
    /// The lowest limit on the surface [°C]: the sheet's, and that of film and plastic unless the sheet is for those and states its own;
    /// infinite where there is none.
    /// </returns>
    public static double OfC(Surface surface, ProductSheet sheet)
    {
        double stated = sheet.Limits.HeatMaxC ?? double.PositiveInfinity;
        bool isSensitive = surface.Material is Material.Film or Material.Plastic || surface.Over is Material.Plastic;
        bool speaksForIt = sheet is { Kind: ProductKind.Film or ProductKind.Trim, Limits.HeatMaxC: not null };
        return isSensitive && !speaksForIt ? Math.Min(stated, UnstatedC) : stated;
    }
}
