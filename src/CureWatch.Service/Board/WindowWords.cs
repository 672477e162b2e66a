using System.Diagnostics;
using CureWatch.Bays;
using CureWatch.Curing;
using CureWatch.Service.Documents;
using CureWatch.TimeWindows;
using CureWatch.Words;

namespace CureWatch.Service.Board;

/// <summary>Says a coat's windows: what to do now first, then what it still has before it.</summary>
internal sealed class WindowWords(ShopClock clock)
{
    private static readonly Sentence ByEye = $"smaller sections, judge by eye";

    public CoatView Of(CoatReport report)
    {
        Coat coat = report.Coat;
        (Tone tone, Sentence word, WindowLine? first) = coat.EndedAt is { } ended
            ? (Tone.Info, $"polished off", new WindowLine(Sentence.None, clock.Of(ended)))
            : report.AwaitsLevelling ? LevelOff(Find(report, WindowStage.LevelOff)!)
            : report.AwaitsLayer && Find(report, WindowStage.Recoat) is { } recoat ? Recoat(recoat, coat.Layer + 1)
            : Curing(report);
        return new CoatView(
            $"{coat.Surface.Id}-{coat.Layer}-{coat.Section}-{coat.AppliedAt.UtcTicks}",
            BoardWords.Of(coat),
            new CoatTarget(coat.Surface.Id, coat.Layer, coat.Section),
            tone,
            word,
            [
                .. new[] { first }.OfType<WindowLine>().Concat(report.Windows.Where(w => w.Stage >= WindowStage.KeepDry).Select(Cure).OfType<WindowLine>())
                    .Concat(BatchOf(coat)).Concat(Beyond(report)).Concat(Because(report)).DistinctBy(l => l.Before),
                .. report.Windows.Select(Mended).OfType<WindowLine>(),
            ],
            report.AwaitsLevelling,
            [.. report.Lamps.Select(l => (Sentence)$"{LampWords.Of(l)}")]);
    }

    /// <summary>When the next layer may go on; null where it may at once.</summary>
    public WindowLine? NextLayer(CoatReport below) => Find(below, WindowStage.Recoat) is { } recoat ? Recoat(recoat, below.Coat.Layer + 1).Line : null;

    private static IEnumerable<WindowLine> BatchOf(Coat coat) => coat.Batch is { } batch ? [new WindowLine($"Batch {batch}", null)] : [];

    private static IEnumerable<WindowLine> Beyond(CoatReport report) =>
        report.Windows.Where(w => w.State is not (WindowState.Done or WindowState.Missed)).Select(w => ExtrapolationWords.Of(w.Beyond)).OfType<CureWatch.Words.Sentence>()
            .Select(text => new WindowLine($"Reckoned beyond the sheet: {text}", null));

    private static IEnumerable<WindowLine> Because(CoatReport report) =>
        report.Windows.Where(w => w.State is not (WindowState.Done or WindowState.Missed)).SelectMany(w => w.Because)
            .Select(r => new WindowLine(r.Ends is { } ends ? (Sentence)$"{r.Text} {ends}" : $"{r.Text}", null));

    /// <summary>Keep-dry alone: what the car waits for.</summary>
    private WindowLine? Mended(Window window) =>
        window is { Stage: WindowStage.KeepDry, IfMended: { } mended } ? Line($"Put right now: keep dry until", mended.Latest) : null;

    private static Window? Find(CoatReport report, WindowStage stage) => report.Windows.FirstOrDefault(w => w.Stage == stage);

    private (Tone Tone, Sentence Word, WindowLine? Line) LevelOff(Window window)
    {
        DateTimeOffset? closes = window.ClosesAt?.Earliest;
        if (window.JudgeByEye)
        {
            return window.State == WindowState.Missed
                ? (Tone.Act, (Sentence)$"level now", new WindowLine($"{ByEye}; re-wet if it drags, then inspect", null))
                : (Tone.Act, (Sentence)$"look now", new WindowLine(ByEye, null));
        }

        return window.State switch
        {
            WindowState.Missed => (Tone.Act, $"too late", new WindowLine($"Re-wet and level now, then inspect. It closed", clock.Of(closes))),
            WindowState.Closing => (Tone.Act, $"level now", new WindowLine($"Level before anything else, by", clock.Of(closes))),
            WindowState.Open => (Tone.Act, $"level now", new WindowLine($"Level by", clock.Of(closes))),
            _ when clock.Now >= window.OpensAt.Earliest => (Tone.Soon, $"look now", new WindowLine($"Look now; level by", clock.Of(closes))),
            _ => (Tone.Info, $"flashing", Line($"Look from", window.OpensAt.Earliest)),
        };
    }

    private (Tone Tone, Sentence Word, WindowLine? Line) Recoat(Window window, int layer)
    {
        Moment? closes = clock.Of(window.ClosesAt?.Earliest);
        return window.State switch
        {
            WindowState.Upcoming when window.IsTooShort =>
                (Tone.Soon, $"layer {layer} to come", new WindowLine($"Layer {layer}: too short to time, see the sheet; at the latest by", closes)),
            WindowState.Upcoming => (Tone.Info, $"layer {layer} to come", Line($"Layer {layer} from", window.OpensAt.Latest)),
            WindowState.Open when closes is null => (Tone.Soon, $"layer {layer} may go on", new WindowLine($"Layer {layer} may go on now", null)),
            WindowState.Open => (Tone.Soon, $"layer {layer} may go on", new WindowLine($"Layer {layer} may go on, by", closes)),
            WindowState.Closing => (Tone.Act, $"layer {layer} now", new WindowLine($"Apply layer {layer} now, by", closes)),
            WindowState.Missed => (Tone.Act, $"recoat missed", new WindowLine($"See the sheet before layer {layer}. Recoat closed", closes)),
            WindowState.Done => (Tone.Fine, $"covered", null),
            _ => throw new UnreachableException($"{window.State}"),
        };
    }

    private static (Tone Tone, Sentence Word, WindowLine? Line) Curing(CoatReport report)
    {
        Window? keepDry = Find(report, WindowStage.KeepDry);
        if (keepDry is { ClosesAt: null })
        {
            return (Tone.Act, $"wet", new WindowLine($"Wet: dry it, then inspect", null));
        }

        return keepDry is not null && keepDry.State != WindowState.Done ? (Tone.Info, (Sentence)$"keep dry", null)
            : (Tone.Fine, IsRunning(WindowStage.NoWash) ? (Sentence)$"no wash yet" : IsRunning(WindowStage.FullCure) ? (Sentence)$"curing" : $"cured", null);

        bool IsRunning(WindowStage stage) => Find(report, stage) is { State: not WindowState.Done };
    }

    private WindowLine? Cure(Window window)
    {
        Sentence what = window.Stage switch
        {
            WindowStage.KeepDry => $"Keep dry until",
            WindowStage.NoWash => $"No wash until",
            _ => $"Fully cured by",
        };
        return window.State == WindowState.Done || window.ClosesAt is not { } closes ? null : Line(what, closes.Latest, Share(window));
    }

    private WindowLine Line(Sentence before, DateTimeOffset? at, double? share = null) =>
        at is null ? new WindowLine(before, null, $"not in this climate") : new WindowLine(before, clock.Of(at), Share: share);

    private double? Share(Window window) =>
        window.Stage == WindowStage.KeepDry && window is { OpensAt.Likely: { } from, ClosesAt.Latest: { } to } && to > from
            ? Math.Clamp((clock.Now - from) / (to - from), 0, 1)
            : null;
}
