using CureWatch.Service.Journal;

namespace CureWatch.Service.Pump;

/// <summary>A photo of a car.</summary>
/// <param name="Photo">The photo.</param>
/// <param name="At">When it was kept.</param>
/// <param name="Removed">When its picture was taken away, and by whom; null while it is there.</param>
internal sealed record KeptPhoto(Photo Photo, DateTimeOffset At, (DateTimeOffset At, string? By)? Removed = null);
