namespace CureWatch.Readings;

/// <summary>A list in order of time that only grows at its end, cheap to extend and to keep old versions of.</summary>
/// <typeparam name="T">What it holds.</typeparam>
/// <remarks>
/// Immutable to its readers. Versions share one store: extending the newest version is one write, extending an older one copies.
/// One thread extends; the domain has only one.
/// </remarks>
public sealed class Trail<T>
{
    private readonly List<T> _store;

    /// <summary>A trail with nothing in it.</summary>
    public Trail()
        : this([], 0)
    {
    }

    private Trail(List<T> store, int count)
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
            return _store[index];
        }
    }

    /// <summary>The newest item; there must be one.</summary>
    public T Last => this[Count - 1];

    /// <summary>The trail with one item more.</summary>
    /// <param name="item">The new item.</param>
    /// <returns>A longer version; this one stays as it is.</returns>
    public Trail<T> Append(T item)
    {
        List<T> store = _store;
        if (Count == 0 || store.Count != Count)
        {
            store = [.. store.Take(Count)];
        }

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
            if (isBefore(_store[middle]))
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
}
