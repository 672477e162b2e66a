using System.CommandLine;
using CureWatch.Service.Documents;
using CureWatch.Service.Settings;

namespace CureWatch.Service.Commands;

/// <summary><c>replay</c>: a recorded day through the engine, in virtual time, from files or from a data folder's own journal.</summary>
internal sealed class ReplayCommand
{
    private readonly Option<string?> _config = File("--config", "folder with shop.json and products/");
    private readonly Option<string?> _readings = File("--readings", "readings file (CSV)");
    private readonly Option<string?> _data = File("--data", "data folder of a service, instead of --config and --readings");
    private readonly Option<bool> _json = JsonOption.Create();
    private readonly Option<string?> _job = new("--job")
    {
        Description = "job file (JSON); with --data a job's id, the newest job where left out",
        HelpName = "path or id",
    };

    private readonly Option<DateTimeOffset?> _until = InstantOption.Create("--until", "where the replay stops; the last reading or tap where left out");

    private ReplayCommand()
    {
    }

    public static Command Create()
    {
        var replay = new ReplayCommand();
        var command = new Command("replay", "Runs recorded readings and taps through the engine. Exits 1 where it ends in a hold.")
        {
            replay._config, replay._readings, replay._job, replay._data, replay._until, replay._json,
        };
        command.SetAction(replay.Run);
        return command;
    }

    private static Option<string?> File(string name, string what) => new(name) { Description = what, HelpName = "path" };

    private int Run(ParseResult parsed)
    {
        TextWriter error = parsed.InvocationConfiguration.Error;
        IReadOnlyList<string> wrong = [.. WrongOptions(parsed)];
        foreach (string line in wrong)
        {
            error.WriteLine(line);
        }

        if (wrong.Count > 0)
        {
            return ExitCode.Unusable;
        }

        var faults = new Faults();
        string? job = parsed.GetValue(_job);
        DateTimeOffset? until = parsed.GetValue(_until);
        DayReplay? day = parsed.GetValue(_data) is { } data
            ? new DataReplay(data, job, until, faults).Run()?.Day
            : DayReplay.Run(parsed.GetValue(_config)!, parsed.GetValue(_readings)!, job!, until, faults);
        return day is null
            ? Refusal.Of(faults, error)
            : Answer(day, parsed.GetValue(_json), parsed.InvocationConfiguration.Output);
    }

    private IEnumerable<string> WrongOptions(ParseResult parsed)
    {
        if (parsed.GetValue(_data) is null)
        {
            return new Option<string?>[] { _config, _readings, _job }
                .Where(o => parsed.GetValue(o) is null)
                .Select(o => OptionFaults.Nothing(o.Name, o.Description!));
        }

        return new[] { _config, _readings }
            .Where(o => parsed.GetValue(o) is not null)
            .Select(o => OptionFaults.Line(o.Name, parsed.GetValue(o)!, "nothing beside --data, whose journal holds the settings and the readings"));
    }

    private static int Answer(DayReplay day, bool asJson, TextWriter output)
    {
        if (asJson)
        {
            JsonOutput.WriteDocument(output, json => ReplayJson.Write(json, day.Report, day.Readings));
        }
        else
        {
            output.Write(ReplayText.Of(day));
        }

        return day.Report is { Ruling.IsReady: false } ? ExitCode.AnswerIsNo : ExitCode.Done;
    }
}
