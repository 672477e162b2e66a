using CureWatch.Words;

namespace CureWatch.Service.Board;

/// <summary>A photo of a car on a page.</summary>
/// <param name="Link">Where its picture is.</param>
/// <param name="About">What it shows.</param>
/// <param name="At">When it was kept.</param>
/// <param name="By">Who took it; null where nobody said.</param>
/// <param name="WidthPx">How wide it is on the page.</param>
/// <param name="HeightPx">How high it is there.</param>
public sealed record PhotoView(string Link, Sentence About, Moment At, string? By, int WidthPx, int HeightPx);
