using System.Globalization;
using System.Text;
using CureWatch.Bays;
using CureWatch.Handover;
using CureWatch.Planning;
using CureWatch.Service.Documents;

namespace CureWatch.Service.Commands;

/// <summary>How a promise stands, in words and the shop's own time.</summary>
internal static class PromiseText
{
    public static string Of(PromiseReport report)
    {
        var text = new StringBuilder();
        text.AppendLine(report.Spoken.ToString());
        if (report.Outlook.CollectFrom is { } collect)
        {
            text.AppendLine($"  collect from {WallClock.Of(collect, report.At, report.Zone)} by the slow bound");
        }

        foreach (Hold hold in report.Outlook.ForPeople)
        {
            text.AppendLine($"  held: {hold.Surface}: {hold.Text}");
        }

        if (report.LastStart.Value is { } start)
        {
            text.AppendLine($"  {start.Text}");
        }

        if (report.Advice.Value is { IsNeeded: true } advice)
        {
            text.AppendLine(CultureInfo.InvariantCulture, $"  to reach {100 * advice.Target:0} %: {advice.Text}");
            foreach (string caution in Cautions.BesideAdvice(advice))
            {
                text.AppendLine(caution);
            }
        }

        return text.ToString();
    }
}
