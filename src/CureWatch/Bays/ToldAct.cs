using System.Collections.Immutable;
using CureWatch.Planning;
using CureWatch.Products;

namespace CureWatch.Bays;

/// <summary>An act as it is told to a person.</summary>
/// <param name="Act">The act.</param>
/// <param name="Text">In words, as of an instant.</param>
/// <param name="Sheet">The sheet of the product it is about.</param>
/// <param name="Against">What speaks against a coat that is next, the hardest first; it may be told all the same.</param>
public sealed record ToldAct(NextAct Act, Words.Sentence Text, ProductSheet Sheet, ImmutableArray<StartReason> Against);
