using CureWatch.Panels;

namespace CureWatch.Curing;

/// <summary>One coated area of one car: a panel, a glass, a wheel set, a trim group.</summary>
/// <param name="Id">The surface's id, unique in its job.</param>
/// <param name="Material">What it is made of.</param>
/// <param name="Over">What lies under a film; null where it is no film or nobody said.</param>
/// <param name="Place">Where it is.</param>
/// <param name="Product">The product's id.</param>
/// <param name="Revision">The sheet's revision, pinned when the job starts.</param>
/// <param name="Layers">Layers planned, from 1.</param>
/// <param name="Sections">Sections it is worked in, from 1.</param>
public sealed record Surface(
    string Id, Material Material, Material? Over, Place Place, string Product, int Revision, int Layers, int Sections);
