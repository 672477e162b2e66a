namespace CureWatch.Readings;

/// <summary>Something that holds of the items of a trail up to one of them, and of none after it.</summary>
/// <typeparam name="T">What the trail holds.</typeparam>
/// <param name="item">An item, looked at where it is.</param>
/// <returns>Whether it holds.</returns>
public delegate bool TrailTest<T>(in T item);
