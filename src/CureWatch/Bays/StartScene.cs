using System.Collections.Immutable;
using CureWatch.Curing;
using CureWatch.Handover;
using CureWatch.Panels;
using CureWatch.Planning;
using CureWatch.Products;
using CureWatch.Words;

namespace CureWatch.Bays;

/// <summary>Gathers what the answer to "can I start?" follows from, as it is at the shop's present.</summary>
internal sealed class StartScene
{
    /// <summary>What holds a layer from getting another over it. That it is not levelled, or has to stay dry, is said otherwise, or is no matter here.</summary>
    private static readonly ImmutableHashSet<HoldKind> Holding =
    [
        HoldKind.LevelMissed, HoldKind.OutOfWindow, HoldKind.Wetted, HoldKind.Condensation, HoldKind.Heat, HoldKind.Unwatched, HoldKind.ReportedLate,
        HoldKind.Inspection,
    ];

    private static readonly Sentence WarmBefore =
        $" What came in cold is reckoned within {new Figure.Difference(PlausiblePanel.LastingK, "0")} of that air by the time it is coated.";

    private readonly Dictionary<string, Func<DateTimeOffset, DateTimeOffset?, NightAhead?>?> _nights = [];
    private readonly Shop _shop;
    private readonly Present _present;

    /// <summary>Coats that are not begun have the names of coats that are: they are looked at apart.</summary>
    private readonly Present _ifBegun;

    /// <summary>What is still cold from outdoors is not coated as it is: by the time it may be, what is cold of a car has faded.</summary>
    private readonly Present _ifBegunWarm;

    private readonly Lazy<ImmutableArray<AirWork>> _works;

    public StartScene(Shop shop, Supposed? supposed = null)
    {
        _shop = shop;
        supposed ??= Supposed.Nothing;
        _present = new Present(shop, shop.Now) { Supposed = supposed };
        _ifBegun = new Present(shop, shop.Now) { Supposed = supposed };
        _ifBegunWarm = new Present(shop, shop.Now) { Supposed = supposed with { AreColdCarsWarm = true } };
        _works = new Lazy<ImmutableArray<AirWork>>(() => [.. AirWorks.Of(shop).Concat(AirWorks.OfCarsToCome(shop))]);
        Day = DayOf(shop);
    }

    public StartDay Day { get; }

    /// <summary>The surfaces of a car none of whose coats is begun, as far as its turn goes by them: nothing of a night, or of what holds it.</summary>
    public ImmutableArray<StartEvidence> Unbegun(JobState job)
    {
        ImmutableArray<SurfaceArrival> arrivals = ArrivalReport.Of(_shop, job.Job.Id).Surfaces;
        return
        [
            .. job.Stories.Where(s => s.Missing().Any())
                .Select(s => Of(job.Job, s, job.Told, [], arrivals.FirstOrDefault(a => a.Surface.Id == s.Surface.Id), looksAtNight: false) with
                {
                    ComesAt = job.IsExpectedAt(_shop.Now) ? job.CameAt : null,
                }),
        ];
    }

    public StartEvidence Of(
        Job job, SurfaceStory story, ImmutableArray<Tap>? told, ImmutableArray<Hold> holds, SurfaceArrival? arrival, bool looksAtNight = true)
    {
        NextLayer? next = NextOf(job, story, holds);
        Preparation? preparation = told is { } taps ? Preparation.Of(story.Surface, next?.Sections[0] ?? 1, taps) : null;
        Stay stay = _present.StaysOf(job, story)[^1];
        BayState? bay = stay.Bay is { } id ? _shop.Bays[id] : null;
        SurfaceLook look = SurfaceLook.Of(_present, bay, stay, story, preparation);
        bool isStillCold = next is not null && (next.Layer == 1 || arrival is not null) && IsTooColdFor(_shop.LawsOf(story.Surface).Sheet.Limits, look, arrival);
        ImmutableArray<CoatTimes> times = look.Air is null || next is null ? [] : TimesOf(isStillCold ? _ifBegunWarm : _ifBegun, job, story, next.Layer);
        return new StartEvidence(
            story.Surface,
            _shop.LawsOf(story.Surface, next?.Layer ?? 1),
            next,
            look.Air,
            look.Panel,
            look.Silence,
            look.Wet,
            preparation,
            story.Wettings,
            times,
            looksAtNight && bay is not null && stay.Point is { } point && !times.IsEmpty ? NightIn(bay, point) : null,
            arrival is { DryAt: { } dryAt } ? new ArrivalLook(dryAt, arrival.NowC, arrival.NeedsWipe) { ColdestC = arrival.ColdestC } : null,
            bay is null ? ClimateMeans.None : BayMeans.Of(_shop, bay, look.Air))
        {
            OtherSections = told is null ? [] : [.. next?.Sections.Skip(1).Select(s => (s, Preparation.Of(story.Surface, s, told.Value))) ?? []],
            AfterLamp = next is null ? CoolDowns.After(_shop, _present, job, story) : CoolDowns.After(_shop, _present, job, story, next.Sections),
            ClimateAhead = ClimateAhead.Of(_shop, _present, _present.StaysOf(job, story)) is var ahead && isStillCold ? $"{ahead}{WarmBefore}" : ahead,
            IsStillCold = isStillCold,
            Neighbours = bay is null || times.IsEmpty ? null : NeighboursOf(job, story.Surface, bay, next!.Layer, times),
        };
    }

    private Neighbours? NeighboursOf(Job job, Surface surface, BayState bay, int from, ImmutableArray<CoatTimes> times)
    {
        ImmutableArray<AirWork> works = [.. _works.Value.Where(w => w.Airspace == bay.Plan.Airspace)];
        return works.IsEmpty ? null : new Neighbours(
            job.Id,
            bay.Plan.Bay,
            bay.Plan.Airspace,
            works,
            [.. times.Select((t, i) => RiskTimes.Of(_shop.LawsOf(surface, from + i), t.RecoatFrom, t.KeepDry?.Latest))]);
    }

    /// <summary>The hours to come, the same for every surface in a bay's own air; the cabin and the engine bay have none that are forecast.</summary>
    private Func<DateTimeOffset, DateTimeOffset?, NightAhead?>? NightIn(BayState bay, WatchPoint point)
    {
        if (point.Air != Place.Outside)
        {
            return null;
        }

        if (!_nights.TryGetValue(bay.Plan.Bay, out Func<DateTimeOffset, DateTimeOffset?, NightAhead?>? nights))
        {
            nights = LookAhead.NightsOf(_shop, bay);
            _nights.Add(bay.Plan.Bay, nights);
        }

        return nights;
    }

    private ImmutableArray<CoatTimes> TimesOf(Present present, Job job, SurfaceStory story, int from) =>
    [
        .. Enumerable.Range(from, story.Surface.Layers + 1 - from).Select(layer => CoatTimes.Of(
            story.Surface, layer, Day.Habits.Pace, Day.Now, coat => present.WindowsOf(job, story with { Wettings = [] }, coat))),
    ];

    private bool IsTooColdFor(SheetLimits limits, SurfaceLook look, SurfaceArrival? arrival) => arrival?.DryAt?.Latest > Day.Now
        || (look is { Air: { } air, Panel: { } panel } && (panel.LeastSpreadK(air) < limits.SpreadMinK || panel.ReckonedColdestC < limits.PanelMinC));

    private static StartDay DayOf(Shop shop)
    {
        ShopDay? day = shop.Plan.Hours.DayAt(shop.Now);
        ShopDay? after = day?.LocksUp is { } lockUp ? shop.Plan.Hours.DayAt(lockUp) : null;
        return new StartDay(shop.Now, shop.Plan.Hours.Zone, day, after, shop.Plan.Habits) { Hours = BayQueues.HoursOf(shop) };
    }

    /// <summary>The layer that goes on next; one that was found clear without it is not missing.</summary>
    private NextLayer? NextOf(Job job, SurfaceStory story, ImmutableArray<Hold> holds)
    {
        if (SectionsTogether.Next(story, c => _present.WindowsOf(job, story, c), _present.Now) is not var (layer, below))
        {
            return null;
        }

        ImmutableArray<int> sections = SectionsTogether.Of(below, _present.Now);
        return new NextLayer(
            layer,
            sections,
            [.. below.Where(b => sections.Contains(b.Section)).Select(b => b.Below).OfType<BelowCoat>()],
            [
                .. holds.Where(h => Holding.Contains(h.Kind) && (h.Layer ?? layer - 1) < layer && (h.Section is null || sections.Contains(h.Section.Value)))
                    .Select(h => h.Text).Distinct(),
            ])
        {
            Elsewhere =
            [
                .. from section in Enumerable.Range(1, story.Surface.Sections).Except(sections)
                   where story.IsMissing(layer, section)
                   let under = below.FirstOrDefault(b => b.Section == section).Below
                   select new OtherSection(section, under?.Recoat?.OpensAt.Latest, under is { IsFoundClear: false } ? under.Recoat?.ClosesAt?.Earliest : null),
            ],
            BegunAt = SectionsTogether.BegunAt(story, layer),
        };
    }
}
