using CureWatch.Words;

namespace CureWatch.Service.Board;

/// <summary>Something that keeps the program itself from its work.</summary>
/// <param name="Tone">How urgent it is.</param>
/// <param name="Title">What is wrong.</param>
/// <param name="Since">Since when.</param>
/// <param name="Cause">Why.</param>
/// <param name="Consequence">What happens if nobody acts.</param>
/// <param name="Action">What to do.</param>
public sealed record TroubleView(Tone Tone, string Title, Moment Since, Sentence Cause, Sentence Consequence, Sentence Action);
