using CureWatch.Words;

namespace CureWatch.Planning;

/// <summary>Says an act as one would across the bay.</summary>
/// <param name="zone">The shop's time zone.</param>
/// <param name="now">The present: what is today goes without its day.</param>
public sealed class ActWords(TimeZoneInfo zone, DateTimeOffset now)
{
    /// <summary>Says an act.</summary>
    /// <param name="act">The act.</param>
    /// <returns>A sentence without a full stop, such as <c>bonnet, section 2: look now, level by 16:15</c>.</returns>
    public Sentence Of(NextAct act) => Of(act, against: null);

    /// <summary>Says an act that something may speak against.</summary>
    /// <param name="act">The act.</param>
    /// <param name="against">What does; null where nothing does.</param>
    /// <returns>The act, and why it must wait.</returns>
    public Sentence Of(NextAct act, StartReason? against) => against is null
        ? Said(act, $"now")
        : $"{Said(act, $"when it is ready")}. Not yet: {against.Text}";

    private Sentence Said(NextAct act, Sentence unlessLater) => $"{Where(act)}: {(act.LetCool ? (Sentence)$"let it cool first; " : $"")}{What(act, unlessLater)}";

    private static Sentence Where(NextAct act) =>
        (act.Surface.Layers > 1 || act.Layer > 1, act.Surface.Sections > 1 ? act.Section : null) switch
        {
            (true, { } section) => $"{act.Surface.Id}, layer {act.Layer}, section {section}",
            (true, null) => $"{act.Surface.Id}, layer {act.Layer}",
            (false, { } section) => $"{act.Surface.Id}, section {section}",
            _ => $"{act.Surface.Id}",
        };

    private Sentence What(NextAct act, Sentence unlessLater) => act.Kind switch
    {
        ActKind.Apply when act.IsLate => $"recoat closed {Clock(act.By)}; see the sheet before layer {act.Layer} goes on",
        ActKind.Apply when act.JudgeByEye => $"apply {act.Surface.SheetOf(act.Layer).Product} when recoat opens, which this climate does not reach",
        ActKind.Apply => $"apply {act.Surface.SheetOf(act.Layer).Product} {Span(act, unlessLater)}",
        ActKind.Level when act.JudgeByEye => $"level; smaller sections, judge by eye",
        ActKind.Level when act.By is null => $"look {When(act, unlessLater)}, level",
        ActKind.Level => $"look {When(act, unlessLater)}, level by {Clock(act.By)}",
        ActKind.ReWet when act.By is null => $"Re-wet and level {When(act, unlessLater)}",
        ActKind.ReWet => $"Re-wet and level {When(act, unlessLater)}; it closed {Clock(act.By)}",
        ActKind.Look => $"second look under light {Span(act, unlessLater)}",
        _ => $"something was found {Clock(act.From)}; rework it, then look again",
    };

    private Sentence Span(NextAct act, Sentence unlessLater) => act.By is null ? When(act, unlessLater)
        : act.IsLate ? (Sentence)$"{When(act, unlessLater)}, it was due by {Clock(act.By)}"
        : $"{When(act, unlessLater)}, by {Clock(act.By)}";

    private Sentence When(NextAct act, Sentence unlessLater) => act.From > now ? (Sentence)$"from {Clock(act.From)}" : act.LetCool ? $"then" : unlessLater;

    private Sentence Clock(DateTimeOffset? at) => WallClock.Of(at!.Value, now, zone);
}
