namespace CureWatch.Curing;

/// <summary>The product that goes over another one on the same surface.</summary>
/// <param name="Product">The product's id.</param>
/// <param name="Revision">The sheet's revision, pinned when the job starts.</param>
/// <param name="FromLayer">The first layer it is used for, from 2.</param>
/// <param name="Then">What goes over it in turn; null where nothing does.</param>
public sealed record NextProduct(string Product, int Revision, int FromLayer, NextProduct? Then = null);
