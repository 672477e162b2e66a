using CureWatch.Service.Board;
using CureWatch.Words;

namespace CureWatch.Service.Phone;

/// <summary>One car on the phone of whoever works on it.</summary>
/// <param name="Frame">What is around it.</param>
/// <param name="Bay">The bay the phone is in.</param>
/// <param name="Elsewhere">Where the car is instead; null where it is in that bay.</param>
/// <param name="Car">The car, as the board has it.</param>
/// <param name="Acts">What is to be done, the next first.</param>
/// <param name="Last">What was told last, while it can be taken back; null after that.</param>
/// <param name="Warnings">What stands against it, the most urgent first.</param>
/// <param name="Refused">What was sent and not taken.</param>
public sealed record PhoneView(
    Frame Frame,
    string Bay,
    Sentence? Elsewhere,
    CarView Car,
    IReadOnlyList<ActView> Acts,
    ToldView? Last,
    IReadOnlyList<WarningView> Warnings,
    RefusedForm Refused)
{
    /// <summary>Whether a coat is flashing: then nothing else is on the screen.</summary>
    public bool IsLevelling => Acts.Any(a => a.IsLevelling);

    /// <summary>The surfaces that came in, the slowest to dry first.</summary>
    public IReadOnlyList<string> ComeIn { get; init; } = [];

    /// <summary>Its photos, the newest first.</summary>
    public IReadOnlyList<PhotoView> Photos { get; init; } = [];

    /// <summary>How many layers any of its surfaces gets.</summary>
    public int Layers { get; init; }

    /// <summary>How much there is to do after what is next.</summary>
    public int Coming { get; init; }

    /// <summary>What can be gone on with while the service is away.</summary>
    public IReadOnlyList<AloneView> Alone { get; init; } = [];
}

/// <summary>Something to be done, with its buttons.</summary>
/// <param name="Key">Tells it from the others on the page.</param>
/// <param name="Next">What it is.</param>
/// <param name="Coat">The coat it is about, as a person says it.</param>
/// <param name="From">From when on; null where it may be done at once.</param>
/// <param name="By">The last safe moment; null where there is none, or none to show.</param>
/// <param name="Until">What the last safe moment is.</param>
/// <param name="IsAhead">Whether it may not be done yet.</param>
/// <param name="IsLevelling">Whether it is what a person must be called to.</param>
/// <param name="IfLate">What to call once it is late.</param>
/// <param name="Choices">What else may be pressed.</param>
/// <param name="Batch">The batch of its product that was told last in its bay; empty where none was, null where nothing is to be wiped on.</param>
public sealed record ActView(
    string Key,
    NextView Next,
    Sentence Coat,
    Moment? From,
    Moment? By,
    string Until,
    bool IsAhead,
    bool IsLevelling,
    string IfLate,
    IReadOnlyList<(string Did, string Words)> Choices,
    string? Batch)
{
    /// <summary>Tells a coat since its last wipe from all others, for what calls somebody to it; null where nobody is called.</summary>
    public string? Call { get; init; }
}

/// <summary>A surface that somebody goes on with while the service is away: the phone reckons from how long a coat begun now would take.</summary>
/// <param name="Surface">The surface.</param>
/// <param name="Layer">The layer that goes on.</param>
/// <param name="Product">What goes on.</param>
/// <param name="LookAfter">From the end of the wipe-on until it may be levelled; null where nobody can tell.</param>
/// <param name="ByAfter">From the end of the wipe-on until the last safe moment; null where nobody can tell.</param>
/// <param name="HasToBeLevelled">Whether there is anything to level.</param>
/// <param name="IfLate">What to call once it is late.</param>
/// <param name="Sections">The sections still to go on, each as a person says it.</param>
/// <param name="Cautions">What to take care of.</param>
public sealed record AloneView(
    string Surface,
    int Layer,
    string Product,
    TimeSpan? LookAfter,
    TimeSpan? ByAfter,
    bool HasToBeLevelled,
    string IfLate,
    IReadOnlyList<(int Section, Sentence Coat)> Sections,
    IReadOnlyList<string> Cautions);

/// <summary>What somebody told.</summary>
/// <param name="Id">The tap's id; null where it has none, and can be neither corrected nor taken back.</param>
/// <param name="Text">What, in words.</param>
/// <param name="At">When it was done.</param>
/// <param name="ReportedAt">When it was told.</param>
/// <param name="Wall">When it was done, for a form.</param>
/// <param name="By">Who told it; null where nobody said.</param>
/// <param name="Note">In their words; null where there are none.</param>
/// <param name="Holds">Whether it counts: neither corrected nor taken back.</param>
/// <param name="UndoneUntil">Until when it is taken back as if it had never been told.</param>
/// <param name="Same">What a form says to tell the same again, but for its batch.</param>
/// <param name="Batch">The batch that was used, empty where nobody said; null where nothing was wiped on.</param>
/// <param name="Stamp">When it was done, to the millisecond.</param>
public sealed record ToldView(
    string? Id,
    Sentence Text,
    Moment At,
    Moment ReportedAt,
    string Wall,
    string? By,
    string? Note,
    bool Holds,
    DateTimeOffset UndoneUntil,
    IReadOnlyList<(string Name, string Value)> Same,
    string? Batch,
    string Stamp)
{
    /// <summary>Its coat, as the page's script calls it, and when somebody said its first wipe was; null where nobody did.</summary>
    public (string Coat, string At)? FirstWipe { get; init; }

    /// <summary>Where it was done, for a form; null where it is of no surface.</summary>
    public ToldPlace? Place { get; init; }
}

/// <summary>Where something was done, for a form.</summary>
/// <param name="Surface">The surface; empty for all of them.</param>
/// <param name="Layer">The layer; empty where nobody said, null where it is of none.</param>
/// <param name="Section">The section; empty where nobody said, null where it is of none.</param>
/// <param name="Begun">When the first wipe was, on the shop's wall clock; empty where nobody said, null where it has none.</param>
public sealed record ToldPlace(string Surface, string? Layer, string? Section, string? Begun);
