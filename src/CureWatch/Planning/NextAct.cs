using CureWatch.Curing;

namespace CureWatch.Planning;

/// <summary>Something a person has to do on a car next.</summary>
/// <param name="Kind">What.</param>
/// <param name="Surface">On which surface.</param>
/// <param name="Layer">On which layer.</param>
/// <param name="Section">On which section; null where it is all of them.</param>
/// <param name="From">From when on; null where it may be done at once.</param>
/// <param name="By">The last safe moment; null where there is none, or none to show people.</param>
/// <param name="IsLate">Whether that moment has passed.</param>
/// <param name="IsUrgent">Whether it goes before anything that can wait.</param>
/// <param name="JudgeByEye">Whether nobody can say a time: a level-off too short for one, a recoat that this climate does not reach.</param>
public sealed record NextAct(
    ActKind Kind,
    Surface Surface,
    int Layer,
    int? Section,
    DateTimeOffset? From,
    DateTimeOffset? By,
    bool IsLate = false,
    bool IsUrgent = false,
    bool JudgeByEye = false)
{
    /// <summary>Whether the surface is still warm from a lamp and has to cool first; then <see cref="From"/> is not before that, where it can be told.</summary>
    public bool LetCool { get; init; }

    /// <summary>Whether one press can tell that it was done. A find asks for a person's choice, a recoat outside its window for a look at the sheet.</summary>
    /// <param name="at">When it was done.</param>
    /// <returns>False where it has to be told in full, or is not due.</returns>
    public bool CanBeTold(DateTimeOffset at) => Kind switch
    {
        ActKind.Level or ActKind.ReWet => true,
        ActKind.Apply => !IsLate && !JudgeByEye && !LetCool && !(From > at),
        ActKind.Look => !(From > at),
        _ => false,
    };

    /// <summary>Whether it is the same thing to do, whatever its times are by now.</summary>
    /// <param name="other">The other.</param>
    /// <returns>True where it is.</returns>
    public bool IsSameAs(NextAct? other) => other is not null && Surface.Id == other.Surface.Id && IsSeenAs(other.Kind, other.Layer, null) && Section == other.Section;

    /// <summary>Whether it is the act that somebody had before their eyes.</summary>
    /// <param name="kind">What they saw; null where they do not say.</param>
    /// <param name="layer">The layer they saw; null where they do not say.</param>
    /// <param name="section">The section they saw; null where they do not say.</param>
    /// <returns>True where nothing they say speaks against it.</returns>
    public bool IsSeenAs(ActKind? kind, int? layer, int? section) =>
        (kind is null || kind == Kind) && (layer is null || layer == Layer) && (section is null || section == Section);

    /// <summary>The tap that tells it.</summary>
    /// <param name="id">The tap's id.</param>
    /// <param name="at">When it was done.</param>
    /// <param name="reportedAt">When it was told.</param>
    /// <param name="startedAt">The first wipe; null where nobody said.</param>
    /// <param name="by">Who reports.</param>
    /// <returns>The tap.</returns>
    public Tap ToldAs(string id, DateTimeOffset at, DateTimeOffset reportedAt, DateTimeOffset? startedAt, string? by) => new(
        id,
        at,
        reportedAt,
        Surface.Id,
        Kind switch { ActKind.Apply => Did.Applied, ActKind.Level => Did.Levelled, ActKind.Look => Did.Inspected, _ => Did.Reworked },
        Layer,
        Section,
        Kind is ActKind.Apply or ActKind.ReWet ? startedAt : null,
        Found: Kind == ActKind.Look ? Found.Clear : null,
        How: Kind == ActKind.ReWet ? How.ReWet : null,
        By: by);
}

/// <summary>What there may be to do on a car.</summary>
public enum ActKind
{
    /// <summary>Wipe a coat on.</summary>
    Apply,

    /// <summary>Level a coat.</summary>
    Level,

    /// <summary>Wet a coat again that was not levelled in time, and level it.</summary>
    ReWet,

    /// <summary>Look at it a second time, under light.</summary>
    Look,

    /// <summary>Work again what was found.</summary>
    Rework,
}
