namespace CureWatch.Service.Journal;

/// <summary>A photo of a car, as the journal knows it.</summary>
/// <param name="Sha256">Of the picture as it is kept, in lower-case hexadecimal; its name on disk.</param>
/// <param name="Bytes">How long that is.</param>
/// <param name="WidthPx">Its width.</param>
/// <param name="HeightPx">Its height.</param>
/// <param name="Surface">The surface it shows; null where it is of the car.</param>
/// <param name="Layer">The layer it is about; null where it is of no coat.</param>
/// <param name="By">Who took it.</param>
internal sealed record Photo(string Sha256, long Bytes, int WidthPx, int HeightPx, string? Surface, int? Layer, string? By);
