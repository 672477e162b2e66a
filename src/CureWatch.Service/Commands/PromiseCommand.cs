using System.CommandLine;
using CureWatch.Bays;
using CureWatch.Service.Documents;
using CureWatch.Service.Settings;

namespace CureWatch.Service.Commands;

/// <summary><c>promise</c>: whether a car is ready when its customer was told, and the least that would make it.</summary>
internal sealed class PromiseCommand
{
    private readonly Option<string?> _data = DataOption.Optional();
    private readonly Option<string?> _job = new("--job") { Description = "the job's id; the newest car that is here where left out", HelpName = "id" };
    private readonly Option<int?> _chance = InvariantNumber.OptionalWhole("--chance", "the chance that what would make it is to reach, in percent, 90 where left out", 1, 99);
    private readonly Option<DateTimeOffset?> _at = InstantOption.Create("--at", "when; the end of the journal where left out");
    private readonly Option<bool> _json = JsonOption.Create();

    private PromiseCommand()
    {
    }

    public static Command Create()
    {
        var promise = new PromiseCommand();
        var command = new Command(
            "promise", "Says whether a car is ready when its customer was told, what decides it, and the least that would make it. Exits 1 where it is not safe.")
        {
            promise._data, promise._job, promise._chance, promise._at, promise._json,
        };
        command.SetAction(promise.Run);
        return command;
    }

    private int Run(ParseResult parsed)
    {
        var faults = new Faults();
        if (DataOption.Of(parsed.GetValue(_data), faults) is not { } data
            || JobOfData.Find(data, parsed.GetValue(_job), parsed.GetValue(_at), faults) is not { } found)
        {
            return Refusal.Of(faults, parsed.InvocationConfiguration.Error);
        }

        if (found.Job.LeftAt is not null)
        {
            faults.Add(data, "job", found.Job.Job.Id, "a car that is here: this one has left");
            return Refusal.Of(faults, parsed.InvocationConfiguration.Error);
        }

        double target = parsed.GetValue(_chance) / 100.0 ?? PromiseAdvice.UsualTarget;
        PromiseReport report = PromiseReport.Of(found.Shop, found.Job.Job.Id, target);
        TextWriter output = parsed.InvocationConfiguration.Output;
        if (parsed.GetValue(_json))
        {
            JsonOutput.WriteDocument(output, json =>
            {
                json.WriteStartObject();
                PromiseJson.Write(json, report);
                json.WriteEndObject();
            });
        }
        else
        {
            output.Write(PromiseText.Of(report));
        }

        return (report.Outlook.Chance is null && !report.Outlook.IsUnknown) || report.Outlook.Chance >= target ? ExitCode.Done : ExitCode.AnswerIsNo;
    }
}
