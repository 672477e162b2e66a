using System.Collections.Immutable;

namespace CureWatch.Service.Pump;

/// <summary>A batch of a product that was told in a bay. The last of which a tap still holds is in use: whoever tells nothing else goes on with it.</summary>
/// <param name="Bay">The bay.</param>
/// <param name="Product">The product, all its revisions: a bottle knows no sheet.</param>
/// <param name="Batch">The batch; empty where nobody knows it.</param>
/// <param name="ToldBy">The taps that said it, or went on with it.</param>
internal sealed record BatchInUse(string Bay, string Product, string Batch, ImmutableArray<BatchTap> ToldBy)
{
    /// <summary>Whether it is of that product in that bay.</summary>
    public bool IsOf(string? bay, string product) => (Bay, Product) == (bay, product);
}

/// <summary>A tap that said a batch.</summary>
/// <param name="Job">Its job.</param>
/// <param name="Id">Its id; null where it has none, and nothing can correct it.</param>
/// <param name="Holds">Whether it was neither taken back nor corrected, as far as its job was told of.</param>
internal sealed record BatchTap(string Job, string? Id, bool Holds);
