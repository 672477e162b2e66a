namespace CureWatch.Planning;

/// <summary>Says an act as one would across the bay.</summary>
/// <param name="zone">The shop's time zone.</param>
/// <param name="now">The present: what is today goes without its day.</param>
public sealed class ActWords(TimeZoneInfo zone, DateTimeOffset now)
{
    /// <summary>Says an act.</summary>
    /// <param name="act">The act.</param>
    /// <returns>A sentence without a full stop, such as <c>bonnet, section 2: look now, level by 16:15</c>.</returns>
    public string Of(NextAct act) => Of(act, against: null);

    /// <summary>Says an act that something may speak against.</summary>
    /// <param name="act">The act.</param>
    /// <param name="against">What does; null where nothing does.</param>
    /// <returns>The act, and why it must wait.</returns>
    public string Of(NextAct act, StartReason? against) => against is null
        ? Said(act, "now")
        : $"{Said(act, "when it is ready")}. Not yet: {against.Text}";

    private string Said(NextAct act, string unlessLater) => $"{Where(act)}: {(act.LetCool ? "let it cool first; " : "")}{What(act, unlessLater)}";

    private static string Where(NextAct act) =>
        act.Surface.Id
        + (act.Surface.Layers > 1 || act.Layer > 1 ? $", layer {act.Layer}" : "")
        + (act.Section is { } section && act.Surface.Sections > 1 ? $", section {section}" : "");

    private string What(NextAct act, string unlessLater) => act.Kind switch
    {
        ActKind.Apply when act.IsLate => $"recoat closed {Clock(act.By)}; see the sheet before layer {act.Layer} goes on",
        ActKind.Apply when act.JudgeByEye => $"apply {act.Surface.SheetOf(act.Layer).Product} when recoat opens, which this climate does not reach",
        ActKind.Apply => $"apply {act.Surface.SheetOf(act.Layer).Product} {Span(act, unlessLater)}",
        ActKind.Level when act.JudgeByEye => "level; smaller sections, judge by eye",
        ActKind.Level => $"look {When(act, unlessLater)}, level{(act.By is null ? "" : $" by {Clock(act.By)}")}",
        ActKind.ReWet => $"Re-wet and level {When(act, unlessLater)}{(act.By is null ? "" : $"; it closed {Clock(act.By)}")}",
        ActKind.Look => $"second look under light {Span(act, unlessLater)}",
        _ => $"something was found {Clock(act.From)}; rework it, then look again",
    };

    private string Span(NextAct act, string unlessLater) =>
        When(act, unlessLater) + (act.By is null ? "" : act.IsLate ? $", it was due by {Clock(act.By)}" : $", by {Clock(act.By)}");

    private string When(NextAct act, string unlessLater) => act.From > now ? $"from {Clock(act.From)}" : act.LetCool ? "then" : unlessLater;

    private string Clock(DateTimeOffset? at) => WallClock.Of(at!.Value, now, zone);
}
