using System.CommandLine;
using CureWatch.Forecasting;
using CureWatch.Service.Documents;
using CureWatch.Service.Settings;

namespace CureWatch.Service.Commands;

/// <summary><c>backtest</c>: how good the forecast of a bay's climate would have been over readings that are past.</summary>
internal sealed class BacktestCommand
{
    private const int UsualHours = 24;

    private readonly Option<string> _readings = new("--readings") { Description = "readings file (CSV)", HelpName = "path", Required = true };
    private readonly Option<string> _bay = new("--bay") { Description = "the bay", HelpName = "id", Required = true };
    private readonly Option<string?> _probe = new("--probe") { Description = "the air probe; the one with the most readings where left out", HelpName = "id" };
    private readonly Option<bool> _json = JsonOption.Create();
    private readonly Option<int?> _hours = InvariantNumber.OptionalWhole("--hours", $"the longest lead in hours, {UsualHours} where left out", 1, Backtest.LongestLead);

    private BacktestCommand()
    {
    }

    public static Command Create()
    {
        var backtest = new BacktestCommand();
        var command = new Command("backtest", "How good the forecast would have been, beside saying that all stays as it is.")
        {
            backtest._readings, backtest._bay, backtest._probe, backtest._hours, backtest._json,
        };
        command.SetAction(backtest.Run);
        return command;
    }

    private int Run(ParseResult parsed)
    {
        var faults = new Faults();
        string bay = parsed.GetValue(_bay)!;
        if (PastAir.Read(parsed.GetValue(_readings)!, bay, parsed.GetValue(_probe), faults) is not { } air)
        {
            return Refusal.Of(faults, parsed.InvocationConfiguration.Error);
        }

        Backtest backtest = air.Tried(parsed.GetValue(_hours) ?? UsualHours);
        if (backtest.Leads.All(l => l.Temperature is null))
        {
            faults.Add(air.TooLittleOf(parsed.GetValue(_readings)!, bay));
            return Refusal.Of(faults, parsed.InvocationConfiguration.Error);
        }

        TextWriter output = parsed.InvocationConfiguration.Output;
        if (parsed.GetValue(_json))
        {
            JsonOutput.WriteDocument(output, json => BacktestJson.Write(json, bay, air, backtest));
        }
        else
        {
            output.Write(BacktestText.Of(bay, air, backtest));
        }

        return ExitCode.Done;
    }
}
