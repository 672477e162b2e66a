using CureWatch.Service.Board;

namespace CureWatch.Service.Phone;

/// <summary>What can be told of a car besides what is next.</summary>
/// <param name="Frame">What is around it.</param>
/// <param name="Bay">The bay the phone is in.</param>
/// <param name="Job">The job.</param>
/// <param name="Car">The car, in the shop's words.</param>
/// <param name="TapNumber">How many taps were told.</param>
/// <param name="Surfaces">Its surfaces.</param>
/// <param name="Layers">How many layers are planned on any; a tap may name one more.</param>
/// <param name="Sections">How many sections any surface has.</param>
/// <param name="Chosen">The surface that is worked on; empty where none is.</param>
/// <param name="Places">Where it can be moved.</param>
/// <param name="Cautions">What to take care of with its products.</param>
/// <param name="Last">What was told last, while it can be taken back.</param>
/// <param name="Refused">What was sent and not taken.</param>
public sealed record TellView(
    Frame Frame,
    string Bay,
    string Job,
    string Car,
    int TapNumber,
    IReadOnlyList<string> Surfaces,
    int Layers,
    int Sections,
    string Chosen,
    IReadOnlyList<string> Places,
    IReadOnlyList<string> Cautions,
    ToldView? Last,
    RefusedForm Refused);
