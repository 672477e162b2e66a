using System.Globalization;
using CureWatch.Bays;
using CureWatch.Curing;
using CureWatch.Service.Settings;
using CureWatch.TimeWindows;
using CureWatch.Warnings;

namespace CureWatch.Service.Demo;

/// <summary>The words of a timeline.</summary>
internal static class TimelineWords
{
    public static string Clock(DateTimeOffset at, Shop shop) =>
        TimeZoneInfo.ConvertTime(at, shop.Plan.Hours.Zone).ToString("ddd HH:mm", CultureInfo.InvariantCulture);

    /// <returns>The words; null for what is told otherwise, or not at all.</returns>
    public static string? Of(ShopEvent happened) => happened switch
    {
        ShopEvent.JobOpened { Job: var job } => $"{job.Id}: booked into {job.Bay}",
        ShopEvent.TapTakenDown { Job: var job, Tap: var tap } => $"{job}: {Of(tap)}",
        ShopEvent.WarningRaised { Warning: { Subject: { Kind: not WarningKind.LevelDue } subject } warning } =>
            $"warning {Of(subject, warning.Surface)}: {AlarmRule.Of(subject.Kind).Action}",
        ShopEvent.WarningCleared { Subject: { Kind: not WarningKind.LevelDue } subject } => $"over: {Of(subject, subject.Surface)}",
        ShopEvent.CondensationBegan e => $"{e.Bay}: water condenses on the coldest panel",
        ShopEvent.CondensationWithdrawn e => $"{e.Bay}: what was read as water was a slip",
        ShopEvent.CondensationEnded e => $"{e.Bay}: no water condenses any more",
        ShopEvent.RulingTurned e => $"{e.Job}: {(e.IsReady ? "ready to be handed over" : "held again")}",
        ShopEvent.CarHandedOver e => $"{e.Job}: handed over",
        _ => null,
    };

    /// <summary>When a coat's windows opened and closed, as they were in the end.</summary>
    public static IEnumerable<(DateTimeOffset At, string Text)> OfWindows(string job, CoatReport coat, Shop shop)
    {
        string name = $"{job}: {Coat(coat.Coat.Surface.Id, coat.Coat.Layer, coat.Coat.Section)}";
        foreach (Window window in coat.Windows)
        {
            switch (window)
            {
                case { Stage: WindowStage.LevelOff, OpensAt.Likely: { } opens, ClosesAt.Earliest: { } closes }:
                    yield return (opens, $"{name} may be levelled, until {Clock(closes, shop)}");
                    break;
                case { Stage: WindowStage.Recoat, OpensAt.Latest: { } opens, ClosesAt.Earliest: { } closes } when !coat.Coat.IsOutermost:
                    yield return (opens, $"{name} takes the next layer, until {Clock(closes, shop)}");
                    break;
                case { Stage: WindowStage.KeepDry, ClosesAt.Latest: { } closes }:
                    yield return (closes, $"{name} need not be kept dry any more");
                    break;
            }
        }
    }

    /// <summary>Which faults hold a car up, and when it would be over without them, a colon before it; empty where none does.</summary>
    public static string OfFaults(JobReport report, Shop shop)
    {
        IEnumerable<WindowReason> reasons = report.Surfaces.SelectMany(s => s.Coats).SelectMany(c => c.Windows).SelectMany(w => w.Because);
        string[] faults = [.. reasons.Where(r => r.To is null).Select(r => r.Text.ToString()).Distinct()];
        return faults.Length == 0 ? "" : $": {string.Join(' ', faults)} {MendedWords.Of(report.Ruling.IfMended?.Latest, shop.Plan.Hours.Zone)}";
    }

    private static string Of(Tap tap)
    {
        string what = tap.Surface is null ? "whole car" : Coat(tap.Surface, tap.Layer, tap.Section);
        string found = tap.Found is { } f ? $" {WireName<Found>.Of(f)}" : "";
        string late = tap.ReportedAt - tap.At > Untimely.Limit ? ", told late" : "";
        string note = tap.Note is null ? "" : $" ({tap.Note})";
        return $"{what} {WireName<Did>.Of(tap.Did)}{found}{late}{(tap.By is null ? "" : $" by {tap.By}")}{note}";
    }

    private static string Of(Subject subject, string? surface)
    {
        string? what = surface is null || subject.Layer == 0 ? surface : Coat(surface, subject.Layer, subject.Section);
        string about = string.Join(' ', new[] { subject.Bay, subject.Probe, subject.Job, what }.OfType<string>());
        return $"{WireName<WarningKind>.Of(subject.Kind)}, {about}";
    }

    private static string Coat(string surface, int? layer, int? section) =>
        surface + (layer is null ? "" : $" layer {layer}") + (section is null ? "" : $" section {section}");
}
