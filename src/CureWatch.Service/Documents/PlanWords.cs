using CureWatch.Planning;
using CureWatch.Reports;
using CureWatch.Words;

namespace CureWatch.Service.Documents;

/// <summary>Says the day plan as one would across the bay.</summary>
internal sealed class PlanWords(DayPlan plan)
{
    public DayPlan Plan => plan;

    /// <summary>What is shown beside it.</summary>
    public IReadOnlyList<string> Cautions { get; } = [.. Documents.Cautions.Beside(plan)];

    public Sentence Of(BayDay bay)
    {
        BayFree after = bay.Free;
        Sentence free = after switch
        {
            { IsKnown: false } when bay.FreeFromHere.IsKnown => $"free of what is in it {When(bay.FreeFromHere)}, then taken by {after.Job}",
            { IsKnown: false } => $"taken by {after.Job}, and nobody can tell until when",
            { At: null } => $"free",
            _ => $"free from {plan.Hours.Clock(after.At)}, after {after.Job}",
        };
        return $"{bay.Bay}: {free}.";
    }

    /// <summary>The car may be named otherwise than by its job, where only people of the shop read it.</summary>
    public Sentence Of(CarDay car, string? name = null)
    {
        string who = name ?? car.Job.Id;
        if (!car.IsPlanned)
        {
            Sentence begun = car.Asked.At > car.Arrival.At ? $", to be begun {WallClock.Of(car.Asked.At.Value, car.Arrival.At, plan.Hours.Zone)}" : Sentence.None;
            return $"{who} comes {plan.Hours.Clock(car.Arrival.At)}{begun}: too far ahead to plan.";
        }

        Sentence come = car.Arrival.IsHere ? Sentence.Named(who) : $"{who} comes {plan.Hours.Clock(car.Arrival.At)}";
        Sentence dry = car.Arrival.DryFrom is { } dryFrom && !car.IsBegun ? $", slowest panel dry {plan.Hours.Clock(dryFrom)}" : Sentence.None;
        Sentence work = (car.IsBegun, car.Work.DoneAt) switch
        {
            (true, null) => Sentence.None,
            (false, null) => $", no start fits",
            (true, { } done) => $", coating goes on {plan.Hours.Span(car.Work.BeginsAt, done)}",
            (false, { } done) => $", coat {plan.Hours.Span(car.Work.BeginsAt, done)}",
        };
        Sentence keepDry = car.Work.ReadyAt is null ? Sentence.None : $", keep dry until {plan.Hours.Clock(car.Work.ReadyAt.Latest)}";
        Sentence leaves = car.Work.FreesAt is not { } frees ? (Sentence)$", and nobody can tell when it leaves"
            : car.IsBegun || car.Asked.Fits ? (Sentence)$", out from {plan.Hours.Clock(frees)}" : $", then out from {plan.Hours.Clock(frees)}";
        Sentence fits = car.Asked.Fits ? Sentence.None
            : car.Asked.EarliestAt is { } earliest && car.Asked.At is { } asked && earliest != asked
                ? (Sentence)$". As planned for {plan.Hours.Clock(asked)} it does not fit; earliest start {plan.Hours.Clock(earliest)}"
                : $". It does not fit";
        return $"{come}{dry}{work}{keepDry}{leaves}{fits}.";
    }

    public Sentence Of(WorkConflict conflict) =>
        $"{ConflictWords.Of(conflict, plan.Hours)}{(conflict.FreeFrom is { } free ? $" Nearest time without harm: {plan.Hours.Clock(free)}." : Sentence.None)}";

    public Sentence Of(PlannedWork work) =>
        $"{ConflictWords.Of(work.Work)} {plan.Hours.Span(work.From, work.To)}";

    private Sentence When(BayFree free) => free.At is { } at ? (Sentence)$"from {plan.Hours.Clock(at)}" : $"now";
}
