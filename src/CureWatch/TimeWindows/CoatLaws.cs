using CureWatch.Curing;
using CureWatch.Learning;
using CureWatch.Products;

namespace CureWatch.TimeWindows;

/// <summary>A fitted sheet, arranged as the windows of a coat need it.</summary>
/// <param name="Sheet">The sheet.</param>
/// <param name="Flash">May be levelled; null where the product does not flash.</param>
/// <param name="LevelByEvaporation">Last safe moment to level, on the evaporation clock; null where there is nothing to level.</param>
/// <param name="LevelByCure">The same, on the cure clock: moist air makes a coat grab sooner.</param>
/// <param name="IfMissed">Whether levelling too late matters.</param>
/// <param name="RecoatFrom">The next layer may go on.</param>
/// <param name="RecoatBy">The next layer must be on.</param>
/// <param name="KeepDry">Water may touch the coat.</param>
/// <param name="NoWash">The car may be washed.</param>
/// <param name="FullCure">All resistance.</param>
/// <param name="Cure">The law of the cure clock that a coat's reference hours are told in, and how sure it is; its milestone is none.</param>
public sealed record CoatLaws(
    ProductSheet Sheet,
    TimedStage? Flash,
    TimedStage? LevelByEvaporation,
    TimedStage? LevelByCure,
    IfMissed IfMissed,
    TimedStage? RecoatFrom,
    TimedStage? RecoatBy,
    TimedStage? KeepDry,
    TimedStage? NoWash,
    TimedStage? FullCure,
    TimedStage Cure)
{
    /// <summary>
    /// The least part of the sheet's hours that a release may be learnt to be [1]. Source (choice): somebody who taps too soon every time must
    /// not talk the shop out of its sheet.
    /// </summary>
    public const double LeastRelease = 0.7;

    /// <summary>
    /// The least and, where its sheet's range does not go further, the most that a flash may be learnt to be of the sheet's earliest [1]. Source
    /// (choice): a bay that differs from a sheet by a factor of two has another product in the bottle, or somebody taps for another reason.
    /// </summary>
    private const double LeastFlash = 0.5, MostFlash = 2;

    /// <summary>A drying that takes more than this of the sheet's time is told, and followed [1]. Source (choice), as for a flash.</summary>
    private const double MostDrying = 2;

    /// <summary>How far taps about a flash are believed.</summary>
    public Reach FlashReach { get; private init; } = new(LeastFlash, MostFlash, FollowsSlower: false);

    /// <summary>How far taps about a drying are believed: a release only gets later by a slower one.</summary>
    public static Reach DryingReach { get; } = new(LeastRelease, MostDrying, FollowsSlower: true);

    /// <summary>How far taps about a stage are believed.</summary>
    /// <param name="stage">The stage.</param>
    /// <returns>The reach.</returns>
    public Reach ReachOf(TaughtStage stage) => stage == TaughtStage.Flash ? FlashReach : DryingReach;

    /// <summary>What is followed of what people taught.</summary>
    /// <param name="learnt">What they taught.</param>
    /// <returns>The same, each stage within its reach.</returns>
    public Learnt Within(Learnt learnt) => new(
        learnt.Flash is { } flash ? FlashReach.Within(flash) : null, learnt.KeepDry is { } drying ? DryingReach.Within(drying) : null);

    /// <summary>May be levelled, as the sheet says: the cure clock of a coat that waits is projected from it, whatever was learnt.</summary>
    public TimedStage? FlashOfTheSheet { get; private init; } = Flash;

    /// <summary>The laws as people see this product behave.</summary>
    /// <param name="learnt">What they taught.</param>
    /// <returns>
    /// Laws whose flash is moved, whose level-by is no later than the sheet's and moves with a flash that is faster, and whose keep-dry is moved
    /// where it is a drying, each no further than its reach. The rates, and every other stage, stay the sheet's.
    /// </returns>
    public CoatLaws With(Learnt learnt)
    {
        CoatLaws laws = this;
        learnt = Within(learnt);
        if (learnt.Flash is { } flash)
        {
            double sooner = Math.Min(1, flash.Factor);
            laws = laws with
            {
                Flash = Flash is { } opening ? opening with { Milestone = opening.Milestone.As(flash) } : null,
                LevelByEvaporation = LevelByEvaporation is { } closing
                    ? closing with { Milestone = closing.Milestone with { ReferenceHours = closing.Milestone.ReferenceHours * sooner } }
                    : null,
            };
        }

        return learnt.KeepDry is { } drying && DriesByEvaporation
            ? laws with { KeepDry = KeepDry! with { Milestone = KeepDry.Milestone.As(drying) } }
            : laws;
    }

    /// <summary>When the cure clock of a coat was started: by the levelling, or by the wipe where the product does not flash.</summary>
    /// <param name="coat">The coat.</param>
    /// <returns>The instant; null where that levelling was not told yet.</returns>
    public DateTimeOffset? CureStartOf(Coat coat) => Flash is null ? coat.LastWipeAt : coat.LevelledAt;

    /// <summary>Whether keep-dry is the time the coat takes to dry, which people can see the end of.</summary>
    public bool DriesByEvaporation => KeepDry is not null && Sheet.Find(Stage.KeepDry)?.DrivenBy == Mechanism.Evaporation;

    /// <summary>Every law a coat of this product runs on, each once.</summary>
    public IEnumerable<RateLaw> All =>
        new[] { Flash, LevelByEvaporation, LevelByCure, RecoatFrom, RecoatBy, KeepDry, NoWash, FullCure }
            .OfType<TimedStage>().Select(s => s.Law).Append(Cure.Law).Distinct();

    /// <summary>Arranges a fitted sheet.</summary>
    /// <param name="fit">The fit.</param>
    /// <returns>The laws.</returns>
    /// <remarks>
    /// Level-by runs on two laws against one reference duration. The law it is not driven by is that of the sheet's other clock: for cure
    /// that of keep-dry, else of the earliest cure stage, else the priors'.
    /// </remarks>
    public static CoatLaws Of(SheetFit fit)
    {
        (RateLaw Law, FitCovariance Covariance) cure = LawOf(fit, Mechanism.Cure, Stage.KeepDry);
        (RateLaw Law, FitCovariance Covariance) evaporation = LawOf(fit, Mechanism.Evaporation, Stage.Flash);
        return new CoatLaws(
            fit.Sheet,
            Timed(fit.Find(Stage.Flash)),
            On(fit.LevelBy, Mechanism.Evaporation, evaporation),
            On(fit.LevelBy, Mechanism.Cure, cure),
            fit.LevelBy?.IfMissed ?? IfMissed.Hold,
            Release(Stage.RecoatFrom),
            Timed(fit.Find(Stage.RecoatBy)),
            Release(Stage.KeepDry),
            Release(Stage.NoWash),
            Release(Stage.FullCure),
            new TimedStage(cure.Law, new Milestone(0, default, cure.Covariance), StageOf(fit, Mechanism.Cure, Stage.KeepDry)?.Stage))
        {
            FlashReach = fit.Find(Stage.Flash) is { ToReferenceHours: { } end } flash
                ? new Reach(LeastFlash, Math.Max(MostFlash, end / flash.ReferenceHours), FollowsSlower: false)
                : new Reach(LeastFlash, MostFlash, FollowsSlower: false),
        };

        TimedStage? Release(Stage named) =>
            Timed(fit.Find(named)) is { } stage ? stage with { Law = stage.Law with { IsForRelease = true } } : null;

        static TimedStage? Timed(StageFit? stage) => stage is null ? null : new TimedStage(stage.Law, Milestone.Of(stage), stage.Stage);

        static TimedStage? On(StageFit? stage, Mechanism clock, (RateLaw Law, FitCovariance Covariance) other) =>
            stage is null || stage.DrivenBy == clock
                ? Timed(stage)
                : new TimedStage(other.Law, new Milestone(stage.ReferenceHours, stage.Covariance, other.Covariance), stage.Stage);
    }

    private static StageFit? StageOf(SheetFit fit, Mechanism clock, Stage preferred) =>
        fit.Stages.Where(s => s.DrivenBy == clock).OrderBy(s => s.Stage != preferred).ThenBy(s => s.Stage).FirstOrDefault();

    private static (RateLaw Law, FitCovariance Covariance) LawOf(SheetFit fit, Mechanism clock, Stage preferred)
    {
        if (StageOf(fit, clock, preferred) is { } stage)
        {
            return (stage.Law, stage.Covariance);
        }

        Priors priors = Priors.Of(clock, fit.Sheet.Carrier);
        return (priors.Law(clock, fit.Sheet.Reference), priors.Doubt);
    }
}

/// <summary>A stage's milestone and the law its clock runs on.</summary>
/// <param name="Law">The law.</param>
/// <param name="Milestone">The milestone.</param>
/// <param name="Stage">The sheet's stage, by which its lamp bands go; null where the sheet has none.</param>
public sealed record TimedStage(RateLaw Law, Milestone Milestone, Stage? Stage);
