namespace CureWatch.Readings;

/// <summary>A list in order of time that only grows at its end, cheap to extend and to keep old versions of.</summary>
/// <typeparam name="T">What it holds.</typeparam>
/// <remarks>
/// Immutable, and safe to read and to extend from several threads: a page that looks at the present extends its own copy while the next
/// reading extends the shop's. Versions share one store: extending the newest version is one write, extending an older one, or the newest
/// at the same moment as somebody else, copies the list of chunks and the last of them.
/// </remarks>
public sealed class Trail<T>
{
    private const int ChunkSize = 512;

    /// <summary>The first chunk begins small and grows: most bays of a large shop have little to remember.</summary>
    private const int SmallestChunk = 16;

    private readonly Store _store;

    /// <summary>A trail with nothing in it.</summary>
    public Trail()
        : this(new Store([], 0), 0)
    {
    }

    private Trail(Store store, int count)
    {
        _store = store;
        Count = count;
    }

    /// <summary>How many items there are.</summary>
    public int Count { get; }

    /// <summary>An item, where it is: it stays there, and as it is.</summary>
    /// <param name="index">From 0, below <see cref="Count"/>.</param>
    public ref readonly T this[int index]
    {
        get
        {
            ArgumentOutOfRangeException.ThrowIfGreaterThanOrEqual((uint)index, (uint)Count, nameof(index));
            return ref _store.Chunks[index / ChunkSize][index % ChunkSize];
        }
    }

    /// <summary>The newest item; there must be one.</summary>
    public ref readonly T Last => ref this[Count - 1];

    /// <summary>The trail with one item more.</summary>
    /// <param name="item">The new item.</param>
    /// <returns>A longer version; this one stays as it is.</returns>
    public Trail<T> Append(T item)
    {
        Store store = Count > 0 && _store.TryAdd(Count, item) ? _store : _store.CopyWith(Count, item);
        return new Trail<T>(store, Count + 1);
    }

    /// <summary>The items from one on, as far as they lie side by side.</summary>
    /// <param name="first">From 0, below <see cref="Count"/>.</param>
    /// <returns>At least one of them; those behind begin anew.</returns>
    public ReadOnlySpan<T> From(int first) =>
        _store.Chunks[first / ChunkSize].AsSpan(first % ChunkSize, Math.Min(Count - first, ChunkSize - (first % ChunkSize)));

    /// <summary>The oldest part of the trail.</summary>
    /// <param name="count">How many items to keep, up to <see cref="Count"/>.</param>
    /// <returns>A shorter version; this one stays as it is.</returns>
    public Trail<T> Take(int count) => count == Count ? this : new Trail<T>(_store, Math.Min(count, Count));

    /// <summary>Counts the items before the first for which a test fails: quickly where that is near the end, which nearly all ask for.</summary>
    /// <param name="isBefore">True for a leading run of items, false for all after it.</param>
    /// <returns>The length of that run.</returns>
    public int CountWhile(TrailTest<T> isBefore) => CountWhile(isBefore, static (in item, test) => test(in item));

    /// <summary>The same by something that is given along.</summary>
    /// <typeparam name="TBorder">What the items are held against.</typeparam>
    /// <param name="border">What they are held against.</param>
    /// <param name="isBefore">True for a leading run of items, false for all after it.</param>
    /// <returns>The length of that run.</returns>
    public int CountWhile<TBorder>(TBorder border, TrailTest<T, TBorder> isBefore)
    {
        int high = Count, low = Count - 1;
        for (int step = 1; low >= 0 && !isBefore(in this[low], border); step *= 2)
        {
            (high, low) = (low, low - step);
        }

        low = Math.Max(low, -1) + 1;
        while (low < high)
        {
            int middle = (low + high) / 2;
            if (isBefore(in this[middle], border))
            {
                low = middle + 1;
            }
            else
            {
                high = middle;
            }
        }

        return low;
    }

    private sealed class Store(T[][] chunks, int count)
    {
        private int _count = count;

        /// <summary>The chunks; the list is replaced, never changed, so that who reads it needs no lock.</summary>
        public T[][] Chunks { get; private set; } = chunks;

        /// <summary>Adds an item behind the first ones, at least one, unless somebody else has: only one of several wins a place.</summary>
        public bool TryAdd(int count, in T item)
        {
            if (Interlocked.CompareExchange(ref _count, count + 1, count) != count)
            {
                return false;
            }

            if (count % ChunkSize == 0)
            {
                Chunks = [.. Chunks, new T[ChunkSize]];
            }
            else if (count == Chunks[0].Length)
            {
                Chunks = [Grown(Chunks[0], count, Math.Min(ChunkSize, 2 * count))];
            }

            Chunks[^1][count % ChunkSize] = item;
            return true;
        }

        /// <summary>Takes a copy of the first items with one more behind them; full chunks stay shared.</summary>
        public Store CopyWith(int count, in T item)
        {
            int full = count / ChunkSize, used = count % ChunkSize;
            T[] last = Grown(used > 0 ? Chunks[full] : [], used, full == 0 ? Math.Min(ChunkSize, 2 * Math.Max(used, SmallestChunk / 2)) : ChunkSize);
            last[used] = item;
            return new Store([.. Chunks.AsSpan(0, full), last], count + 1);
        }

        /// <summary>A copy of a chunk's first items with room for more.</summary>
        private static T[] Grown(T[] chunk, int used, int size)
        {
            var grown = new T[size];
            Array.Copy(chunk, grown, used);
            return grown;
        }
    }
}
