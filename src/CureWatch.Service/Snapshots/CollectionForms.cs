using System.Collections.Frozen;
using System.Collections.Immutable;
using System.Runtime.InteropServices;
using CureWatch.Readings;

namespace CureWatch.Service.Snapshots;

/// <summary>Items one after the other; without references, all at once.</summary>
internal sealed class Items<T>
{
    private Form<T>? _form;

    public void Complete(Forms forms) => _form = forms.Of<T>();

    public void Write(StateWriter to, ReadOnlySpan<T> items)
    {
        to.Raw(items.Length);
        if (_form is RawForm<T>)
        {
            to.Raw(items);
            return;
        }

        foreach (T item in items)
        {
            _form!.Write(to, item);
        }
    }

    public T[] Read(StateReader from)
    {
        var items = new T[from.Count()];
        if (_form is RawForm<T>)
        {
            from.Raw<T>(items);
            return items;
        }

        for (int i = 0; i < items.Length; i++)
        {
            items[i] = _form!.Read(from);
        }

        return items;
    }
}

/// <summary>Immutable arrays, those that are none at all included.</summary>
internal sealed class ArrayForm<T> : Form<ImmutableArray<T>>
{
    private readonly Items<T> _items = new();

    public override void Complete(Forms forms) => _items.Complete(forms);

    public override void Write(StateWriter to, ImmutableArray<T> value)
    {
        to.Raw(!value.IsDefault);
        if (!value.IsDefault)
        {
            _items.Write(to, value.AsSpan());
        }
    }

    public override ImmutableArray<T> Read(StateReader from) =>
        from.Raw<bool>() ? ImmutableCollectionsMarshal.AsImmutableArray(_items.Read(from)) : default;
}

/// <summary>A collection that is an object: written once, and put together from what it is of.</summary>
internal abstract class GatheredForm<TItem, TOf> : Form<TItem?>
    where TItem : class
{
    private readonly Items<TOf> _items = new();

    public override void Complete(Forms forms) => _items.Complete(forms);

    public override void Write(StateWriter to, TItem? value)
    {
        to.Raw(value is not null);
        if (value is not null && !to.IsKnown(value))
        {
            to.Text(OrderOf(value));
            _items.Write(to, Of(value));
        }
    }

    public override TItem? Read(StateReader from)
    {
        if (!from.Raw<bool>())
        {
            return null;
        }

        if (from.Known() is { } known)
        {
            return known as TItem ?? throw StateReader.Broken();
        }

        int number = from.Remember(this);
        TItem value = Gather(from.Text(), _items.Read(from));
        from.Remember(number, value);
        return value;
    }

    /// <summary>By what it is ordered, or told apart.</summary>
    protected virtual string OrderOf(TItem value) => "";

    protected abstract ReadOnlySpan<TOf> Of(TItem value);

    protected abstract TItem Gather(string order, TOf[] items);
}

internal sealed class TrailForm<T> : GatheredForm<Trail<T>, T>
{
    protected override ReadOnlySpan<T> Of(Trail<T> value) => Enumerable.Range(0, value.Count).Select(i => value[i]).ToArray();

    protected override Trail<T> Gather(string order, T[] items) => items.Aggregate(new Trail<T>(), (trail, item) => trail.Append(item));
}

internal sealed class HashSetForm<T> : GatheredForm<ImmutableHashSet<T>, T>
{
    protected override string OrderOf(ImmutableHashSet<T> value) => Orders.NameOf(value.KeyComparer);

    protected override ReadOnlySpan<T> Of(ImmutableHashSet<T> value) => value.ToArray();

    protected override ImmutableHashSet<T> Gather(string order, T[] items) => ImmutableHashSet.Create(Orders.Find<IEqualityComparer<T>>(order), items);
}

internal sealed class SortedSetForm<T> : GatheredForm<ImmutableSortedSet<T>, T>
{
    protected override string OrderOf(ImmutableSortedSet<T> value) => Orders.NameOf(value.KeyComparer);

    protected override ReadOnlySpan<T> Of(ImmutableSortedSet<T> value) => value.ToArray();

    protected override ImmutableSortedSet<T> Gather(string order, T[] items) => ImmutableSortedSet.Create(Orders.Find<IComparer<T>>(order), items);
}

internal sealed class DictionaryForm<TKey, TValue> : GatheredForm<ImmutableDictionary<TKey, TValue>, (TKey Key, TValue Value)>
    where TKey : notnull
{
    protected override string OrderOf(ImmutableDictionary<TKey, TValue> value) => Orders.NameOf(value.KeyComparer);

    protected override ReadOnlySpan<(TKey Key, TValue Value)> Of(ImmutableDictionary<TKey, TValue> value) => value.Select(p => (p.Key, p.Value)).ToArray();

    protected override ImmutableDictionary<TKey, TValue> Gather(string order, (TKey Key, TValue Value)[] items) =>
        items.ToImmutableDictionary(i => i.Key, i => i.Value, Orders.Find<IEqualityComparer<TKey>>(order));
}

internal sealed class FrozenDictionaryForm<TKey, TValue> : GatheredForm<FrozenDictionary<TKey, TValue>, (TKey Key, TValue Value)>
    where TKey : notnull
{
    protected override string OrderOf(FrozenDictionary<TKey, TValue> value) => Orders.NameOf(value.Comparer);

    protected override ReadOnlySpan<(TKey Key, TValue Value)> Of(FrozenDictionary<TKey, TValue> value) => value.Select(p => (p.Key, p.Value)).ToArray();

    protected override FrozenDictionary<TKey, TValue> Gather(string order, (TKey Key, TValue Value)[] items) =>
        items.ToFrozenDictionary(i => i.Key, i => i.Value, Orders.Find<IEqualityComparer<TKey>>(order));
}

internal sealed class SortedDictionaryForm<TKey, TValue> : GatheredForm<ImmutableSortedDictionary<TKey, TValue>, (TKey Key, TValue Value)>
    where TKey : notnull
{
    protected override string OrderOf(ImmutableSortedDictionary<TKey, TValue> value) => Orders.NameOf(value.KeyComparer);

    protected override ReadOnlySpan<(TKey Key, TValue Value)> Of(ImmutableSortedDictionary<TKey, TValue> value) =>
        value.Select(p => (p.Key, p.Value)).ToArray();

    protected override ImmutableSortedDictionary<TKey, TValue> Gather(string order, (TKey Key, TValue Value)[] items) =>
        items.ToImmutableSortedDictionary(i => i.Key, i => i.Value, Orders.Find<IComparer<TKey>>(order));
}
