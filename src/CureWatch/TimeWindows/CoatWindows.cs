using System.Collections.Immutable;
using CureWatch.Curing;
using CureWatch.Products;

namespace CureWatch.TimeWindows;

/// <summary>All windows of one coat at one instant.</summary>
/// <remarks>
/// Two clocks: evaporation runs from the wipe (the last one for the opening, the first one for level-by), cure from the levelling, or from
/// the wipe where the product does not flash; until it is levelled, from the opening of level-off. Openings and releases end on the slow
/// bound, deadlines on the fast one.
/// </remarks>
public sealed class CoatWindows
{
    private readonly Coat _coat;
    private readonly CoatLaws _laws;
    private readonly Func<TimedStage, CoatClock> _clockOf;
    private readonly DateTimeOffset _now;
    private readonly Lazy<Window?> _levelOff;
    private readonly Lazy<TimeBounds> _cureStart;
    private readonly Lazy<Window?> _recoat;
    private readonly Lazy<(Window? Window, ImmutableArray<Wetting> Inside)> _keepDry;
    private readonly Lazy<Window?> _noWash;
    private readonly Lazy<Window?> _fullCure;

    private CoatWindows(Coat coat, CoatLaws laws, IReadOnlyList<Wetting> wettings, Func<TimedStage, CoatClock> clockOf, DateTimeOffset now)
    {
        _coat = coat;
        _laws = laws;
        _levelOff = new Lazy<Window?>(LevelOffWindow);
        _cureStart = new Lazy<TimeBounds>(CureStartAt);
        _recoat = new Lazy<Window?>(RecoatWindow);
        _keepDry = new Lazy<(Window? Window, ImmutableArray<Wetting> Inside)>(() => KeepDryWindow(wettings));
        _noWash = new Lazy<Window?>(() => Cured(WindowStage.NoWash, _laws.NoWash));
        _fullCure = new Lazy<Window?>(() => Cured(WindowStage.FullCure, _laws.FullCure));
        _clockOf = clockOf;
        _now = now;
    }

    /// <summary>The laws of its product.</summary>
    public CoatLaws Laws => _laws;

    /// <summary>The level-off window; null where there is nothing to level.</summary>
    public Window? LevelOff => _levelOff.Value;

    /// <summary>Whether the last safe moment to level has passed without a levelling, or before it.</summary>
    public bool WasLevelledLate => (_coat.LevelledAt ?? _now) > LevelOff?.ClosesAt?.Earliest;

    /// <summary>Whether there is something to level, and nobody has.</summary>
    public bool AwaitsLevelling => _coat.LevelledAt is null && LevelOff is not null;

    /// <summary>Whether it still has to be levelled, or looked at: neither was done since level-off closed.</summary>
    /// <param name="story">What people told of its surface.</param>
    /// <returns>False too where somebody found it clear as it is.</returns>
    public bool HasToBeLevelled(SurfaceStory story) =>
        AwaitsLevelling && !story.IsFoundClear(_coat.Layer, _coat.Section, LevelOff!.ClosesAt?.Earliest ?? _coat.LastWipeAt);

    /// <summary>When the cure clock started, or is expected to.</summary>
    public TimeBounds CureStart => _cureStart.Value;

    /// <summary>Finds a coat's windows.</summary>
    /// <param name="coat">The coat, not polished off.</param>
    /// <param name="laws">The laws of its product.</param>
    /// <param name="wettings">The wettings of its surface, in order.</param>
    /// <param name="clockOf">The coat's clock for a stage.</param>
    /// <param name="now">The present.</param>
    /// <returns>The windows; each is worked out when it is first asked for.</returns>
    public static CoatWindows Of(
        Coat coat, CoatLaws laws, IReadOnlyList<Wetting> wettings, Func<TimedStage, CoatClock> clockOf, DateTimeOffset now) =>
        new(coat, laws, wettings, clockOf, now);

    /// <summary>The windows the sheet gives times for, in order.</summary>
    public ImmutableArray<Window> All => [.. new[] { Flash(), LevelOff }.OfType<Window>(), .. OfItsCure];

    /// <summary>Those of them that are still awaited once it is levelled.</summary>
    public ImmutableArray<Window> OfItsCure => [.. new[] { Recoat, KeepDry, NoWash, FullCure }.OfType<Window>()];

    /// <summary>The same, each with how far it is reckoned beyond the sheet's rows.</summary>
    public IEnumerable<Window> Explained => All.Select(w => w with
    {
        Beyond = Extrapolation.Of(w.Stage, _laws, TimeBounds.Known(_coat.LastWipeAt), CureStart, _clockOf),
    });

    /// <summary>The recoat window; null where the sheet gives none.</summary>
    public Window? Recoat => _recoat.Value;

    /// <summary>
    /// The keep-dry window, starting from the last drying where the sheet says so, without an end while the surface is wet; null where the
    /// sheet gives none.
    /// </summary>
    public Window? KeepDry => _keepDry.Value.Window;

    /// <summary>The wettings that fell into keep-dry.</summary>
    public ImmutableArray<Wetting> WettedInKeepDry => _keepDry.Value.Inside;

    /// <summary>The no-wash window; null where the sheet gives none.</summary>
    public Window? NoWash => _noWash.Value;

    /// <summary>The full-cure window; null where the sheet gives none.</summary>
    public Window? FullCure => _fullCure.Value;

    /// <summary>The last instant that must pass before the car could go, as far as this coat is concerned.</summary>
    /// <remarks>The end of keep-dry; without one, the levelling, or the wipe. Null while only a person can bring it about.</remarks>
    public TimeBounds? ReadyAt =>
        KeepDry is { } keepDry ? keepDry.ClosesAt
        : LevelOff is { } levelOff ? (_coat.LevelledAt is { } at ? TimeBounds.Known(at) : levelOff.OpensAt)
        : TimeBounds.Known(_coat.LastWipeAt);

    private Window? RecoatWindow()
    {
        if (_laws.RecoatFrom is null && _laws.RecoatBy is null)
        {
            return null;
        }

        TimeBounds opens = _laws.RecoatFrom is { } from ? Reached(from, CureStart) : CureStart;
        TimeBounds? closes = _laws.RecoatBy is { } by ? Reached(by, CureStart) : null;
        DateTimeOffset act = _coat.CoveredAt ?? _now;
        WindowState state = act > closes?.Earliest ? WindowState.Missed
            : _coat.CoveredAt is not null ? (act >= opens.Latest ? WindowState.Done : WindowState.Missed)
            : !(act >= opens.Latest) ? WindowState.Upcoming
            : act >= Window.ClosingFrom(opens.Latest, closes?.Earliest) ? WindowState.Closing
            : WindowState.Open;
        return new Window(WindowStage.Recoat, opens, closes, state);
    }

    private (Window? Window, ImmutableArray<Wetting> Inside) KeepDryWindow(IReadOnlyList<Wetting> wettings)
    {
        if (_laws.KeepDry is not { } stage)
        {
            return (null, []);
        }

        TimeBounds start = CureStart;
        TimeBounds? closes = Reached(stage, start);
        var inside = ImmutableArray.CreateBuilder<Wetting>();
        foreach (Wetting wetting in wettings.Where(w => w.IsOn(_coat.Section) && w.WettedAt >= _coat.StartedAt))
        {
            if (closes is not null && wetting.WettedAt >= closes.Latest)
            {
                continue;
            }

            inside.Add(wetting);
            if (wetting.DriedAt is not { } dried)
            {
                closes = null;
            }
            else if (_laws.Sheet.AfterWetting == AfterWetting.Restart && closes is not null)
            {
                start = start.OrLater(TimeBounds.Known(dried));
                closes = Reached(stage, start);
            }
        }

        return (new Window(WindowStage.KeepDry, start, closes, CureState(start, closes)), inside.ToImmutable());
    }

    private Window? Flash()
    {
        if (_laws.Flash is null || LevelOff is null)
        {
            return null;
        }

        TimeBounds closes = LevelOff.OpensAt;
        WindowState state = _coat.LevelledAt is not null || _now >= closes.Latest ? WindowState.Done
            : _now > closes.Likely ? WindowState.Closing
            : WindowState.Open;
        return new Window(WindowStage.Flash, TimeBounds.Known(_coat.LastWipeAt), closes, state);
    }

    private Window? LevelOffWindow()
    {
        if (_laws.LevelByEvaporation is not { } evaporation || _laws.LevelByCure is not { } cure)
        {
            return null;
        }

        TimeBounds opens = Opening(_laws.Flash);
        TimeBounds firstWipe = TimeBounds.Known(_coat.FirstWipeAt);
        TimeBounds closes = Reached(evaporation, firstWipe).OrEarlier(Reached(cure, firstWipe));
        bool judgeByEye = opens.Latest is null || closes.Earliest is null || opens.Latest >= closes.Earliest;
        return new Window(WindowStage.LevelOff, opens, closes, LevelOffState(opens, closes), judgeByEye);
    }

    private TimeBounds Opening(TimedStage? flash)
    {
        TimeBounds lastWipe = TimeBounds.Known(_coat.LastWipeAt);
        TimeBounds opens = flash is null ? lastWipe : Reached(flash, lastWipe);
        return flash is not null && _coat.FlashedAt is { } seen ? opens.OrEarlier(TimeBounds.Known(seen)) : opens;
    }

    /// <summary>From when to look whether a coat can be levelled: its likely opening; where that comes after the close, at once.</summary>
    public DateTimeOffset? LevelOffLookFrom => LevelOff is { ClosesAt: { } closes } window ? LookFrom(window.OpensAt, closes) : null;

    private DateTimeOffset? LookFrom(TimeBounds opens, TimeBounds closes) => opens.Likely < closes.Earliest ? opens.Likely : _coat.LastWipeAt;

    private WindowState LevelOffState(TimeBounds opens, TimeBounds closes)
    {
        bool isLate = (_coat.LevelledAt ?? _now) > closes.Earliest;
        if (_coat.LevelledAt is not null)
        {
            return isLate && _laws.IfMissed == IfMissed.Hold ? WindowState.Missed : WindowState.Done;
        }

        return isLate ? WindowState.Missed
            : !(_now >= opens.Likely) ? WindowState.Upcoming
            : _now >= Window.ClosingFrom(LookFrom(opens, closes), closes.Earliest) ? WindowState.Closing
            : WindowState.Open;
    }

    private TimeBounds CureStartAt() =>
        _laws.CureStartOf(_coat) is { } started ? TimeBounds.Known(started)
        : _laws.Flash == _laws.FlashOfTheSheet ? LevelOff!.OpensAt
        : Opening(_laws.FlashOfTheSheet); // learning moves no deadline of the cure clock

    private Window? Cured(WindowStage stage, TimedStage? timed)
    {
        if (timed is null)
        {
            return null;
        }

        TimeBounds closes = Reached(timed, CureStart);
        return new Window(stage, CureStart, closes, CureState(CureStart, closes));
    }

    private WindowState CureState(TimeBounds opens, TimeBounds? closes) =>
        closes is not null && _now >= closes.Latest ? WindowState.Done
        : closes is not null && _now > closes.Likely ? WindowState.Closing
        : _now >= opens.Likely ? WindowState.Open
        : WindowState.Upcoming;

    private TimeBounds Reached(TimedStage stage, TimeBounds start) => _clockOf(stage).ReachedAt(start, stage.Milestone);
}
