using System.Text;
using CureWatch.Bays;
using CureWatch.Planning;
using CureWatch.Service.Documents;
using CureWatch.Service.Settings;
using CureWatch.Words;

namespace CureWatch.Service.Commands;

/// <summary>Whether somebody can start, in words and the shop's own time.</summary>
internal static class StartText
{
    public static string Of(StartReport report)
    {
        StartDecision decision = report.Decision;
        var text = new StringBuilder();
        text.AppendLine(decision.Text.ToString());
        foreach (StartReason reason in decision.Reasons)
        {
            text.AppendLine(Line(reason));
        }

        foreach (StartAnswer answer in decision.Answers)
        {
            string layer = answer.Evidence.Next is { } next ? $", layer {next.Layer}" : "";
            string from = answer.From?.Latest is { } at ? $", not before {decision.Day.Clock(at)}" : "";
            text.AppendLine($"{answer.Evidence.Surface.Id}{layer}: {WireName<StartVerdict>.Of(answer.Verdict)}{from}");
            foreach (StartReason reason in answer.Reasons)
            {
                text.AppendLine(Line(reason));
            }

            foreach (LayerWork work in answer.Plan?.Layers ?? [])
            {
                string passes = work.IsTimed ? $"{work.SectionsPerPass} a pass" : "judge by eye";
                text.AppendLine(
                    $"  layer {work.Layer}, {work.Sections} sections, {passes}: {decision.Day.Clock(work.BeginsAt)} to {decision.Day.Clock(work.DoneAt)}");
            }

            if (answer.DryAt is { } dry)
            {
                text.AppendLine($"  keep dry until {decision.Day.Clock(dry.Latest)} at the latest, likely {decision.Day.Clock(dry.Likely)}");
            }
        }

        foreach (Sentence assumed in decision.Assumed)
        {
            text.AppendLine($"assumed: {assumed}");
        }

        foreach (string caution in Cautions.BesideStart(decision))
        {
            text.AppendLine(caution);
        }

        return text.ToString();
    }

    private static string Line(StartReason reason) =>
        $"  {WireName<StartReasonKind>.Of(reason.Kind)}: {reason.Text}{(reason.Help is { } help ? $" {help}" : "")}";
}
