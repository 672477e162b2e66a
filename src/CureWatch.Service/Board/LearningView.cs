using CureWatch.Words;

namespace CureWatch.Service.Board;

/// <summary>What the shop's taps taught, in words.</summary>
/// <param name="Shop">The shop's name.</param>
/// <param name="Troubles">What keeps the program itself from its work.</param>
/// <param name="Products">The products somebody told something about.</param>
/// <param name="Resettable">Every product, with its name.</param>
/// <param name="Bays">The bays.</param>
/// <param name="Faults">Why what was asked for was not done.</param>
public sealed record LearningView(
    string Shop,
    IReadOnlyList<TroubleView> Troubles,
    IReadOnlyList<LearntProductView> Products,
    IReadOnlyList<(string Product, string Name)> Resettable,
    IReadOnlyList<string> Bays,
    IReadOnlyList<Sentence> Faults);

/// <summary>What was taught about a product.</summary>
/// <param name="Name">Its name.</param>
/// <param name="Revision">The revision of its sheet.</param>
/// <param name="Lines">One for each stage and bay.</param>
public sealed record LearntProductView(string Name, int Revision, IReadOnlyList<LearntLineView> Lines);

/// <summary>What was taught about a stage in a bay.</summary>
/// <param name="Bay">The bay.</param>
/// <param name="Text">What it comes to.</param>
/// <param name="Range">How sure that is; null while nothing was learnt.</param>
/// <param name="Ignored">What taught nothing, and why; null where all did.</param>
/// <param name="Since">When the first tap was.</param>
/// <param name="Disagrees">Whether the taps say more than is believed of them.</param>
public sealed record LearntLineView(string Bay, Sentence Text, Sentence? Range, Sentence? Ignored, Moment? Since, bool Disagrees);
