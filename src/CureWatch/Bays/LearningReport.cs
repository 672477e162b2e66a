using System.Collections.Immutable;
using CureWatch.Learning;

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
/// <param name="Reach">How far taps about the stage are believed.</param>
public sealed record LearningReport(
    string Product, int Revision, string Bay, TaughtStage Stage, LearntEffect? Effect, int FarOff, int Unwatched, DateTimeOffset? Since, Reach Reach)
{
    /// <summary>What the sheet's hours of the stage are multiplied by for a coat begun now [1].</summary>
    public double Applied => Effect is { } effect ? Reach.Within(effect).Factor : 1;

    /// <summary>Whether the taps say more than a bay can differ from a sheet by: somebody should look at the product, its batch and who taps.</summary>
    public bool Disagrees => Effect is { } effect && !Reach.Holds(effect);

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
               bay.Value.Since,
               shop.Laws[product.Key].ReachOf(stage.Stage)),
    ];
}
