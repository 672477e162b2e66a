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
    /// <returns>The limit [°C]: the sheet's, else that of film and plastic; infinite for the rest.</returns>
    public static double OfC(Surface surface, ProductSheet sheet) =>
        sheet.Limits.HeatMaxC
        ?? (surface.Material is Material.Film or Material.Plastic || surface.Over is Material.Plastic ? UnstatedC : double.PositiveInfinity);
}
