using CureWatch.Bays;
using CureWatch.Planning;

namespace CureWatch.Service.Documents;

/// <summary>Says the day plan as one would across the bay.</summary>
internal sealed class PlanWords(DayPlan plan)
{
    public DayPlan Plan => plan;

    /// <summary>What is shown beside it.</summary>
    public IReadOnlyList<string> Cautions { get; } = [.. Documents.Cautions.Beside(plan)];

    public string Of(BayDay bay)
    {
        BayFree after = bay.Free;
        string free = after switch
        {
            { IsKnown: false } when bay.FreeFromHere.IsKnown => $"free of what is in it {When(bay.FreeFromHere)}, then taken by {after.Job}",
            { IsKnown: false } => $"taken by {after.Job}, and nobody can tell until when",
            { At: null } => "free",
            _ => $"free from {plan.Hours.Clock(after.At)}, after {after.Job}",
        };
        return $"{bay.Bay}: {free}.";
    }

    /// <summary>The car may be named otherwise than by its job, where only people of the shop read it.</summary>
    public string Of(CarDay car, string? name = null)
    {
        string who = name ?? car.Job.Id;
        if (!car.IsPlanned)
        {
            string begun = car.AskedAt > car.ComesAt ? $", to be begun {WallClock.Of(car.AskedAt.Value, car.ComesAt, plan.Hours.Zone)}" : "";
            return $"{who} comes {plan.Hours.Clock(car.ComesAt)}{begun}: too far ahead to plan.";
        }

        string come = car.IsHere ? who : $"{who} comes {plan.Hours.Clock(car.ComesAt)}";
        string dry = car.DryFrom is { } dryFrom && !car.IsBegun ? $", slowest panel dry {plan.Hours.Clock(dryFrom)}" : "";
        string work = car.DoneAt is not { } done ? (car.IsBegun ? "" : ", no start fits")
            : $", {(car.IsBegun ? "coating goes on" : "coat")} {plan.Hours.Span(car.BeginsAt, done)}";
        string keepDry = car.ReadyAt is null ? "" : $", keep dry until {plan.Hours.Clock(car.ReadyAt.Latest)}";
        string leaves = car.FreesAt is { } frees ? $", {(car.IsBegun || car.Fits ? "" : "then ")}out from {plan.Hours.Clock(frees)}" : ", and nobody can tell when it leaves";
        string fits = car.Fits ? "" : car.EarliestAt is { } earliest && car.AskedAt is { } asked && earliest != asked
            ? $". As planned for {plan.Hours.Clock(asked)} it does not fit; earliest start {plan.Hours.Clock(earliest)}" : ". It does not fit";
        return $"{come}{dry}{work}{keepDry}{leaves}{fits}.";
    }

    public string Of(WorkConflict conflict) =>
        ConflictWords.Of(conflict, plan.Hours) + (conflict.FreeFrom is { } free ? $" Nearest time without harm: {plan.Hours.Clock(free)}." : "");

    public string Of(PlannedWork work) =>
        $"{ConflictWords.Of(work.Work)} {plan.Hours.Span(work.From, work.To)}";

    private string When(BayFree free) => free.At is { } at ? $"from {plan.Hours.Clock(at)}" : "now";
}
