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
    /// The lowest limit on the surface [°C]: the sheet's, and that of film and plastic unless the sheet is for that and states its own: a film's does
    /// not speak for the plastic under it. Infinite where there is none.
    /// </returns>
    public static double OfC(Surface surface, ProductSheet sheet)
    {
        double stated = sheet.Limits.HeatMaxC ?? double.PositiveInfinity;
        bool isPlastic = surface.Material is Material.Plastic || surface.Over is Material.Plastic;
        bool speaksForIt = sheet.Limits.HeatMaxC is not null && (sheet.Kind is ProductKind.Trim || (sheet.Kind is ProductKind.Film && !isPlastic));
        return (isPlastic || surface.Material is Material.Film) && !speaksForIt ? Math.Min(stated, UnstatedC) : stated;
    }
}
