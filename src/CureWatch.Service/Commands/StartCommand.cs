using System.CommandLine;
using CureWatch.Bays;
using CureWatch.Planning;
using CureWatch.Service.Disk;
using CureWatch.Service.Documents;
using CureWatch.Service.Journal;
using CureWatch.Service.Settings;

namespace CureWatch.Service.Commands;

/// <summary><c>start</c>: whether a car can be coated, from a data folder's own journal, which may be in use meanwhile.</summary>
internal sealed class StartCommand
{
    private readonly Option<string?> _data = DataOption.Optional();
    private readonly Option<string?> _job = new("--job") { Description = "the job's id; the newest car that is here where left out", HelpName = "id" };
    private readonly Option<string?> _surface = new("--surface") { Description = "the only surface asked about", HelpName = "id" };
    private readonly Option<DateTimeOffset?> _at = InstantOption.Create("--at", "when; the end of the journal where left out");
    private readonly Option<bool> _json = JsonOption.Create();

    private StartCommand()
    {
    }

    public static Command Create()
    {
        var start = new StartCommand();
        var command = new Command("start", "Says whether coating can start, with every reason. Exits 1 where it cannot, or not yet.")
        {
            start._data, start._job, start._surface, start._at, start._json,
        };
        command.SetAction(start.Run);
        return command;
    }

    private int Run(ParseResult parsed)
    {
        var faults = new Faults();
        if (Report(parsed, parsed.GetValue(_data) ?? DataOption.Usual, faults) is not { } report)
        {
            return Refusal.Of(faults, parsed.InvocationConfiguration.Error);
        }

        TextWriter output = parsed.InvocationConfiguration.Output;
        if (parsed.GetValue(_json))
        {
            JsonOutput.WriteDocument(output, json =>
            {
                json.WriteStartObject();
                StartJson.Write(json, report);
                json.WriteEndObject();
            });
        }
        else
        {
            output.Write(StartText.Of(report));
        }

        return report.Decision.Verdict == StartVerdict.Yes ? ExitCode.Done : ExitCode.AnswerIsNo;
    }

    private StartReport? Report(ParseResult parsed, string data, Faults faults)
    {
        DateTimeOffset? at = parsed.GetValue(_at);
        if (!DataFolder.HasJournal(LocalDisk.Instance, data, faults) || JournalFold.Of(LocalDisk.Instance, data, at, faults)?.Register is not { } register)
        {
            return null;
        }

        if (register.Shop is not { } shop)
        {
            faults.Add(data, "journal", "no shop set up by then", "a journal with a shop's settings");
            return null;
        }

        shop = at > shop.Now ? ShopFold.Take(shop, new Message.ClockReached(at.Value)).Shop : shop;
        return Job(parsed.GetValue(_job), shop, data, faults) is { } job && IsSurface(parsed.GetValue(_surface), job, data, faults)
            ? StartReport.Of(shop, job.Job.Id, parsed.GetValue(_surface))
            : null;
    }

    private static JobState? Job(string? id, Shop shop, string data, Faults faults)
    {
        JobState? job = id is null ? shop.JobsInOrder.LastOrDefault(j => j.LeftAt is null) : shop.Find(id);
        if (job is null)
        {
            string known = shop.Jobs.IsEmpty ? "none was here then" : string.Join(" | ", shop.JobsInOrder.Select(j => j.Job.Id));
            faults.Add(data, "job", id ?? "nothing", $"a car that was here then: {known}");
        }

        return job;
    }

    private static bool IsSurface(string? surface, JobState job, string data, Faults faults)
    {
        bool isKnown = surface is null || job.Job.Surfaces.Any(s => s.Id == surface);
        if (!isKnown)
        {
            faults.Add(data, "surface", surface!, $"a surface of {job.Job.Id}: {string.Join(" | ", job.Job.Surfaces.Select(s => s.Id))}");
        }

        return isKnown;
    }
}
