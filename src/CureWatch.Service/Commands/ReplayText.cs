using System.Text;
using CureWatch.Bays;
using CureWatch.Handover;
using CureWatch.Service.Documents;
using CureWatch.Service.Settings;
using CureWatch.TimeWindows;
using CureWatch.Warnings;

namespace CureWatch.Service.Commands;

/// <summary>A replayed day in words, in the shop's own time.</summary>
internal sealed class ReplayText
{
    private readonly StringBuilder _text = new();
    private readonly DayReplay _day;

    private ReplayText(DayReplay day) => _day = day;

    public static string Of(DayReplay day)
    {
        var words = new ReplayText(day);
        if (day.Report is not { } report)
        {
            words.Line("no job");
            words.Readings();
            return words._text.ToString();
        }

        words.Handover(report);
        words.Next(report);
        words.Coats(report);
        words.CoolDowns(report);
        words.Warnings(report);
        words.Learning(report);
        words.Readings();
        words.CautionsBesideAdvice(report);
        words.Line("CureWatch advises: the product's data sheet, local codes and the person who looks at the car decide.");
        return words._text.ToString();
    }

    private void Handover(JobReport report)
    {
        Ruling ruling = report.Ruling;
        Line($"{report.Job.Id} at {Clock(report.At)}: {(ruling.IsReady ? "ready" : "hold")}");
        if (ruling.ReadyAt is { } ready)
        {
            Line($"  ready {Bounds(ready)}; collect from {Clock(ruling.CollectFrom)}");
        }

        Line($"  {report.Assumes}");
        if (report.Promise is { Outlook.PromisedAt: not null } promise)
        {
            Line($"  {promise.Text}");
        }

        foreach (Hold hold in ruling.Holds)
        {
            Line($"  hold {WireName<HoldKind>.Of(hold.Kind)}: {hold.Surface}{Coat(hold.Layer, hold.Section)}: {hold.Text}");
        }

        foreach (Note note in ruling.Notes)
        {
            Line($"  note: {note.Surface}{Coat(note.Layer, null)}: {note.Text}");
        }
    }

    private void Next(JobReport report)
    {
        foreach (ToldAct told in report.Next.Take(2))
        {
            Line($"  {(told == report.Next[0] ? "next" : "then")}: {told.Text}");
            foreach (string caution in NextJson.CautionsOf(told))
            {
                Line($"    {caution.ReplaceLineEndings(" ")}");
            }
        }
    }

    private void Learning(JobReport report)
    {
        foreach (LearningReport learnt in report.Learning)
        {
            Line($"  learnt: {learnt.Product} in {learnt.Bay}: {LearningWords.Of(learnt)}");
        }
    }

    private void Coats(JobReport report)
    {
        foreach ((Curing.Surface surface, IReadOnlyList<CoatReport> coats) in report.Surfaces)
        {
            foreach (CoatReport coat in coats)
            {
                string name = surface.Id + Coat(coat.Coat.Layer, coat.Coat.Section);
                Line($"{name}: {surface.SheetOf(coat.Coat.Layer).Product}{(coat.Coat.Batch is { } batch ? $" batch {batch}" : "")}, {coat.ReferenceHours.Likely:0.0} reference hours");
                foreach (Window window in coat.Windows.Where(w => !coat.Coat.IsOutermost || w.Stage != WindowStage.Recoat))
                {
                    Line($"  {WireName<WindowStage>.Of(window.Stage),-9} {WireName<WindowState>.Of(window.State),-8} {Times(window)}{(ExtrapolationWords.Of(window.Beyond) is { } beyond ? $"; {beyond}" : "")}");
                }

                foreach (string because in coat.Windows.SelectMany(w => w.Because).Select(b => b.Ends is { } ends ? $"{b.Text} {ends}" : b.Text.ToString()).Distinct())
                {
                    Line($"  {because}");
                }

                if (coat.Windows.FirstOrDefault(w => w.Stage == WindowStage.KeepDry)?.IfMended is { } mended)
                {
                    Line($"  keep-dry: {MendedWords.Of(mended.Latest, _day.Plan.Hours.Zone)}");
                }

                foreach (CoatLamp lamp in coat.Lamps)
                {
                    Line($"  {LampWords.Of(lamp)}");
                }
            }
        }
    }

    private void CoolDowns(JobReport report)
    {
        foreach ((string surface, Curing.CoolDown warm) in report.CoolDowns)
        {
            Line(LampWords.Of(surface, warm, at => CureWatch.Words.Sentence.Named(Clock(at))).ToString());
        }
    }

    private void Warnings(JobReport report)
    {
        foreach (Warning warning in report.Warnings)
        {
            Subject subject = warning.Subject;
            string about = string.Join(' ', new[] { subject.Bay, subject.Probe, warning.Surface }.OfType<string>());
            string coat = Coat(subject.Layer > 0 ? subject.Layer : null, subject.Section > 0 ? subject.Section : null);
            string cleared = warning.ClearedAt is { } at ? $"until {Clock(at)}" : "still stands";
            string kind = WireName<WarningKind>.Of(subject.Kind);
            Line($"{Clock(warning.RaisedAt)} {kind}: {about}{coat}, {cleared}. {AlarmRule.Of(subject.Kind).Action}");
        }
    }

    private void CautionsBesideAdvice(JobReport report)
    {
        IEnumerable<string?> underLamps = report.Surfaces.Any(s => s.Coats.Any(c => !c.Lamps.IsEmpty)) ? [Cautions.Lamp] : [];
        foreach (string caution in report.Warnings.Select(w => Cautions.Beside(w.Subject)).Concat(underLamps).OfType<string>().Distinct())
        {
            Line(caution);
        }
    }

    private void Readings() => Line($"readings: {TallyText.Of(_day.Readings)}");

    private string Times(Window window) => window switch
    {
        { JudgeByEye: true } => "smaller sections, judge by eye",
        { Stage: WindowStage.LevelOff } =>
            $"look from {Clock(window.OpensAt.Earliest)}, level from {Clock(window.OpensAt.Likely)}, by {Clock(window.ClosesAt?.Earliest)}",
        { Stage: WindowStage.Recoat, ClosesAt: null } => $"from {Clock(window.OpensAt.Latest)}",
        { Stage: WindowStage.Recoat } => $"from {Clock(window.OpensAt.Latest)} to {Clock(window.ClosesAt?.Earliest)}",
        { ClosesAt: { } closes } => $"until {Bounds(closes)}",
        _ => "until it is dried and inspected",
    };

    private string Bounds(TimeBounds at) => $"{Clock(at.Likely)} (earliest {Clock(at.Earliest)}, latest {Clock(at.Latest)})";

    private string Clock(DateTimeOffset? at) =>
        at is { } instant ? $"{TimeZoneInfo.ConvertTime(instant, _day.Plan.Hours.Zone):ddd HH:mm:ss}" : "never in this climate";

    private static string Coat(int? layer, int? section) =>
        (layer is null ? "" : $", layer {layer}") + (section is null ? "" : $", section {section}");

    private void Line(string text) => _text.AppendLine(text);
}
