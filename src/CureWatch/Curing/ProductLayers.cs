namespace CureWatch.Curing;

/// <summary>The layers of one product in a system of several.</summary>
/// <param name="Product">The product's id.</param>
/// <param name="Revision">The sheet's revision.</param>
/// <param name="Layers">Its layers, from 1.</param>
public sealed record ProductLayers(string Product, int Revision, int Layers);
