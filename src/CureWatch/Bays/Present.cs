using System.Collections.Immutable;
using CureWatch.Curing;
using CureWatch.Forecasting;
using CureWatch.Learning;
using CureWatch.Panels;
using CureWatch.Products;
using CureWatch.TimeWindows;

namespace CureWatch.Bays;

/// <summary>The shop as seen at one instant: settled climate read off its tables, what came since held, and the outlook.</summary>
/// <param name="shop">The shop.</param>
/// <param name="now">The instant, not before the shop's present.</param>
public sealed class Present(Shop shop, DateTimeOffset now)
{
    private readonly Dictionary<WatchPoint, (WatchedClimate? Climate, IReadOnlyList<ClimateSegment> Provisional)> _followed = [];
    private readonly Dictionary<string, Watches> _watchesIn = new(StringComparer.Ordinal);
    private readonly Dictionary<WatchPoint, Watch> _watches = [];
    private readonly Dictionary<WatchPoint, Exposure?> _exposures = [];
    private readonly Dictionary<WatchPoint, double?> _hottest = [];
    private readonly Dictionary<(CreditTable Table, ClimateTrack Track), Lazy<CreditTable>> _whole = [];
    private readonly Dictionary<(string Job, string Surface), ImmutableArray<Stay>> _stays = [];
    private readonly Dictionary<(string Job, Coat Alike, ImmutableArray<Wetting> Wettings, Learnt Learnt), CoatWindows> _windows = [];
    private readonly Dictionary<(CoatKey Coat, RateLaw Law, Stage? UnderLamp), CoatClock> _clocks = [];
    private readonly Dictionary<(string Job, string Surface), UnderLamp?> _lamps = [];
    private readonly Dictionary<(WatchPoint Point, Exposure Held), SurfaceAhead?> _ahead = [];

    /// <summary>The instant.</summary>
    public DateTimeOffset Now => now;

    /// <summary>What is supposed of what is ahead; nothing where it is taken as it is expected.</summary>
    internal Supposed Supposed { get; init; } = Supposed.Nothing;

    /// <summary>The windows of a coat.</summary>
    /// <param name="job">Its job.</param>
    /// <param name="story">The story of its surface.</param>
    /// <param name="coat">The coat.</param>
    /// <returns>The windows.</returns>
    /// <remarks>Sections whose taps were told together have the same windows, whoever asks: those are worked out once.</remarks>
    public CoatWindows WindowsOf(Job job, SurfaceStory story, Coat coat)
    {
        Learnt learnt = shop.LearntOf(job.Id, coat);
        (string, Coat, ImmutableArray<Wetting>, Learnt) key = (job.Id, story.DiffersBySection ? coat : coat with { Section = 0 }, story.Wettings, learnt);
        return _windows.TryGetValue(key, out CoatWindows? windows)
            ? windows
            : _windows[key] = CoatWindows.Of(coat, Supposed.LawsOf(job.Id, coat, shop.LawsOf(coat).With(learnt)), story.Wettings, stage => ClockOf(job, story, coat, stage), now);
    }

    /// <summary>A clock of a coat.</summary>
    /// <param name="job">Its job.</param>
    /// <param name="story">The story of its surface.</param>
    /// <param name="coat">The coat.</param>
    /// <param name="stage">The stage the clock is asked for: its law, and what lamps earn on it.</param>
    /// <returns>The clock.</returns>
    public CoatClock ClockOf(Job job, SurfaceStory story, Coat coat, TimedStage stage)
    {
        (CoatKey, RateLaw, Stage?) key = (CoatKey.Of(job.Id, coat), stage.Law, story.Lamps.IsEmpty ? null : stage.Stage);
        if (!_clocks.TryGetValue(key, out CoatClock? clock))
        {
            clock = BuildClock(job, story, coat, stage);
            _clocks.Add(key, clock);
        }

        return clock;
    }

    /// <summary>Where a surface was.</summary>
    /// <param name="job">Its job.</param>
    /// <param name="story">Its story.</param>
    /// <returns>The stays.</returns>
    public ImmutableArray<Stay> StaysOf(Job job, SurfaceStory story)
    {
        (string, string) key = (job.Id, story.Surface.Id);
        if (!_stays.TryGetValue(key, out ImmutableArray<Stay> stays))
        {
            stays = Stay.Of(shop, job, story);
            _stays.Add(key, stays);
        }

        return stays;
    }

    /// <summary>The climate at a watch point now: the newest values, held.</summary>
    /// <param name="point">The point.</param>
    /// <returns>The exposure; null where the air was never measured.</returns>
    public Exposure? ExposureAt(WatchPoint point)
    {
        if (!_exposures.TryGetValue(point, out Exposure? exposure))
        {
            exposure = WatchAt(point).Over(now, now, now)?.AtEnd;
            exposure = exposure is { } held && !TellsPanelAt(point) && NewestAt(point) is { } newest
                ? held with { PanelKelvins = newest.AtEnd.PanelKelvins }
                : exposure;
            _exposures.Add(point, exposure);
        }

        return exposure;
    }

    /// <summary>Whether probes say at a watch point what the panel is; else it is modelled.</summary>
    /// <param name="point">The point.</param>
    /// <returns>False where it is modelled.</returns>
    internal bool TellsPanelAt(WatchPoint point) => WatchAt(point).TellsPanelAt(now);

    /// <summary>The hottest panel at a watch point now: heat that spoils one part of a surface spoils the surface.</summary>
    /// <param name="point">The point.</param>
    /// <returns>Its temperature [K]; null where no panel was heard in time.</returns>
    public double? HottestPanelKelvinsAt(WatchPoint point)
    {
        if (!_hottest.TryGetValue(point, out double? hottest))
        {
            hottest = WatchAt(point).Awaited
                .Where(p => !p.IsGapForCure(now - p.Last.At) && (!p.IsLentAt(now) || MaySayOf(point, p))).Max(p => (double?)p.Last.Kelvins);
            _hottest.Add(point, hottest);
        }

        return hottest;
    }

    private bool MaySayOf(WatchPoint point, Source panel) =>
        point.Own is { } own && shop.Bays[point.Bay] is var bay && LampHeat.MaySayOf(bay, bay.IndexOf(panel.Probe!), own).Any(s => s.Covers(now));

    /// <summary>What a surface's lamps were, and what it was read to be under them.</summary>
    /// <param name="job">Its job.</param>
    /// <param name="story">Its story.</param>
    /// <returns>The lamps; null where there never was one.</returns>
    internal UnderLamp? LampsOver(Job job, SurfaceStory story)
    {
        (string, string) key = (job.Id, story.Surface.Id);
        if (!_lamps.TryGetValue(key, out UnderLamp? lamps))
        {
            lamps = UnderLamp.Of(shop, new SurfaceKey(job.Id, story.Surface.Id), story, StaysOf(job, story));
            _lamps.Add(key, lamps);
        }

        return lamps;
    }

    private CoatClock BuildClock(Job job, SurfaceStory story, Coat coat, TimedStage stage)
    {
        RateLaw law = stage.Law;
        ImmutableArray<Stay> stays = StaysOf(job, story);
        ImmutableArray<Stretch> stretches = new Lifetime(law, coat.StartedAt, now).Along(
            [.. stays.Select(s => (s, PiecesOf(s, law)))]);
        if (LampsOver(job, story) is { } lamps)
        {
            stretches = lamps.Over(stretches, coat, shop.LawsOf(coat), stage, now);
        }

        bool isLit = stretches[^1] is LitStretch;
        Outlook outlook = stays.Reverse().Select(s => s.Point is { } p ? OutlookAt(p, law, isLit) : null).FirstOrDefault(o => o is not null) is { } known
            ? Along(known) with { MayBe = stays[^1].Point is null ? [] : [.. known.MayBe.Select(Along)] }
            : new Outlook(now, Lifetime.AtReference(law), []);
        return new CoatClock(new CureRecord(law, stretches), outlook, Stay.Doubts(shop, stays, coat.StartedAt))
        {
            Absences = Stay.Unwatched(stays),
        };

        Outlook Along(Outlook held) => held with { Ahead = AheadOf(stays[^1].Point, held.Held, held.Otherwise)?.Along(law) };
    }

    /// <summary>The climate along the forecast; null where the car is not in a bay whose air can be forecast.</summary>
    private SurfaceAhead? AheadOf(WatchPoint? point, Exposure held, ImmutableArray<Exposure> otherwise)
    {
        if (point is not { Air: Place.Outside })
        {
            return null;
        }

        if (!_ahead.TryGetValue((point, held), out SurfaceAhead? ahead))
        {
            ClimateForecast? forecast = Supposed.Of(ClimateForecast.Of(shop.Bays[point.Bay].Forecaster, now, held), point.Bay, now, held);
            ahead = forecast is null ? null : new SurfaceAhead(forecast, held, otherwise, WatchAt(point).TimeConstant);
            _ahead.Add((point, held), ahead);
        }

        return ahead;
    }

    internal Watch WatchAt(WatchPoint point) => _watches.TryGetValue(point, out Watch? watch) ? watch : _watches[point] = WatchesIn(point.Bay).Of(point);

    private Watches WatchesIn(string bay) => _watchesIn.TryGetValue(bay, out Watches? watches) ? watches : _watchesIn[bay] = new Watches(shop, shop.Bays[bay]);

    private Outlook? OutlookAt(WatchPoint point, RateLaw law, bool isLit)
    {
        if (NewestAt(point) is not { } newest)
        {
            return null;
        }

        Exposure? followed = TellsPanelAt(point) ? null : WatchAt(point).Over(now, now, now)?.AtEnd;
        return Supposed.Of(PanelOutlook.Of(isLit ? newest.Unlit() : newest, followed, law, now) with { MayBe = UnknownPresent.Of(newest, WatchAt(point), now, isLit) });
    }

    /// <summary>The newest that is known of the climate at a watch point, held to the present; null where the air was never measured.</summary>
    internal ClimateSegment? NewestAt(WatchPoint point)
    {
        (WatchedClimate? climate, IReadOnlyList<ClimateSegment> provisional) = FollowedAt(point);
        return provisional.Count > 0 ? provisional[^1]
            : climate is { Track.Segments: { Count: > 0 } segments } ? segments.Last
            : null;
    }

    private ImmutableArray<Stretch> PiecesOf(Stay stay, RateLaw law)
    {
        if (stay.Point is not { } point || shop.ClimateAt(point) is not { } settled)
        {
            return [];
        }

        (WatchedClimate? climate, IReadOnlyList<ClimateSegment> provisional) = stay.To <= settled.Track.SettledTo ? (settled, []) : FollowedAt(point);
        var pieces = ImmutableArray.CreateBuilder<Stretch>();
        if (climate!.Track.Segments.Count > 0 && climate.TableOf(law) is { } table)
        {
            DateTimeOffset from = climate.Track.Segments[Math.Min(table.First, climate.Track.Segments.Count - 1)].Start;
            pieces.Add(new Stretch.Settled(table, WholeOf(table, climate.Track), climate.Track, from, climate.Track.Segments.Last.End));
        }

        pieces.AddRange(provisional.Select(s => new Stretch.Loose(law, s)));
        return pieces.ToImmutable();
    }

    private Lazy<CreditTable> WholeOf(CreditTable table, ClimateTrack track)
    {
        if (!_whole.TryGetValue((table, track), out Lazy<CreditTable>? whole))
        {
            whole = new Lazy<CreditTable>(() => table.Extend(track));
            _whole.Add((table, track), whole);
        }

        return whole;
    }

    /// <summary>The climate at a watch point, one that no coat waits for followed up to now, and what is not settled of it.</summary>
    private (WatchedClimate? Climate, IReadOnlyList<ClimateSegment> Provisional) FollowedAt(WatchPoint point)
    {
        if (!_followed.TryGetValue(point, out (WatchedClimate? Climate, IReadOnlyList<ClimateSegment> Provisional) followed))
        {
            WatchedClimate? climate = shop.ClimateAt(point)?.CaughtUp(WatchAt(point), now);
            _followed.Add(point, followed = (climate, (climate?.Track ?? ClimateTrack.Blank).Provisional(WatchAt(point), now)));
        }

        return followed;
    }
}
