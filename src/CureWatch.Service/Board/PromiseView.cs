using CureWatch.Words;

namespace CureWatch.Service.Board;

/// <summary>How what a customer was told stands.</summary>
/// <param name="Tone">How much it asks for.</param>
/// <param name="Text">The same in words, one time to say.</param>
/// <param name="Tell">The time that a press says was told; null where there is none to tell.</param>
/// <param name="Start">When the work that is left has to be begun; null where none is left.</param>
/// <param name="Cautions">What belongs beside what would get it back.</param>
public sealed record PromiseView(Tone Tone, Sentence Text, Moment? Tell, Sentence? Start, IReadOnlyList<string> Cautions);

/// <summary>The promises of all cars that are here.</summary>
/// <param name="Shop">The shop's name.</param>
/// <param name="Zone">Its time zone, for the page's own clock.</param>
/// <param name="Now">The instant.</param>
/// <param name="Troubles">What keeps the program itself from its work.</param>
/// <param name="Cars">The cars, the one most at risk first.</param>
public sealed record PromisesView(
    string Shop, string Zone, Moment Now, IReadOnlyList<TroubleView> Troubles, IReadOnlyList<(string Job, string Car, PromiseView How)> Cars);
