namespace CureWatch.Service.Pump;

/// <summary>The batch of a product that was told last in a bay: whoever tells nothing else goes on with it.</summary>
/// <param name="Bay">The bay.</param>
/// <param name="Product">The product, all its revisions: a bottle knows no sheet.</param>
/// <param name="Batch">The batch; empty where nobody knows it.</param>
internal sealed record BatchInUse(string Bay, string Product, string Batch);
