using CureWatch.Bays;
using CureWatch.Reports;
using CureWatch.Service.Api;
using CureWatch.Service.Documents;
using CureWatch.Words;

namespace CureWatch.Service.Board;

/// <summary>Puts promises into words.</summary>
internal static class PromiseViews
{
    /// <summary>The promises of all cars that are here.</summary>
    public static PromisesView Of(Look look)
    {
        var clock = new ShopClock(look.Shop.Plan.Hours.Zone, look.At);
        return new PromisesView(
            look.Shop.Plan.Shop,
            clock.Zone.Id,
            clock.Of(look.At),
            TroubleViews.Of(look),
            [.. PromiseRanking.Of(look.Here.Select(j => look.ReportOf(j).Promise!)).Select(p => (p.Job, look.Shop.Find(p.Job)?.Job.Car ?? p.Job, Of(p, clock)))]);
    }

    /// <summary>The promise of a car.</summary>
    public static PromiseView Of(PromiseReport promise, ShopClock clock)
    {
        PromiseAdvice? advice = promise.Advice.Value;
        bool isSafe = !promise.Outlook.IsUnknown && promise.Outlook.Chance is null or >= PromiseAdvice.UsualTarget;
        Sentence text = promise.Move is null && advice is { IsNeeded: true } ? $"{promise.Spoken} {advice.Text}" : promise.Spoken;
        return new PromiseView(
            promise.Outlook.PromisedAt is null ? Tone.Info : promise.Move is not null && !isSafe ? Tone.Act : isSafe ? Tone.Fine : Tone.Soon,
            text,
            promise.Tell == promise.Outlook.PromisedAt ? null : clock.Of(promise.Tell),
            promise.LastStart.Value?.Text,
            advice is null ? [] : [.. Cautions.BesideAdvice(advice)]);
    }
}
