namespace CureWatch.Readings;

/// <summary>A list in order of time that only grows at its end, cheap to extend and to keep old versions of.</summary>
/// <typeparam name="T">What it holds.</typeparam>
/// <remarks>
/// Immutable to its readers. Versions share one store: extending the newest version is one write, extending an older one copies the list
/// of chunks and the last of them. One thread extends; the domain has only one.
/// </remarks>
public sealed class Trail<T>
{
    private const int ChunkSize = 512;

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

    /// <summary>An item.</summary>
    /// <param name="index">From 0, below <see cref="Count"/>.</param>
    public T this[int index]
    {
        get
        {
            ArgumentOutOfRangeException.ThrowIfGreaterThanOrEqual(index, Count);
            return _store.Chunks[index / ChunkSize][index % ChunkSize];
        }
    }

    /// <summary>The newest item; there must be one.</summary>
    public T Last => this[Count - 1];

    /// <summary>The trail with one item more.</summary>
    /// <param name="item">The new item.</param>
    /// <returns>A longer version; this one stays as it is.</returns>
    public Trail<T> Append(T item)
    {
        Store store = Count > 0 && _store.Count == Count ? _store : _store.Copy(Count);
        store.Add(item);
        return new Trail<T>(store, Count + 1);
    }

    /// <summary>The oldest part of the trail.</summary>
    /// <param name="count">How many items to keep, up to <see cref="Count"/>.</param>
    /// <returns>A shorter version; this one stays as it is.</returns>
    public Trail<T> Take(int count) => count == Count ? this : new Trail<T>(_store, Math.Min(count, Count));

    /// <summary>Counts the items before the first for which a test fails.</summary>
    /// <param name="isBefore">True for a leading run of items, false for all after it.</param>
    /// <returns>The length of that run.</returns>
    public int CountWhile(Func<T, bool> isBefore)
    {
        int low = 0;
        int high = Count;
        while (low < high)
        {
            int middle = (low + high) / 2;
            if (isBefore(_store.Chunks[middle / ChunkSize][middle % ChunkSize]))
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

    private sealed class Store(List<T[]> chunks, int count)
    {
        public List<T[]> Chunks { get; } = chunks;

        public int Count { get; private set; } = count;

        public void Add(T item)
        {
            if (Count % ChunkSize == 0)
            {
                Chunks.Add(new T[ChunkSize]);
            }

            Chunks[^1][Count % ChunkSize] = item;
            Count++;
        }

        public Store Copy(int count)
        {
            List<T[]> chunks = Chunks.GetRange(0, (count + ChunkSize - 1) / ChunkSize);
            if (count % ChunkSize != 0)
            {
                chunks[^1] = [.. chunks[^1]];
            }

            return new Store(chunks, count);
        }
    }
}
