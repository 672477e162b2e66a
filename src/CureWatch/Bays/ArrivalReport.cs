using System.Collections.Immutable;
using CureWatch.Curing;
using CureWatch.Panels;
using CureWatch.TimeWindows;
using CureWatch.Units;
using CureWatch.Words;

namespace CureWatch.Bays;

/// <summary>When the surfaces of a car that came in are dry enough to be coated, the slowest first.</summary>
/// <param name="Job">The job's id.</param>
/// <param name="At">The instant.</param>
/// <param name="Surfaces">Its surfaces on which nothing has gone since they came in, and something has to.</param>
/// <remarks>
/// A cold car is wet before anyone sees it. The earliest is that of a skin alone, which is the quickest it can be; likely and latest that of a skin on
/// a body that is cold too, of the usual and the heaviest. Polishing heat, sun, and a car just driven are measured, never modelled. Of two readings by hand
/// that no clock joins nobody knows which is right: the latest is by the worse of them, and what was wet by either is to be wiped. A car of which nobody
/// knows how cold it came in may have been dry all along; it counts as dry once the coldest that cars come here, on the heaviest body, would be.
/// </remarks>
public sealed record ArrivalReport(string Job, DateTimeOffset At, ImmutableArray<SurfaceArrival> Surfaces)
{
    /// <summary>What is taken for granted of how cold it came in; empty where all of it was read by hand.</summary>
    public Sentence Assumes { get; init; } = Sentence.None;

    /// <summary>How far off the temperature may be that a car is said to come with [2 K]. Source (choice): a forecast for the next day.</summary>
    private const double ToldUncertaintyK = 2;

    /// <summary>Reports on a car.</summary>
    /// <param name="shop">The shop.</param>
    /// <param name="id">The job's id; the job must be there.</param>
    /// <returns>The report at the shop's present.</returns>
    public static ArrivalReport Of(Shop shop, string id)
    {
        JobState job = shop.Find(id) ?? throw new ArgumentException($"No job '{id}'.", nameof(id));
        var airs = new Dictionary<(string, Place), IReadOnlyList<ClimateSegment>>();
        var outdoors = new Dictionary<DateTimeOffset, OutdoorArrival?>();
        OutdoorArrival? OutdoorsAt(DateTimeOffset at) => outdoors.TryGetValue(at, out OutdoorArrival? known) ? known : outdoors[at] = OutdoorArrival.Of(shop, job, at);
        (SurfaceArrival Arrival, Sentence Assumes)[] looks =
        [
            .. from story in job.Stories
               let cameIn = CameIn.Of(shop, job, story)
               where cameIn.Awaits(story)
               let outside = OutdoorsAt(cameIn.At)
               let arrival = Look(shop, job, story, cameIn, outside, airs)
               orderby arrival.DryAt?.Latest ?? DateTimeOffset.MaxValue descending
               select (arrival, arrival.Basis == ArrivalBasis.Spot ? Sentence.None : AssumedOf(shop, ToldC(job, cameIn), outside)),
        ];
        return new ArrivalReport(id, shop.Now, [.. looks.Select(l => l.Arrival)]) { Assumes = Sentence.Join(" ", looks.Select(l => l.Assumes).Distinct()) };
    }

    /// <summary>How cold it was told to come, the first time.</summary>
    private static double? ToldC(JobState job, CameIn cameIn) => cameIn.IsAgain ? null : job.Job.Visit?.ArrivesAtC;

    private static SurfaceArrival Look(
        Shop shop, JobState job, SurfaceStory story, CameIn cameIn, OutdoorArrival? outdoors, Dictionary<(string, Place), IReadOnlyList<ClimateSegment>> airs)
    {
        ImmutableArray<PanelSpot> spots = cameIn.IsAgain ? [.. story.Spots.Where(s => s.At >= cameIn.At)] : story.Spots;
        PanelSpot? first = spots.LastOrDefault(s => s.At <= cameIn.MeasuredFrom) ?? spots.FirstOrDefault(), last = spots.LastOrDefault();
        double? told = ToldC(job, cameIn) is { } toldC ? new Celsius(toldC).Kelvins : null, outside = told ?? outdoors?.LikelyKelvins;
        bool isFromOutdoors = outside is not null && !(first?.At <= cameIn.MeasuredFrom);
        (DateTimeOffset At, double Kelvins)? start = isFromOutdoors ? (cameIn.MeasuredFrom, outside!.Value) : first is null ? null : (first.At, first.Kelvins);
        ArrivalBasis basis = last is not null ? ArrivalBasis.Spot
            : start is null ? ArrivalBasis.Unknown
            : told is not null ? ArrivalBasis.Told
            : ArrivalBasis.Outdoors;
        (DateTimeOffset At, double Kelvins) began = start ?? (cameIn.MeasuredFrom, outdoors?.ColdestKelvins ?? new Celsius(shop.Plan.Habits.ColdestArrivalC).Kelvins);
        if (AirSince(shop, cameIn.Stays, began.At, airs) is not { Length: > 0 } air)
        {
            return new SurfaceArrival(story.Surface, basis, null, null, null, WasWet: null, WipedAt(job, story, null));
        }

        PanelHeat heat = PanelHeat.Of(story.Surface.Material, story.Surface.Over);
        DateTimeOffset? movedAt = cameIn.Stays.Length > 1 ? cameIn.Stays[^1].From : null;
        bool hasBody = story.Surface.Place != Place.OffCar;
        double spreadK = shop.AllLawsOf(story.Surface).Max(l => l.Sheet.Limits.SpreadMinK);
        (DateTimeOffset? At, bool WasWet, double NowKelvins) Bound(double skinJm2K, double bodyJm2K, double sigmas)
        {
            double doubtK = !isFromOutdoors ? first?.UncertaintyK ?? 0 : told is not null ? ToldUncertaintyK : sigmas < 0 ? began.Kelvins - outdoors!.ColdestKelvins : OutdoorArrival.SkyK;
            var skin = new ColdSkin(new TwoNode(skinJm2K, hasBody ? bodyJm2K : 0), began.At, began.Kelvins + (sigmas * doubtK));
            bool isRefitted = last is not null && last.At > began.At && last.At <= shop.Now;
            ColdSkin read = isRefitted ? skin.Through(last!.At, last.Kelvins + (sigmas * last.UncertaintyK), air) : skin;
            (DateTimeOffset? at, bool wasWet, double nowKelvins) = read.DryAt(air, spreadK, movedAt);
            if (read.At == skin.At || isFromOutdoors || sigmas >= 0)
            {
                return (at, wasWet, nowKelvins);
            }

            (DateTimeOffset? byTheFirst, bool wasWetByIt, _) = skin.DryAt(air, spreadK, movedAt);
            return (Later(at, byTheFirst), wasWet || wasWetByIt, nowKelvins);
        }

        var late = Bound(heat.HeavyJm2K, TwoNode.HeavyBodyJm2K, -1);
        if (basis == ArrivalBasis.Unknown)
        {
            return new SurfaceArrival(story.Surface, basis, null, null, new TimeBounds(began.At, late.At, late.At), late.WasWet, WipedAt(job, story, late.At))
            {
                ColdestC = Celsius.FromKelvins(began.Kelvins).Degrees,
            };
        }

        var early = Bound(heat.LightJm2K, 0, 1);
        var likely = Bound(heat.UsualJm2K, TwoNode.UsualBodyJm2K, 0);
        DateTimeOffset? likelyAt = Later(early.At, likely.At);
        return new SurfaceArrival(
            story.Surface,
            basis,
            Celsius.FromKelvins(began.Kelvins).Degrees,
            Celsius.FromKelvins(likely.NowKelvins).Degrees,
            new TimeBounds(early.At, likelyAt, Later(likelyAt, late.At)),
            late.WasWet,
            WipedAt(job, story, likelyAt));
    }

    /// <summary>When it was wiped down or dried once it was dry enough; a wipe before is wet again a minute later.</summary>
    private static DateTimeOffset? WipedAt(JobState job, SurfaceStory story, DateTimeOffset? dryAt) => Taps.Standing(job.Told)
        .LastOrDefault(t => t.Did is Did.PanelWiped or Did.Dried && (t.Surface is null || t.Surface == story.Surface.Id) && t.At >= dryAt)?.At;

    /// <summary>The air around it since an instant, wherever it stood; none where nobody measured.</summary>
    private static ClimateSegment[] AirSince(
        Shop shop, IEnumerable<Stay> stays, DateTimeOffset from, Dictionary<(string, Place), IReadOnlyList<ClimateSegment>> airs)
    {
        var since = new List<ClimateSegment>();
        ClimateSegment? newest = null;
        foreach (Stay stay in stays)
        {
            IReadOnlyList<ClimateSegment> air = AirAt(shop, stay.Point!, airs);
            DateTimeOffset begins = stay.From > from ? stay.From : from;
            newest = air.Count > 0 ? air[^1] : newest;
            since.AddRange(
                from segment in air
                where segment.End > begins && !(segment.Start >= stay.To) && !(stay.To <= begins)
                select segment.Between(segment.Start > begins ? segment.Start : begins, segment.End > stay.To ? stay.To.Value : segment.End));
        }

        // A car just come in has no past in this air: the newest value is expected to last.
        return since.Count > 0 ? [.. since] : newest is { } held ? [held with { Start = from, End = from + TimeSpan.FromSeconds(1), AtStart = held.AtEnd }] : [];
    }

    private static IReadOnlyList<ClimateSegment> AirAt(Shop shop, WatchPoint point, Dictionary<(string, Place), IReadOnlyList<ClimateSegment>> airs)
    {
        if (!airs.TryGetValue((point.Bay, point.Air), out IReadOnlyList<ClimateSegment>? air))
        {
            air = ClimateTrack.Blank.Provisional(new Watch(point.AirIn(shop.Bays[point.Bay]), []), shop.Now);
            airs.Add((point.Bay, point.Air), air);
        }

        return air;
    }

    private static Sentence AssumedOf(Shop shop, double? toldC, OutdoorArrival? outdoors) => toldC is { } told
        ? (Sentence)$"It comes in at {new Figure.Temperature(told, "0.#")}, as it was told, or {new Figure.Difference(ToldUncertaintyK, "0")} colder."
        : outdoors?.InWords()
        ?? (Sentence)$"Nobody measured outdoors: as cold as cars come here, {new Figure.Temperature(shop.Plan.Habits.ColdestArrivalC, "0.#")}, is reckoned with until it is read by hand.";

    private static DateTimeOffset? Later(DateTimeOffset? a, DateTimeOffset? b) => a is null || b is null ? null : a > b ? a : b;
}

/// <summary>When a surface is dry enough to be coated.</summary>
/// <param name="Surface">The surface.</param>
/// <param name="Basis">How its temperature at the start is known.</param>
/// <param name="StartC">Its temperature then [°C]; null where unknown.</param>
/// <param name="NowC">Its temperature now, likely [°C]; null where unknown.</param>
/// <param name="DryAt">When it is dry enough, each null where never in this air; null where the air is unknown.</param>
/// <param name="WasWet">Whether water condensed on it, reckoned with the slowest; null where unknown.</param>
/// <param name="WipedAt">When it was wiped down once it was dry enough; null where it was not.</param>
public sealed record SurfaceArrival(
    Surface Surface, ArrivalBasis Basis, double? StartC, double? NowC, TimeBounds? DryAt, bool? WasWet, DateTimeOffset? WipedAt)
{
    /// <summary>How cold it is reckoned to have come in where nobody knows [°C]; null where it is known.</summary>
    public double? ColdestC { get; init; }

    /// <summary>Whether it has to be wiped down before it is coated.</summary>
    public bool NeedsWipe => WasWet == true && WipedAt is null;
}

/// <summary>How the temperature of a surface that came in is known.</summary>
public enum ArrivalBasis
{
    /// <summary>It is not: it has to be read by hand, and until then the coldest that cars come here is reckoned with.</summary>
    Unknown,

    /// <summary>It was outside, and an outdoor probe said how cold that was.</summary>
    Outdoors,

    /// <summary>Somebody said how cold it comes in when it was planned.</summary>
    Told,

    /// <summary>It was read by hand.</summary>
    Spot,
}
