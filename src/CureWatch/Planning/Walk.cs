using System.Collections.Immutable;
using CureWatch.Curing;
using CureWatch.Products;
using CureWatch.TimeWindows;

namespace CureWatch.Planning;

/// <summary>Walks a person through a car, pass by pass: apply as many sections as can be levelled in time, level them in the same order, go on.</summary>
/// <remarks>
/// What comes next follows from what was told alone, so that it is right whatever was done out of turn. A coat that is flashing goes before all
/// else; of several the one that would be missed if another went first, then what can be looked at now, each by its deadline; a pass stays on one layer of one surface; a layer goes over all sections and, where nothing is urgent, over the surfaces as they were
/// planned, before the next layer begins.
/// </remarks>
/// <param name="surfaces">The surfaces in the order they were planned.</param>
/// <param name="pace">How fast a section is worked.</param>
/// <param name="at">The instant that is asked about.</param>
public sealed class Walk(IReadOnlyList<SurfaceAtWork> surfaces, SectionPace pace, DateTimeOffset at)
{
    /// <summary>What there is to do, the next first.</summary>
    /// <returns>The acts; none where nothing is left to do but wait.</returns>
    public ImmutableArray<NextAct> Acts()
    {
        ImmutableArray<NextAct> levels = [.. Flashing().OrderBy(f => f.Surface.WarmAt(f.Coat.Section) is not null).ThenBy(PressOf).ThenBy(Deadline).ThenBy(f => f.Coat.AppliedAt).Select(LevelAct)];
        NextAct? more = MoreOfThePass();
        IEnumerable<NextAct> others = Others().Where(a => a != more).OrderBy(Rank).ThenBy(Within);
        return more is null ? [.. levels, .. others] : [more, .. levels, .. others];
    }

    private Turn Rank(NextAct act) =>
        act is { Kind: ActKind.Apply, IsLate: true } ? Turn.Late
        : act.LetCool || act.From > at || act is { Kind: ActKind.Apply, JudgeByEye: true } ? Turn.Upcoming
        : act.IsUrgent ? Turn.Urgent
        : act.Layer == 1 || surfaces.First(s => s.Story.Surface == act.Surface).HasBegun(act.Layer) ? Turn.Begun
        : Turn.Open;

    private DateTimeOffset Within(NextAct act) => Rank(act) switch
    {
        Turn.Urgent => act.By ?? DateTimeOffset.MinValue,
        Turn.Upcoming => act.From ?? DateTimeOffset.MaxValue,
        _ => DateTimeOffset.MinValue, // as planned
    };

    private IEnumerable<(SurfaceAtWork Surface, Coat Coat, CoatWindows Windows)> Flashing() =>
        from surface in surfaces
        from coat in surface.Coats
        where coat is { Windows.LevelOff: not null, Coat: { LevelledAt: null, CoveredAt: null } }
            && !surface.Story.IsFoundClear(coat.Coat.Layer, coat.Coat.Section, coat.Windows.LevelOff.ClosesAt?.Earliest ?? coat.Coat.LastWipeAt)
        select (surface, coat.Coat, coat.Windows);

    /// <summary>
    /// What would be missed if another were levelled first, while it can still be saved; then what can be worked now, also what is missed already; then what
    /// cannot be looked at yet: nobody stands and waits beside what is open.
    /// </summary>
    private Press PressOf((SurfaceAtWork Surface, Coat Coat, CoatWindows Windows) flashing)
    {
        NextAct act = LevelAct(flashing);
        DateTimeOffset free = at + pace.Level;
        return act.By >= at && act.By < free + pace.Level && !(act.From >= free) ? Press.LastChance
            : act.From > at ? Press.Later
            : Press.Now;
    }

    private static DateTimeOffset Deadline((SurfaceAtWork Surface, Coat Coat, CoatWindows Windows) flashing) =>
        flashing.Windows.LevelOff!.ClosesAt?.Earliest ?? DateTimeOffset.MaxValue;

    private NextAct LevelAct((SurfaceAtWork Surface, Coat Coat, CoatWindows Windows) flashing)
    {
        (SurfaceAtWork surface, Coat coat, CoatWindows windows) = flashing;
        Window window = windows.LevelOff!;
        bool byEye = window.JudgeByEye;
        DateTimeOffset? closes = byEye ? window.ClosesAt?.Likely : window.ClosesAt?.Earliest;
        bool isLate = at > closes && windows.Laws.IfMissed == IfMissed.Hold;
        return Cooled(surface, new NextAct(
            isLate ? ActKind.ReWet : ActKind.Level,
            coat.Surface,
            coat.Layer,
            coat.Section,
            byEye ? coat.LastWipeAt : window.OpensAt.Earliest,
            byEye ? null : closes,
            isLate,
            IsUrgent: true,
            byEye));
    }

    /// <summary>A section that is still warm from a lamp has to cool first; what was found on it keeps the instant it was found.</summary>
    private static NextAct Cooled(SurfaceAtWork surface, NextAct act) => surface.WarmAt(act.Section) is not { } warm ? act : act with
    {
        LetCool = true,
        From = act.Kind == ActKind.Rework || warm.CoolFrom is null || act.From > warm.CoolFrom ? act.From : warm.CoolFrom,
    };

    /// <summary>The next section of the pass that is being applied; null where it is time to turn back and level.</summary>
    private NextAct? MoreOfThePass()
    {
        ImmutableArray<(SurfaceAtWork Surface, Coat Coat, CoatWindows Windows)> flashing = [.. Flashing().OrderBy(f => f.Coat.FirstWipeAt)];
        if (flashing.IsEmpty)
        {
            return null;
        }

        (SurfaceAtWork surface, Coat first, CoatWindows windows) = flashing[0];
        bool isOnePass = flashing.All(f => f.Surface == surface && f.Coat.Layer == first.Layer && f.Coat.ReworkedAt is null);
        bool isLevelling = surface.Coats.Any(c => c.Coat.Layer == first.Layer && c.Coat.LevelledAt > first.FirstWipeAt);
        // Asked as of the last wipe, so that a person who was sent to apply has not levelled when they come back; but nobody may dawdle.
        bool isTimeLeft = windows.LevelOff is { JudgeByEye: false, ClosesAt.Earliest: { } closes }
            && flashing.Max(f => f.Coat.AppliedAt) + pace.ChangeOver + pace.Apply + pace.Level <= closes && at + pace.Level <= closes;
        return isOnePass && !isLevelling && isTimeLeft && flashing.Length < surface.SectionsPerPass(first.Layer)
            && ApplyOn(surface) is { IsLate: false, LetCool: false } apply && apply.Layer == first.Layer && !(apply.From > at)
            ? apply
            : null;
    }

    private IEnumerable<NextAct> Others()
    {
        foreach (SurfaceAtWork surface in surfaces)
        {
            foreach (NextAct act in Reworks(surface).Select(r => Cooled(surface, r)).Concat(Looks(surface)))
            {
                yield return act;
            }

            if (ApplyOn(surface) is { } apply)
            {
                yield return apply;
            }
        }
    }

    private NextAct? ApplyOn(SurfaceAtWork surface)
    {
        if (surface.NextCoatAt(at) is not var (layer, section))
        {
            return null;
        }

        Window? recoat = surface.Find(layer - 1, section)?.Windows.Recoat;
        DateTimeOffset? closes = recoat?.ClosesAt?.Earliest;
        closes = surface.Story.IsFoundClear(layer - 1, section, closes) ? null : closes; // it was missed, looked at and found to take another
        DateTimeOffset? opens = recoat is not null && Window.IsTooShortFor(recoat.OpensAt, closes) ? recoat.OpensAt.Likely : recoat?.OpensAt.Latest; // by eye, from when it is likely
        return Cooled(surface, new NextAct(
            ActKind.Apply,
            surface.Story.Surface,
            layer,
            section,
            opens,
            closes,
            IsLate: at > closes,
            IsUrgent: at >= Window.ClosingFrom(recoat?.OpensAt.Latest, closes),
            JudgeByEye: recoat is { OpensAt.Latest: null }));
    }

    private static IEnumerable<NextAct> Reworks(SurfaceAtWork surface) =>
        from coat in surface.Coats
        let last = surface.Story.Inspections.LastOrDefault(i => i.At >= coat.Coat.StartedAt && i.Covers(coat.Coat.Layer, coat.Coat.Section))
        where last is not null && last.Found != Found.Clear && coat.Coat.CoveredAt is null && !(coat.Coat.ReworkedAt >= last.At)
        select new NextAct(ActKind.Rework, coat.Coat.Surface, coat.Coat.Layer, coat.Coat.Section, last.At, null, IsUrgent: true);

    /// <summary>One look for all sections of a layer that can be looked at together; section by section while others are still to come.</summary>
    private IEnumerable<NextAct> Looks(SurfaceAtWork surface) =>
        from layer in surface.Coats
            .Where(c => SecondLook.IsAwaited(surface.Story, c.Coat, c.Windows.Laws) && !Reworks(surface).Any(r => r.Layer == c.Coat.Layer && r.Section == c.Coat.Section))
            .Select(c => (c.Coat, From: SecondLook.Begins(c.Coat, c.Coat.LevelledAt!.Value), By: SecondLook.Ends(c.Coat, c.Coat.LevelledAt!.Value)))
            .GroupBy(c => c.Coat.Layer)
        let first = layer.MinBy(c => c.By)
        let isWhole = layer.Count() == surface.Story.Surface.Sections && layer.All(c => c.From <= first.By)
        from look in isWhole ? [(first.Coat, layer.Max(c => c.From), first.By)] : layer.OrderBy(c => c.From).AsEnumerable()
        select new NextAct(
            ActKind.Look, look.Coat.Surface, layer.Key, isWhole ? null : look.Coat.Section, look.Item2, look.Item3, IsLate: at > look.Item3, IsUrgent: true);

    /// <summary>Whose turn it is among what flashes.</summary>
    private enum Press
    {
        /// <summary>It is missed if another goes first.</summary>
        LastChance,

        /// <summary>It can be looked at.</summary>
        Now,

        /// <summary>It cannot be looked at yet.</summary>
        Later,
    }

    /// <summary>Whose turn it is among what flashes not.</summary>
    private enum Turn
    {
        /// <summary>It cannot wait: a find, a second look, a recoat that closes.</summary>
        Urgent,

        /// <summary>A first layer, or one that is on other sections already.</summary>
        Begun,

        /// <summary>A next layer that may go on.</summary>
        Open,

        /// <summary>Not yet.</summary>
        Upcoming,

        /// <summary>Too late for it: a person has to decide.</summary>
        Late,
    }
}
