namespace CureWatch.Readings;

/// <summary>Something that holds of the items of a trail up to one of them, and of none after it.</summary>
/// <typeparam name="T">What the trail holds.</typeparam>
/// <param name="item">An item, looked at where it is.</param>
/// <returns>Whether it holds.</returns>
public delegate bool TrailTest<T>(in T item);

/// <summary>The same by something that is given along, so that nothing has to be made for each question.</summary>
/// <typeparam name="T">What the trail holds.</typeparam>
/// <typeparam name="TBorder">What its items are held against.</typeparam>
/// <param name="item">An item, looked at where it is.</param>
/// <param name="border">What it is held against.</param>
/// <returns>Whether it holds.</returns>
public delegate bool TrailTest<T, in TBorder>(in T item, TBorder border);
