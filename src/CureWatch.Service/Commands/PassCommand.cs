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
        var finishInside = new Option<bool>("--finish-inside") { Description = "levelling has to end by --flash-to, not only start" };
        Option<bool> json = JsonOption.Create();

        var command = new Command("pass", "Sections to coat before turning back to level them. Exits 1 where there are none.")
        {
            apply, level, flashFrom, flashTo, changeOver, finishInside, json,
        };
        command.SetAction(parsed =>
        {
            PassPlan plan = PassPlan.For(
                new SectionPace(parsed.GetValue(apply), parsed.GetValue(level), parsed.GetValue(changeOver)),
                new FlashWindow(parsed.GetValue(flashFrom), parsed.GetValue(flashTo), parsed.GetValue(finishInside)));
            return Answer(plan, parsed.GetValue(json), parsed.InvocationConfiguration.Output);
        });
        return command;
    }

    private static int Answer(PassPlan plan, bool asJson, TextWriter output)
    {
        if (asJson)
        {
            JsonOutput.WriteDocument(output, json => Write(json, plan as PassPlan.Workable));
        }
        else
        {
            output.WriteLine(PassText.Of(plan));
            output.WriteLine(Cautions.SolventVapour);
        }

        return plan is PassPlan.Workable ? ExitCode.Done : ExitCode.AnswerIsNo;
    }

    private static void Write(Utf8JsonWriter json, PassPlan.Workable? plan)
    {
        json.WriteStartObject();
        json.WriteNumber("sections", plan?.Sections ?? 0);
        json.WriteString("worstWait", plan?.WorstWait.ToString("c"));
        json.WriteString("idle", plan?.Idle.ToString("c"));
        json.WriteString("perPass", plan?.PerPass.ToString("c"));
        json.WriteEndObject();
    }
}
