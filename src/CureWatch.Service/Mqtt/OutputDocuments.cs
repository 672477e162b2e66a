using CureWatch.Bays;
using CureWatch.Products;
using CureWatch.Psychrometrics;
using CureWatch.Service.Documents;
using CureWatch.Service.Pump;
using CureWatch.Service.Settings;
using CureWatch.Warnings;

namespace CureWatch.Service.Mqtt;

/// <summary>Everything a shop publishes, by topic, as it stands at an instant.</summary>
internal static class OutputDocuments
{
    /// <summary>The warnings that stand, and what troubles the program itself.</summary>
    public static Dictionary<string, OutputDocument> Warnings(Shop shop, IEnumerable<Trouble> troubles)
    {
        var topics = new Topics(shop.Plan.Shop);
        var documents = new Dictionary<string, OutputDocument>(StringComparer.Ordinal);
        foreach (int number in shop.Standing.Values)
        {
            Warning warning = shop.Warnings[number];
            string bay = BayOf(shop, warning);
            documents[topics.Warning(bay, number)] = Of(warning, bay);
        }

        foreach (Trouble trouble in troubles)
        {
            documents[topics.Trouble(WireName<WarningKind>.Of(trouble.Kind))] = OutputDocument.Of(_ => { }, json => TroubleJson.Write(json, trouble));
        }

        return documents;
    }

    /// <summary>All but the warnings: bays whose air is not heard are missing, and cars that have left.</summary>
    public static Dictionary<string, OutputDocument> Others(Shop shop)
    {
        var topics = new Topics(shop.Plan.Shop);
        var documents = new Dictionary<string, OutputDocument>(StringComparer.Ordinal) { [topics.Status] = OutputDocument.Of("online"u8) };
        foreach (BayPlan bay in shop.Plan.Bays)
        {
            AirReport air = BayReport.Of(shop, bay.Bay).Airs[0];
            if (air is { Climate: { } climate, MeasuredAt: { } at })
            {
                documents[topics.Climate(bay.Bay)] = Of(climate, at);
            }
        }

        foreach (JobState job in shop.JobsInOrder)
        {
            if (job.LeftAt is null)
            {
                var report = JobReport.Of(shop, job.Job.Id);
                documents[topics.Windows(job.Job.Id)] = Windows(report);
                documents[topics.Handover(job.Job.Id)] = Handover(report);
            }
        }

        return documents;
    }

    private static OutputDocument Of(BayClimate climate, DateTimeOffset at) => OutputDocument.Of(
        _ => { },
        json =>
        {
            json.WriteInstant("at", at);
            ClimateJson.WriteKeys(json, climate, climate.Judge(SheetLimits.UsualSpreadMinK));
        });

    private static OutputDocument Windows(JobReport report) => OutputDocument.Of(
        json => json.WriteInstant("at", report.At),
        json =>
        {
            json.WriteString("job", report.Job.Id);
            json.WriteArray("surfaces", report.Surfaces, s => JobJson.WriteSurface(json, s.Surface, s.Coats));
        });

    private static OutputDocument Handover(JobReport report) => OutputDocument.Of(
        json => json.WriteInstant("at", report.At),
        json =>
        {
            json.WriteString("job", report.Job.Id);
            JobJson.WriteRuling(json, report.Ruling);
        });

    private static OutputDocument Of(Warning warning, string bay) => OutputDocument.Of(
        _ => { },
        json =>
        {
            Subject subject = warning.Subject;
            AlarmRule rule = AlarmRule.Of(subject.Kind);
            json.WriteString("kind", WireName<WarningKind>.Of(subject.Kind));
            json.WriteString("bay", bay);
            json.WriteString("probe", subject.Probe);
            json.WriteString("job", subject.Job);
            json.WriteString("surface", warning.Surface);
            json.WriteWhole("layer", subject.Layer > 0 ? subject.Layer : null);
            json.WriteWhole("section", subject.Section > 0 ? subject.Section : null);
            json.WriteInstant("raisedAt", warning.RaisedAt);
            json.WriteRounded("leadMinutes", warning.Lead?.TotalMinutes);
            WarningJson.WriteRule(json, rule, rule.Cause);
        });

    /// <summary>The bay a warning is about; of one about a coat, the bay its surface was in, so that its topic stays when the car moves on.</summary>
    private static string BayOf(Shop shop, Warning warning)
    {
        Subject subject = warning.Subject;
        if (subject.Bay is { } bay)
        {
            return bay;
        }

        JobState job = shop.Find(subject.Job!)!;
        return job.Stories.FirstOrDefault(s => s.Surface.Id == subject.Surface) is { } story
            ? Stay.Of(shop, job.Job.Bay, story).Last(s => s.From <= warning.RaisedAt).Bay ?? job.Job.Bay
            : job.Job.Bay;
    }
}
