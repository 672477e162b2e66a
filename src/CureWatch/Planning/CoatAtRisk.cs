using CureWatch.TimeWindows;

namespace CureWatch.Planning;

/// <summary>A coat that work in its air may harm: one that is on, or one that is planned.</summary>
/// <param name="Job">Its job's id.</param>
/// <param name="Surface">Its surface.</param>
/// <param name="Bay">The bay it is in.</param>
/// <param name="Airspace">The air, which other bays may share.</param>
/// <param name="From">Its first wipe.</param>
/// <param name="SolventUntil">Until when solvent leaves it; null where it has none.</param>
/// <param name="TouchDryAt">When dust sinks in no more, at the latest; null where nobody can tell.</param>
/// <param name="SiliconeUntil">Until when silicone matters: touch-dry, and no layer still to go over it; null where nobody can tell.</param>
/// <param name="DryAt">When water may touch it, at the latest; null where nobody can tell.</param>
public sealed record CoatAtRisk(
    string Job,
    string Surface,
    string Bay,
    string Airspace,
    DateTimeOffset From,
    DateTimeOffset? SolventUntil,
    DateTimeOffset? TouchDryAt,
    DateTimeOffset? SiliconeUntil,
    DateTimeOffset? DryAt)
{
    /// <summary>A layer that is still to go on.</summary>
    /// <param name="job">Its job's id.</param>
    /// <param name="bay">The bay it will be in.</param>
    /// <param name="airspace">The bay's air.</param>
    /// <param name="layer">Its work.</param>
    /// <param name="risk">How long it is at risk.</param>
    /// <param name="nextBegins">When the layer over it begins; null where it is the last.</param>
    /// <returns>The coat it will be.</returns>
    internal static CoatAtRisk Planned(string job, string bay, string airspace, LayerWork layer, RiskTimes risk, DateTimeOffset? nextBegins)
    {
        DateTimeOffset? touchDry = layer.DoneAt + risk.TouchDry;
        return new CoatAtRisk(
            job,
            layer.Surface,
            bay,
            airspace,
            layer.BeginsAt,
            risk.HasSolvent ? layer.DoneAt : null,
            touchDry,
            touchDry is null ? null : nextBegins > touchDry ? nextBegins : touchDry,
            layer.DryAt is { } dry ? dry.Latest : layer.DoneAt);
    }

    /// <summary>The same coat, begun later.</summary>
    /// <param name="delay">By how much.</param>
    /// <returns>The coat.</returns>
    internal CoatAtRisk Later(TimeSpan delay) => this with
    {
        From = From + delay, SolventUntil = SolventUntil + delay, TouchDryAt = TouchDryAt + delay, SiliconeUntil = SiliconeUntil + delay, DryAt = DryAt + delay,
    };

    /// <summary>Whether a work may harm it by what it is: in its air, and not done to its own car, which is another matter.</summary>
    /// <param name="work">The work.</param>
    /// <returns>True where only the hours decide. A lamp on the same car counts: its solvent does not care whose lamp it is.</returns>
    public bool IsExposedTo(AirWork work) =>
        work.Airspace == Airspace && (work.Job != Job || Harms.Of(work.Work) == Harm.Fire)
        && (Harms.Of(work.Work) != Harm.Fire || SolventUntil is not null);

    /// <summary>Until when a harm matters.</summary>
    /// <param name="harm">The harm.</param>
    /// <returns>The instant; null where nobody can tell, so that it is not counted as over.</returns>
    public DateTimeOffset? Until(Harm harm) => harm switch
    {
        Harm.Fire => SolventUntil,
        Harm.Dust => TouchDryAt,
        Harm.Silicone => SiliconeUntil,
        _ => DryAt,
    };

    /// <summary>Whether a stretch of a work meets the stretch in which it harms.</summary>
    /// <param name="work">The work.</param>
    /// <param name="from">The beginning of the stretch.</param>
    /// <param name="to">Its end; what ends as the other begins does not meet it.</param>
    /// <returns>True where it is harmed.</returns>
    public bool IsHarmedBy(AirWork work, DateTimeOffset from, DateTimeOffset to) =>
        IsExposedTo(work) && From < to && !(Until(Harms.Of(work.Work)) <= from);
}

/// <summary>How long a layer is at risk after its levelling, in the climate it is planned in.</summary>
/// <param name="HasSolvent">Whether its product is solvent-borne.</param>
/// <param name="TouchDry">Until dust sinks in no more; null where nobody can tell.</param>
public sealed record RiskTimes(bool HasSolvent, TimeSpan? TouchDry)
{
    /// <summary>Touch-dry where the sheet does not speak of recoating. Source (choice): trade range in which a high spot gets hard, 30 to 60 min; common practice, no source.</summary>
    private static readonly TimeSpan Hardens = TimeSpan.FromHours(1);

    /// <summary>The times of a layer.</summary>
    /// <param name="laws">The laws of its product.</param>
    /// <param name="recoatFrom">From the levelling until another layer surely may go on; null where nobody can tell, or the sheet does not say.</param>
    /// <param name="keepDry">From the levelling until keep-dry surely ends; null likewise.</param>
    /// <returns>
    /// The times: what takes another layer is touch-dry. Where the sheet knows no such stage, an hour, or as much longer as keep-dry is in this climate.
    /// </returns>
    public static RiskTimes Of(CoatLaws laws, TimeSpan? recoatFrom, TimeSpan? keepDry)
    {
        TimeSpan? touchDry = laws.RecoatFrom is not null ? recoatFrom
            : laws.KeepDry is not { } stage ? Hardens
            : keepDry is { } dry ? Hardens * Math.Max(1, dry.TotalHours / stage.Milestone.ReferenceHours)
            : null;
        return new RiskTimes(laws.Sheet.Carrier == Products.Carrier.Solvent, touchDry);
    }
}
