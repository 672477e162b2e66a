using System.Collections.Immutable;
using CureWatch.Bays;
using CureWatch.Curing;

namespace CureWatch.Service.Pump;

/// <summary>Remembers which batch of a product is used in a bay, and says it of a coat of which nobody did.</summary>
internal static class Batches
{
    /// <summary>The batch of a layer's product that was told last where its surface is; null where none was.</summary>
    public static string? InUse(Register register, JobState job, Surface surface, int layer) =>
        UsesOf(register.Shop!, job, surface.Id, layer).Select(use => Find(register, use.Bay, use.Product)).Single();

    /// <summary>A tap as it is taken down: a coat of one product is of the batch that was told last where it is wiped on.</summary>
    public static Tap Filled(Register register, JobState job, Tap tap)
    {
        if (tap is not { Did: Did.Applied, Batch: null })
        {
            return tap;
        }

        if (SameCoatsBefore(register.Shop!, job, tap) is { } before)
        {
            return tap with { Batch = before.Batch };
        }

        string?[] batches = [.. UsesOf(register.Shop!, job, tap.Surface, tap.Layer).Select(use => Find(register, use.Bay, use.Product)).Distinct()];
        return batches is [{ Length: > 0 } one] ? tap with { Batch = one } : tap; // of several nobody knows which
    }

    /// <summary>What is remembered after a tap. A correction changes it only where what it corrects is what is used.</summary>
    public static ImmutableArray<BatchInUse> After(Register register, string job, Tap tap)
    {
        if (tap is not { Did: Did.Applied, Batch: { } batch } || register.Shop?.Find(job) is not { } state)
        {
            return register.Batches;
        }

        Tap? corrected = SameCoatsBefore(register.Shop, state, tap);
        ImmutableArray<BatchInUse> batches = register.Batches;
        foreach ((string? bay, string product) in UsesOf(register.Shop, state, tap.Surface, tap.Layer).Distinct())
        {
            string? used = Find(register, bay, product);
            if (bay is not null && used != batch && (corrected is null || used == corrected.Batch))
            {
                batches = [.. batches.Where(b => b.Bay != bay || b.Product != product), new BatchInUse(bay, product, batch)];
            }
        }

        return batches;
    }

    /// <summary>What a tap corrects, where that was of the same products; a coat that turns out to be of another has a batch of its own.</summary>
    private static Tap? SameCoatsBefore(Shop shop, JobState job, Tap tap)
    {
        return tap.Corrects is { } id && job.Told.FirstOrDefault(t => t.Id == id) is { } before && ProductsOf(before).SetEquals(ProductsOf(tap)) ? before : null;

        HashSet<string> ProductsOf(Tap told) => [.. UsesOf(shop, job, told.Surface, told.Layer).Select(u => u.Product)];
    }

    private static string? Find(Register register, string? bay, string product) =>
        register.Batches.FirstOrDefault(b => b.Bay == bay && b.Product == product)?.Batch;

    /// <summary>The product of a layer of one surface, or of every one, each with the bay its surface is in now.</summary>
    private static IEnumerable<(string? Bay, string Product)> UsesOf(Shop shop, JobState job, string? surface, int? layer) =>
        from story in job.Stories
        where surface is null || surface == story.Surface.Id
        select (Stay.Of(shop, job.Job, story)[^1].Bay, story.Surface.SheetOf(layer ?? 1).Product);
}
