using System.CommandLine;
using CureWatch.Bays;
using CureWatch.Planning;
using CureWatch.Service.Documents;
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
        if (DataOption.Of(parsed.GetValue(_data), faults) is not { } data || Report(parsed, data, faults) is not { } report)
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

    private StartReport? Report(ParseResult parsed, string data, Faults faults) =>
        JobOfData.Find(data, parsed.GetValue(_job), parsed.GetValue(_at), faults) is { } found && IsSurface(parsed.GetValue(_surface), found.Job, data, faults)
            ? StartReport.Of(found.Shop, found.Job.Job.Id, parsed.GetValue(_surface))
            : null;

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
