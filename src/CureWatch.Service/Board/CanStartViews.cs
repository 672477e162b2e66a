using CureWatch.Bays;
using CureWatch.Planning;
using CureWatch.Service.Documents;
using CureWatch.Words;

namespace CureWatch.Service.Board;

/// <summary>Puts into words whether a car can be coated now.</summary>
internal sealed class CanStartViews(ShopClock clock)
{
    public CanStartView Of(StartReport report, IEnumerable<Sentence> passes)
    {
        StartDecision decision = report.Decision;
        StartReason[] reasons =
        [
            .. decision.Answers.Where(a => a.Evidence.Next is not null).SelectMany(a => a.Reasons).Concat(decision.Reasons).OrderBy(r => r.Weight).ThenBy(r => r.Kind),
        ];
        return new CanStartView(
            decision.Verdict switch
            {
                StartVerdict.Yes => Tone.Fine,
                StartVerdict.Wait => Tone.Info,
                _ => Tone.Soon,
            },
            decision.Text,
            clock.Of(decision.From?.Latest),
            [.. reasons.Select(Of)],
            [.. passes, .. decision.Answers.Select(PlanOf).OfType<Sentence>()],
            decision.Assumed,
            [.. Cautions.BesideHeat(reasons)]);
    }

    private StartReasonView Of(StartReason reason) => new(
        reason.Weight switch
        {
            StartWeight.Stops => Tone.Soon,
            StartWeight.Waits => Tone.Info,
            _ => Tone.Unknown,
        },
        reason.Text,
        reason.Help,
        clock.Of(reason.Until?.Latest));

    private Sentence? PlanOf(StartAnswer answer)
    {
        if (answer.Plan is not { Layers: [.., { } last] layers } plan)
        {
            return null;
        }

        Sentence surface = layers[0] is { Sections: > 1, IsTimed: true } first && answer.Evidence.Times[0].HasToBeLevelled
            ? first.SectionsPerPass == 1 ? (Sentence)$"{answer.Evidence.Surface.Id}, {1} section a pass" : $"{answer.Evidence.Surface.Id}, {(int)first.SectionsPerPass} sections a pass"
            : Sentence.Named(answer.Evidence.Surface.Id);
        Sentence done = last.Layer > 1 ? (Sentence)$"layer {last.Layer} done {clock.Of(plan.DoneAt)!.Text}" : $"done {clock.Of(plan.DoneAt)!.Text}";
        return answer.DryAt?.Latest is { } at ? (Sentence)$"{surface}: {done}, keep dry until {clock.Of(at).Text}" : $"{surface}: {done}";
    }
}
