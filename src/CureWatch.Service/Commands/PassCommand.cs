using System.CommandLine;
using System.Text.Json;
using CureWatch.Planning;
using CureWatch.Service.Documents;

namespace CureWatch.Service.Commands;

/// <summary><c>pass</c>: how many sections to coat before turning back to level.</summary>
internal static class PassCommand
{
    public static Command Create()
    {
        Option<TimeSpan> apply = InvariantDuration.Required(
            "--apply", "time to apply one section", PlanningRange.Longest, aboveZero: true);
        Option<TimeSpan> level = InvariantDuration.Required(
            "--level", "time to level one section", PlanningRange.Longest, aboveZero: true);
        Option<TimeSpan> flashFrom = InvariantDuration.Required(
            "--flash-from", "earliest start of levelling after a section's application", PlanningRange.Longest);
        Option<TimeSpan> flashTo = InvariantDuration.Required(
            "--flash-to", "last safe moment after a section's application", PlanningRange.Longest);
        Option<TimeSpan> changeOver = InvariantDuration.Optional(
            "--change-over", "time to change from the applicator to the cloth, or back", PlanningRange.Longest);
        Option<int> people = People();
        var finishInside = new Option<bool>("--finish-inside") { Description = "levelling has to end by --flash-to, not only start" };
        Option<bool> json = JsonOption.Create();

        var command = new Command("pass", "Sections to coat before turning back to level them. Exits 1 where there are none.")
        {
            apply, level, flashFrom, flashTo, changeOver, people, finishInside, json,
        };
        command.SetAction(parsed =>
        {
            PassPlan plan = PassPlan.For(
                new SectionPace(parsed.GetValue(apply), parsed.GetValue(level), parsed.GetValue(changeOver), parsed.GetValue(people)),
                new FlashWindow(parsed.GetValue(flashFrom), parsed.GetValue(flashTo), parsed.GetValue(finishInside)));
            return Answer(plan, parsed.GetValue(json), parsed.InvocationConfiguration.Output);
        });
        return command;
    }

    private static Option<int> People()
    {
        const string About = "1 who turns back to level, or 2 of whom one levels behind the other";
        return new Option<int>("--people")
        {
            Description = About,
            HelpName = "number",
            DefaultValueFactory = _ => 1,
            CustomParser = result =>
            {
                string text = result.Tokens[0].Value;
                if (text is not ("1" or "2"))
                {
                    result.AddError(OptionFaults.Line("--people", text, About));
                }

                return text == "2" ? 2 : 1;
            },
        };
    }

    private static int Answer(PassPlan plan, bool asJson, TextWriter output)
    {
        if (asJson)
        {
            JsonOutput.WriteDocument(output, json => Write(json, plan));
        }
        else
        {
            output.WriteLine(PassText.Of(plan));
            output.WriteLine(Cautions.SolventVapour);
        }

        return plan is PassPlan.Unworkable ? ExitCode.AnswerIsNo : ExitCode.Done;
    }

    /// <summary>Sections are null where two people need not stop at any.</summary>
    private static void Write(Utf8JsonWriter json, PassPlan plan)
    {
        var pass = plan as PassPlan.Workable;
        json.WriteStartObject();
        json.WriteWhole("sections", plan is PassPlan.Endless ? null : pass?.Sections ?? 0);
        json.WriteString("worstWait", ((plan as PassPlan.Endless)?.WorstWait ?? pass?.WorstWait)?.ToString("c"));
        json.WriteString("idle", pass?.Idle.ToString("c"));
        json.WriteString("perPass", pass?.PerPass.ToString("c"));
        json.WriteEndObject();
    }
}
