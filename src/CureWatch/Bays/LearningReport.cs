using System.Collections.Immutable;
using CureWatch.Learning;
using CureWatch.TimeWindows;

namespace CureWatch.Bays;

/// <summary>What people taught about a stage of a product in a bay, at an instant.</summary>
/// <param name="Product">The product.</param>
/// <param name="Revision">Its revision.</param>
/// <param name="Bay">The bay.</param>
/// <param name="Stage">The stage.</param>
/// <param name="Effect">How far it differs from the sheet there; null while nothing that was told taught anything.</param>
/// <param name="FarOff">Observations that were no more than slips.</param>
/// <param name="Unwatched">Observations in a climate nobody measured.</param>
/// <param name="Since">When the first of all of them happened.</param>
public sealed record LearningReport(
    string Product, int Revision, string Bay, TaughtStage Stage, LearntEffect? Effect, int FarOff, int Unwatched, DateTimeOffset? Since)
{
    /// <summary>What the sheet's hours of the stage are multiplied by for a coat begun now [1]; a release is never below its least part.</summary>
    public double Applied => Effect is not { } effect ? 1
        : Stage == TaughtStage.KeepDry ? Math.Max(CoatLaws.LeastRelease, effect.Factor)
        : effect.Factor;

    /// <summary>Reports on all that was learnt.</summary>
    /// <param name="shop">The shop.</param>
    /// <returns>By product, revision, stage and bay; only what somebody told something about.</returns>
    public static ImmutableArray<LearningReport> Of(Shop shop) =>
    [
        .. from product in shop.Learning.OrderBy(l => l.Key.Product, StringComparer.Ordinal).ThenBy(l => l.Key.Revision)
           from stage in product.Value.Stages
           from bay in stage.Known.ByBay
           where bay.Value.Since is not null
           select new LearningReport(
               product.Key.Product,
               product.Key.Revision,
               bay.Key,
               stage.Stage,
               bay.Value.Taken > 0 ? stage.Known.In(bay.Key, shop.Now, Expectation.Of(stage.Stage)) : null,
               bay.Value.FarOff,
               bay.Value.Unwatched,
               bay.Value.Since),
    ];
}
