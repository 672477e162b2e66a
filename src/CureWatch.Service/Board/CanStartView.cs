using CureWatch.Words;

namespace CureWatch.Service.Board;

/// <summary>Whether a car can be coated now.</summary>
/// <param name="Tone">Whether it can.</param>
/// <param name="Sentence">The answer in a sentence.</param>
/// <param name="From">When waiting is over; null where there is nothing to wait for.</param>
/// <param name="Reasons">Every reason, the hardest first; those of several surfaces that differ in nothing but the surface are apart.</param>
/// <param name="Plans">The passes, of one person and of two, and the work on each surface by itself.</param>
/// <param name="Assumed">What the answer takes for granted.</param>
/// <param name="HeatCautions">What to take care of with the heat there is, or that would help.</param>
public sealed record CanStartView(
    Tone Tone,
    Sentence Sentence,
    Moment? From,
    IReadOnlyList<StartReasonView> Reasons,
    IReadOnlyList<Sentence> Plans,
    IReadOnlyList<Sentence> Assumed,
    IReadOnlyList<string> HeatCautions);

/// <summary>A reason not to start, or one to know before.</summary>
/// <param name="Tone">What it means for the start.</param>
/// <param name="Text">What is the matter.</param>
/// <param name="Help">What somebody can do about it; null where nobody has to.</param>
/// <param name="Until">When time alone has cured it; null where it does not.</param>
public sealed record StartReasonView(Tone Tone, Sentence Text, Sentence? Help, Moment? Until);
