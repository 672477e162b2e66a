namespace CureWatch.Learning;

/// <summary>What people taught about one revision of a product. A new revision starts anew: it may be another product.</summary>
/// <param name="Flash">About its flash.</param>
/// <param name="KeepDry">About its drying.</param>
public sealed record ProductLearning(StageLearning Flash, StageLearning KeepDry)
{
    /// <summary>Before anybody tapped.</summary>
    public static ProductLearning Blank { get; } = new(StageLearning.Blank(TaughtStage.Flash), StageLearning.Blank(TaughtStage.KeepDry));

    /// <summary>Both stages.</summary>
    public IEnumerable<StageLearning> Stages => [Flash, KeepDry];

    /// <summary>One of them.</summary>
    /// <param name="stage">Which.</param>
    /// <returns>What people taught about it.</returns>
    public StageLearning Of(TaughtStage stage) => stage == TaughtStage.Flash ? Flash : KeepDry;

    /// <summary>Puts what a job teaches in the place of what it taught before.</summary>
    /// <param name="job">The job's id.</param>
    /// <param name="drawn">Every lesson of its standing taps, by stage.</param>
    /// <param name="now">The present.</param>
    /// <returns>The learning.</returns>
    public ProductLearning Replace(string job, ILookup<TaughtStage, Lesson> drawn, DateTimeOffset now) => new(
        Flash.Replace(job, drawn[TaughtStage.Flash], now), KeepDry.Replace(job, drawn[TaughtStage.KeepDry], now));

    /// <summary>Forgets everything, or what concerns one bay.</summary>
    /// <param name="bay">The bay; null for everything.</param>
    /// <param name="now">The present.</param>
    /// <returns>The learning.</returns>
    public ProductLearning Reset(string? bay, DateTimeOffset now) => new(Flash.Reset(bay, now), KeepDry.Reset(bay, now));

    /// <summary>What was known in a bay at an instant.</summary>
    /// <param name="bay">The bay.</param>
    /// <param name="at">The instant.</param>
    /// <returns>What a coat begun then keeps.</returns>
    public Learnt In(string bay, DateTimeOffset at) => new(Flash.In(bay, at), KeepDry.In(bay, at));
}
