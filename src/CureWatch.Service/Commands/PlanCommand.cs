using System.CommandLine;
using CureWatch.Bays;
using CureWatch.Reports;
using CureWatch.Service.Disk;
using CureWatch.Service.Documents;
using CureWatch.Service.Journal;
using CureWatch.Service.Settings;

namespace CureWatch.Service.Commands;

/// <summary><c>plan</c>: the day plan, from a data folder's own journal, which may be in use meanwhile.</summary>
internal sealed class PlanCommand
{
    private readonly Option<string?> _data = DataOption.Optional();
    private readonly Option<DateTimeOffset?> _at = InstantOption.Create("--at", "when; the end of the journal where left out");
    private readonly Option<bool> _json = JsonOption.Create();

    private PlanCommand()
    {
    }

    public static Command Create()
    {
        var plan = new PlanCommand();
        var command = new Command("plan", "Says when each bay frees, whether what is planned fits, and who would harm whom. Exits 1 where something does not fit.")
        {
            plan._data, plan._at, plan._json,
        };
        command.SetAction(plan.Run);
        return command;
    }

    private int Run(ParseResult parsed)
    {
        var faults = new Faults();
        if (DataOption.Of(parsed.GetValue(_data), faults) is not { } data || ShopAt(data, parsed.GetValue(_at), faults) is not { } shop)
        {
            return Refusal.Of(faults, parsed.InvocationConfiguration.Error);
        }

        DayPlan plan = DayPlan.Of(shop);
        TextWriter output = parsed.InvocationConfiguration.Output;
        if (parsed.GetValue(_json))
        {
            JsonOutput.WriteDocument(output, json =>
            {
                json.WriteStartObject();
                new PlanJson(json, new PlanWords(plan), namesPeople: true).Write();
                json.WriteEndObject();
            });
        }
        else
        {
            output.Write(PlanText.Of(plan));
        }

        return plan.Fits ? ExitCode.Done : ExitCode.AnswerIsNo;
    }

    private static Shop? ShopAt(string data, DateTimeOffset? at, Faults faults)
    {
        if (!DataFolder.HasJournal(LocalDisk.Instance, data, faults) || JournalFold.Of(LocalDisk.Instance, data, at, faults)?.Register is not { } register)
        {
            return null;
        }

        if (register.Shop is not { } shop)
        {
            faults.Add(data, "journal", "no shop set up by then", "a journal with a shop's settings");
            return null;
        }

        return at > shop.Now ? ShopFold.Take(shop, new Message.ClockReached(at.Value)).Shop : shop;
    }
}
