using System.Globalization;
using System.Text;
using CureWatch.Bays;
using CureWatch.Service.Documents;
using CureWatch.Service.Pump;

namespace CureWatch.Service.Tests.Pump;

/// <summary>Everything people can see of a register, as text: what two registers have to agree on.</summary>
internal static class States
{
    public static string Text(Register register)
    {
        Shop shop = register.Shop!;
        var text = new StringBuilder();
        text.AppendLine(CultureInfo.InvariantCulture, $"{register.Sequence} {register.At:O} {shop.Now:O} {register.Turns} {ShopFold.NextDueAt(shop):O}");
        text.AppendJoin('\n', register.Refusals.Select(r => $"{r.Key} {r.Value}")).AppendLine();
        text.AppendJoin('\n', shop.Warnings).AppendLine();
        text.AppendJoin('\n', shop.Bays.Values.OrderBy(b => b.Plan.Bay, StringComparer.Ordinal).SelectMany(b => b.Alarms)).AppendLine();
        text.AppendJoin('\n', register.Settings.Documents.Values).AppendLine();
        foreach (JobState job in shop.JobsInOrder)
        {
            using var document = new StringWriter(CultureInfo.InvariantCulture);
            JsonOutput.WriteDocument(document, json => ReplayJson.Write(json, JobReport.Of(shop, job.Job.Id), shop.Tally));
            text.Append(document).AppendLine(CultureInfo.InvariantCulture, $"{job.IsReady} {job.RuleAt:O} {job.LeftAt:O} {register.Jobs[job.Job.Id].StartedAt:O}");
        }

        return text.ToString();
    }
}
