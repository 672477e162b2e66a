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

    /// <summary>
    /// What is remembered after a tap. One that is taken back, or turns out to be of another product, leaves the batch before it in use, unless others went on
    /// with its own; a batch that is corrected takes the place of what it corrects.
    /// </summary>
    public static ImmutableArray<BatchInUse> After(Register register, string job, Tap tap)
    {
        if (tap is { Corrects: null, Batch: null } || register.Shop?.Find(job) is not { } state)
        {
            return register.Batches;
        }

        ImmutableArray<BatchInUse> batches = tap.Corrects is null ? register.Batches : Judged(register.Batches, job, Taps.Standing(state.Told.Add(tap)));
        if (tap is { Did: Did.Applied, Batch: { } batch })
        {
            Tap? corrected = SameCoatsBefore(register.Shop, state, tap);
            var by = new BatchTap(job, tap.Id, Holds: true);
            batches = UsesOf(register.Shop, state, tap.Surface, tap.Layer).Distinct()
                .Aggregate(batches, (all, use) => corrected is null ? Told(all, use, batch, by) : ToldInstead(all, use, batch, by, corrected.Id));
        }

        return Settled(batches, register.Shop);
    }

    /// <summary>What a correction made of the taps of a job.</summary>
    private static ImmutableArray<BatchInUse> Judged(ImmutableArray<BatchInUse> batches, string job, IEnumerable<Tap> standing)
    {
        HashSet<string?> holding = [.. standing.Select(t => t.Id)];
        return [.. batches.Select(b => b with { ToldBy = [.. b.ToldBy.Select(t => t.Job == job && t.Id is not null ? t with { Holds = holding.Contains(t.Id) } : t)] })];
    }

    /// <summary>Outside the bays nobody goes on with it.</summary>
    private static ImmutableArray<BatchInUse> Told(ImmutableArray<BatchInUse> batches, (string? Bay, string Product) use, string batch, BatchTap by) =>
        use.Bay is null ? batches
        : batches.LastOrDefault(b => b.IsOf(use.Bay, use.Product)) is { } last && last.Batch == batch ? With(batches, last, by)
        : batches.Add(new BatchInUse(use.Bay, use.Product, batch, [by]));

    /// <summary>In the bay where the tap was that it corrects, wherever the car is now; of one that said none it is the oldest of all.</summary>
    private static ImmutableArray<BatchInUse> ToldInstead(
        ImmutableArray<BatchInUse> batches, (string? Bay, string Product) use, string batch, BatchTap by, string? corrected)
    {
        BatchInUse[] said = [.. batches.Where(b => b.Product == use.Product && b.ToldBy.Any(t => t.Job == by.Job && t.Id == corrected))];
        if ((said.FirstOrDefault(b => b.Bay == use.Bay) ?? said.FirstOrDefault()) is not { } before)
        {
            return use.Bay is null ? batches : batches.Insert(0, new BatchInUse(use.Bay, use.Product, batch, [by]));
        }

        return before.Batch == batch ? With(batches, before, by) : batches.Insert(batches.IndexOf(before) + 1, before with { Batch = batch, ToldBy = [by] });
    }

    private static ImmutableArray<BatchInUse> With(ImmutableArray<BatchInUse> batches, BatchInUse one, BatchTap by) =>
        batches.Replace(one, one with { ToldBy = [.. one.ToldBy, by] });

    /// <summary>The taps of a job that is closed are put right no more: what was told before them never comes back, and one stands for all of them.</summary>
    private static ImmutableArray<BatchInUse> Settled(ImmutableArray<BatchInUse> batches, Shop shop)
    {
        var kept = new List<BatchInUse>();
        foreach (BatchInUse batch in batches.Reverse().Where(b => !kept.Any(k => k.IsOf(b.Bay, b.Product) && k.ToldBy.Any(IsSettled))))
        {
            ImmutableArray<BatchTap> taps = [.. batch.ToldBy.Where(t => IsSettled(t) && t.Holds).Take(1), .. batch.ToldBy.Where(t => !IsSettled(t))];
            kept.AddRange(taps.IsEmpty ? [] : [batch with { ToldBy = taps }]);
        }

        kept.Reverse();
        return [.. kept];

        bool IsSettled(BatchTap tap) => tap.Id is null || shop.Find(tap.Job) is null;
    }

    /// <summary>What a tap corrects, where that was of the same products; a coat that turns out to be of another has a batch of its own.</summary>
    private static Tap? SameCoatsBefore(Shop shop, JobState job, Tap tap)
    {
        return tap.Corrects is { } id && job.Told.FirstOrDefault(t => t.Id == id) is { } before && ProductsOf(before).SetEquals(ProductsOf(tap)) ? before : null;

        HashSet<string> ProductsOf(Tap told) => [.. UsesOf(shop, job, told.Surface, told.Layer).Select(u => u.Product)];
    }

    private static string? Find(Register register, string? bay, string product) =>
        register.Batches.LastOrDefault(b => b.IsOf(bay, product) && b.ToldBy.Any(t => t.Holds))?.Batch;

    /// <summary>The product of a layer of one surface, or of every one, each with the bay its surface is in now.</summary>
    private static IEnumerable<(string? Bay, string Product)> UsesOf(Shop shop, JobState job, string? surface, int? layer) =>
        from story in job.Stories
        where surface is null || surface == story.Surface.Id
        select (Stay.Of(shop, job.Job, story)[^1].Bay, story.Surface.SheetOf(layer ?? 1).Product);
}
