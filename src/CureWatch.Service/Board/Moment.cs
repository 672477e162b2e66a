using CureWatch.Words;

namespace CureWatch.Service.Board;

/// <summary>An instant as the page shows it: in the shop's words, with the absolute instant behind it for a countdown.</summary>
/// <param name="At">The instant.</param>
/// <param name="Text">In the shop's time zone, with as much of a date as is needed.</param>
/// <param name="Away">How far away it is, for a page without scripts.</param>
public sealed record Moment(DateTimeOffset At, Sentence Text, Sentence Away);
