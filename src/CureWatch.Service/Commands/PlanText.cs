using System.Text;
using CureWatch.Planning;
using CureWatch.Reports;
using CureWatch.Service.Documents;
using CureWatch.Service.Settings;
using CureWatch.Words;

namespace CureWatch.Service.Commands;

/// <summary>The day plan in words and the shop's own time.</summary>
internal static class PlanText
{
    public static string Of(DayPlan plan)
    {
        var words = new PlanWords(plan);
        var text = new StringBuilder();
        foreach (BayDay bay in plan.Bays)
        {
            text.AppendLine(words.Of(bay).ToString());
            foreach (CarDay car in bay.Cars)
            {
                text.AppendLine($"  {words.Of(car, car.Job.Car)}");
                foreach (StartReason reason in car.Asked.Reasons)
                {
                    text.AppendLine($"    {WireName<StartReasonKind>.Of(reason.Kind)}: {reason.Text}{(reason.Help is { } help ? $" {help}" : "")}");
                }
            }

            foreach (PlannedWork work in bay.Work)
            {
                text.AppendLine($"  {work.Id}: {words.Of(work)}{(work.By is null ? "" : $", {work.By}")}{(work.Note is null ? "" : $" ({work.Note})")}");
            }
        }

        foreach (WorkConflict conflict in plan.Conflicts)
        {
            text.AppendLine($"conflict: {words.Of(conflict)}");
        }

        foreach (Sentence assumed in plan.Assumed)
        {
            text.AppendLine($"assumed: {assumed}");
        }

        foreach (string caution in Cautions.Beside(plan))
        {
            text.AppendLine(caution);
        }

        return text.ToString();
    }
}
