using CureWatch.Curing;
using CureWatch.Panels;
using CureWatch.Products;
using CureWatch.TimeWindows;
using CureWatch.Words;

namespace CureWatch.Handover;

/// <summary>Finds every reason a surface may not leave, not the first.</summary>
internal sealed class Holds(Evidence evidence, DateTimeOffset now, TimeZoneInfo zone)
{
    private static readonly Sentence BySlowestRow = $"by the sheet's slowest row, an assumption, for nobody measured";

    private readonly SurfaceStory _story = evidence.Story;

    private bool IsUnwatched => evidence.Unwatched is [.., { To: null }];

    public IEnumerable<Hold> All() =>
        evidence.Coats.SelectMany(OfCoat).Concat(NotApplied()).Concat(ReportedLate());

    private IEnumerable<Hold> OfCoat(CoatEvidence coat) =>
        new[]
        {
            NotLevelled(coat), LevelMissed(coat), LevelledEarly(coat), Recoated(coat), KeepDry(coat), Wetted(coat), Condensation(coat),
            Unwatched(coat), Washed(coat), Heat(coat), Found(coat),
        }.OfType<Hold>();

    private IEnumerable<Hold> NotApplied() =>
        from section in Enumerable.Range(1, _story.Surface.Sections)
        from layer in Enumerable.Range(1, _story.Surface.Layers)
        where _story.IsMissing(layer, section)
        select new Hold(
            HoldKind.NotApplied,
            _story.Surface.Id,
            layer,
            section,
            _story.PolishedOffAt(layer, section) is { } at
                ? (Sentence)$"Polished off {Clock(at)} and not applied again; apply it, or inspect and find clear."
                : $"Planned, not applied; apply it, or find that layer clear without it.");

    private IEnumerable<Hold> ReportedLate() =>
        from untimely in _story.Untimely
        let tap = untimely.Tap
        where !IsClearOf(untimely) && (!untimely.IsOfALamp || evidence.Coats.Any(c => !c.Windows.Laws.Sheet.Lamp.IsEmpty))
        select new Hold(
            HoldKind.ReportedLate,
            _story.Surface.Id,
            tap.Layer ?? untimely.Corrected?.Layer,
            tap.Section ?? untimely.Corrected?.Section,
            untimely is { Corrected: { } taken, Tap.Did: Did.Withdrawn } ? (Sentence)$"{DidWords.Of(taken.Did)} {Clock(taken.At)}, taken back {Clock(tap.ReportedAt)}; inspect and find clear."
            : untimely.Corrected is { } first
                ? (Sentence)$"{DidWords.Of(tap.Did)} {Clock(tap.At)}, told {Clock(tap.ReportedAt)} in place of {DidWords.Of(first.Did)} {Clock(first.At)}; inspect and find clear."
                : $"{DidWords.Of(tap.Did)} {Clock(tap.At)}, told only {Clock(tap.ReportedAt)}; inspect and find clear.");

    private Hold? NotLevelled(CoatEvidence coat) =>
        coat.Windows.HasToBeLevelled(_story)
            ? Of(HoldKind.NotLevelled, coat, $"Not levelled; level it, or inspect and find clear once it is past levelling.") with
            {
                IsOverdue = coat.Windows.LevelOff!.State == WindowState.Missed || coat.Windows.ReadyAt?.Latest <= now,
            }
            : null;

    private Hold? LevelMissed(CoatEvidence coat)
    {
        bool isMissed = coat.Windows.LevelOff?.State == WindowState.Missed && coat.Windows.Laws.IfMissed == IfMissed.Hold;
        bool isWipedSince = coat.Coat.ReworkedAt >= coat.Coat.LevelledAt;
        DateTimeOffset? deadline = coat.Windows.LevelOff?.ClosesAt?.Earliest;
        return isMissed && !isWipedSince && !IsClear(coat, coat.Coat.LevelledAt ?? deadline)
            ? Of(
                HoldKind.LevelMissed,
                coat,
                coat.Windows.LevelOff is { JudgeByEye: true }
                    ? (Sentence)$"Level-off was too short to time; inspect and find clear, or rework."
                    : $"Level-off was safe until {Clock(deadline)}; inspect and find clear, or rework.")
            : null;
    }

    private Hold? LevelledEarly(CoatEvidence coat) =>
        coat.Coat.LevelledAt is { } at && at < coat.Windows.LevelOff?.OpensAt.Earliest && !IsClear(coat, at)
            ? Of(HoldKind.OutOfWindow, coat, $"Levelled {Clock(at)}, before it can have flashed; inspect for smears and find clear.")
            : null;

    private Hold? Recoated(CoatEvidence coat)
    {
        if (coat.Coat.Layer == 1 || IsClear(coat, coat.Coat.StartedAt))
        {
            return null;
        }

        CoatEvidence? below = evidence.Coats.FirstOrDefault(
            c => c.Coat.Layer == coat.Coat.Layer - 1 && c.Coat.Section == coat.Coat.Section && c.Coat.StartedAt < coat.Coat.StartedAt);
        if (below is null)
        {
            Sentence bare = $"Applied {Clock(coat.Coat.StartedAt)} with no layer {coat.Coat.Layer - 1} under it; inspect and find clear.";
            return Of(HoldKind.OutOfWindow, coat, bare);
        }

        return below.Windows.Recoat is { State: WindowState.Missed } window
            ? Of(
                HoldKind.OutOfWindow,
                coat,
                window.IsTooShort
                ? (Sentence)$"Begun {Clock(coat.Coat.StartedAt)}; when layer {below.Coat.Layer} takes it was too short to time in this climate; inspect and find clear."
                : $"Begun {Clock(coat.Coat.StartedAt)}; layer {below.Coat.Layer} takes it from {Clock(window.OpensAt.Latest)}"
                + $"{(window.ClosesAt is { } closes ? (Sentence)$" to {Clock(closes.Earliest)}" : $"")}; inspect and find clear.")
            : null;
    }

    private Hold? KeepDry(CoatEvidence coat) =>
        coat.Windows.KeepDry is { State: not WindowState.Done } window
            ? Of(
                HoldKind.KeepDry,
                coat,
                window.ClosesAt switch
                {
                    null => $"Keep dry; the surface is wet.",
                    { Latest: null } => $"Keep dry; until when nobody can tell while the air earns it nothing or a probe that tells of it is silent.",
                    var closes => $"Keep dry until {Clock(closes.Latest)} at the latest{(IsUnwatched ? (Sentence)$" ({BySlowestRow})" : $"")}, likely {Clock(closes.Likely)}.{evidence.Assumed}",
                })
            : null;

    private Hold? Wetted(CoatEvidence coat)
    {
        Wetting? wetting = coat.Windows.WettedInKeepDry.LastOrDefault(w => !IsClear(coat, w.DriedAt));
        return wetting is null ? null : Of(
            HoldKind.Wetted,
            coat,
            wetting.DriedAt is { } dried
                ? (Sentence)$"Wetted {Clock(wetting.WettedAt)}, dried {Clock(dried)}; inspect and find clear."
                : $"Wetted {Clock(wetting.WettedAt)} and not dried; dry it, then inspect and find clear.");
    }

    private Hold? Condensation(CoatEvidence coat)
    {
        Spell? spell = DuringKeepDry(coat, evidence.WetSpells, s => s.To);
        return spell is null ? null : Of(
            HoldKind.Condensation,
            coat,
            $"Water condensed from {Clock(spell.From)}{Until(spell)} while it had to stay dry; inspect and find clear.");
    }

    private Hold? Unwatched(CoatEvidence coat)
    {
        DateTimeOffset? bySheet = coat.Windows.KeepDry?.ClosesAt?.Latest;
        Spell? spell = DuringKeepDry(coat, evidence.Unwatched, s => s.To ?? bySheet);
        return spell is null ? null : Of(
            HoldKind.Unwatched,
            coat,
            spell.To is null && bySheet is not null
                ? (Sentence)$"Where nobody measures from {Clock(spell.From)}{Until(spell)} while it had to stay dry; bring it back, inspect and find clear, or inspect it from {Clock(bySheet)} on: {BySlowestRow}."
                : $"Where nobody measures from {Clock(spell.From)}{Until(spell)} while it had to stay dry; bring it back, inspect and find clear.");
    }

    private Hold? Washed(CoatEvidence coat)
    {
        Window? noWash = coat.Windows.NoWash;
        DateTimeOffset? washed = noWash is null ? null : _story.Washings.Cast<DateTimeOffset?>().LastOrDefault(
            w => w >= coat.Coat.StartedAt && !(w >= noWash.ClosesAt?.Latest));
        return washed is null || IsClear(coat, washed)
            ? null
            : Of(HoldKind.OutOfWindow, coat, $"Washed {Clock(washed)}, before washing is safe; inspect and find clear.");
    }

    private Hold? Heat(CoatEvidence coat)
    {
        Overheat? overheat = evidence.Overheats.Where(o => o.At >= coat.Coat.StartedAt && !IsClear(coat, o.At)).MaxBy(o => o.PanelC);
        return overheat is null
            ? null
            : Of(
                HoldKind.Heat,
                coat,
                $"{new Figure.Temperature(overheat.PanelC, "0.#")} {Clock(overheat.At)}, above its {new Figure.Temperature(overheat.LimitC, "0.#")}; inspect and find clear.");
    }

    private Hold? Found(CoatEvidence coat)
    {
        Inspection? last = _story.Inspections.LastOrDefault(
            i => i.At >= coat.Coat.StartedAt && i.Covers(coat.Coat.Layer, coat.Coat.Section));
        return last is null or { Found: Curing.Found.Clear }
            ? null
            : Of(HoldKind.Inspection, coat, $"{DidWords.Of(last.Found)} found {Clock(last.At)}; rework, then inspect and find clear.");
    }

    private Spell? DuringKeepDry(CoatEvidence coat, IEnumerable<Spell> spells, Func<Spell, DateTimeOffset?> clearSince)
    {
        DateTimeOffset begun = coat.Coat.StartedAt;
        Spell? spell = coat.Windows.KeepDry is { } keepDry
            ? spells.LastOrDefault(s => !(s.From >= keepDry.ClosesAt?.Latest) && (s.To ?? now) >= begun && !IsClear(coat, clearSince(s)))
            : null;
        return spell?.From < begun ? spell with { From = begun } : spell;
    }

    /// <summary>A tap that named no section was about every section: each has to be looked at.</summary>
    private bool IsClearOf(Untimely untimely) => untimely.On.All(on => _story.IsFoundClear(on.Layer, on.Section, untimely.Tap.ReportedAt));

    private bool IsClear(CoatEvidence coat, DateTimeOffset? since) =>
        _story.IsFoundClear(coat.Coat.Layer, coat.Coat.Section, since);

    private Sentence Until(Spell spell) => spell.To is { } to ? (Sentence)$" to {Clock(to)}" : $" on";

    private Sentence Clock(DateTimeOffset? at) => at is { } instant ? (Sentence)$"{TimeZoneInfo.ConvertTime(instant, zone):ddd d MMM HH:mm}" : $"never";

    private static Hold Of(HoldKind kind, CoatEvidence coat, Sentence text) =>
        new(kind, coat.Coat.Surface.Id, coat.Coat.Layer, coat.Coat.Section, text);
}
