using System.CommandLine;
using CureWatch.Service.Settings;

namespace CureWatch.Service.Commands;

/// <summary><c>replay</c>: recorded readings and taps through the engine, in virtual time.</summary>
internal static class ReplayCommand
{
    public static Command Create()
    {
        Option<string> config = File("--config", "folder with shop.json and products/");
        Option<string> readings = File("--readings", "readings file (CSV)");
        Option<string> job = File("--job", "job file (JSON)");
        Option<DateTimeOffset?> until = new("--until")
        {
            Description = $"where the replay stops, {Instants.Allowed}; the last reading or tap where left out",
            HelpName = "time",
            CustomParser = result =>
            {
                string text = result.Tokens[0].Value;
                if (Instants.TryParse(text, out DateTimeOffset instant))
                {
                    return instant;
                }

                result.AddError(OptionFaults.Line("--until", text, Instants.Allowed));
                return null;
            },
        };
        Option<bool> json = JsonOutput.Option();
        var command = new Command("replay", "Runs recorded readings and taps through the engine. Exits 1 where it ends in a hold.")
        {
            config, readings, job, until, json,
        };
        command.SetAction(parsed =>
        {
            var faults = new Faults();
            DayReplay? day = DayReplay.Run(
                parsed.GetValue(config)!, parsed.GetValue(readings)!, parsed.GetValue(job)!, parsed.GetValue(until), faults);
            return day is null
                ? Refusal.Of(faults, parsed.InvocationConfiguration.Error)
                : Answer(day, parsed.GetValue(json), parsed.InvocationConfiguration.Output);
        });
        return command;
    }

    private static Option<string> File(string name, string what) => new(name) { Description = what, HelpName = "path", Required = true };

    private static int Answer(DayReplay day, bool asJson, TextWriter output)
    {
        if (asJson)
        {
            JsonOutput.WriteDocument(output, json => ReplayJson.Write(json, day));
        }
        else
        {
            output.Write(ReplayText.Of(day));
        }

        return day.Report.Ruling.IsReady ? ExitCode.Done : ExitCode.AnswerIsNo;
    }
}
