using System.Collections.Immutable;
using CureWatch.Curing;
using CureWatch.Handover;
using CureWatch.Learning;
using CureWatch.TimeWindows;
using CureWatch.Warnings;
using CureWatch.Words;

namespace CureWatch.Bays;

/// <summary>How a job stands at an instant.</summary>
/// <param name="Job">The job.</param>
/// <param name="At">The instant.</param>
/// <param name="Told">Every tap in the order it was told, corrected ones included.</param>
/// <param name="Surfaces">Its surfaces with their coats, in the order they were planned.</param>
/// <param name="Warnings">The warnings about its coats and its bays, in the order they were given.</param>
/// <param name="Ruling">Whether the car may leave.</param>
public sealed record JobReport(
    Job Job,
    DateTimeOffset At,
    ImmutableArray<Tap> Told,
    ImmutableArray<(Surface Surface, ImmutableArray<CoatReport> Coats)> Surfaces,
    ImmutableArray<Warning> Warnings,
    Ruling Ruling)
{
    /// <summary>What is to be done on the car, the next first; none where nothing is left but to wait.</summary>
    public ImmutableArray<ToldAct> Next { get; init; } = [];

    /// <summary>What people taught about its products, in every bay.</summary>
    public ImmutableArray<LearningReport> Learning { get; init; } = [];

    /// <summary>What to know at lock-up of the bays it is in; empty once the car has left.</summary>
    public ImmutableArray<TonightReport> Tonight { get; init; } = [];

    /// <summary>When its surfaces without a coat are dry enough, the slowest first; empty once the car has left.</summary>
    public ImmutableArray<SurfaceArrival> Arrival { get; init; } = [];

    /// <summary>What that takes for granted of how cold it came in; empty where all of it was read by hand, or nothing is left to go on.</summary>
    public Sentence ArrivalAssumes { get; init; } = Sentence.None;

    /// <summary>The surfaces that are still warm from a lamp: nothing is to be done on them before they have cooled.</summary>
    public ImmutableArray<(string Surface, CoolDown CoolDown)> CoolDowns { get; init; } = [];

    /// <summary>How what its customer was told stands; null once the car has left.</summary>
    public PromiseReport? Promise { get; init; }

    /// <summary>What its future times take for granted of the climate, in words.</summary>
    public required Sentence Assumes { get; init; }

    /// <summary>Reports on a job.</summary>
    /// <param name="shop">The shop.</param>
    /// <param name="id">The job's id; the job must be there.</param>
    /// <param name="queues">The lines of the shop's bays, where somebody has them already: of many cars a bay's line is worked out once.</param>
    /// <returns>The report at the shop's present.</returns>
    public static JobReport Of(Shop shop, string id, BayQueues? queues = null)
    {
        JobState state = shop.Find(id) ?? throw new ArgumentException($"No job '{id}'.", nameof(id));
        return Mended.Beside(shop, Of(shop, new Present(shop, shop.Now), state, queues: queues));
    }

    /// <summary>Reports on a job as its present is, or is supposed to be; the work that is left begun at an instant.</summary>
    internal static JobReport Of(Shop shop, Present present, JobState state, DateTimeOffset? begun = null, BayQueues? queues = null)
    {
        string id = state.Job.Id;
        ImmutableArray<Evidence> evidence = EvidenceFor(shop, present, state);
        ImmutableArray<(Surface Surface, ImmutableArray<CoatReport> Coats)> surfaces = [.. evidence.Select(e => (e.Story.Surface, CoatsOf(shop, present, state, e)))];
        Ruling ruling = RulingOf(shop, evidence) with { Because = BecauseOf(surfaces) };
        HashSet<string?> bays = [.. state.Stories.SelectMany(s => present.StaysOf(state.Job, s)).Select(s => s.Bay)];
        ArrivalReport? arrival = state.LeftAt is null ? ArrivalReport.Of(shop, id) : null;
        IEnumerable<string> baysNow = state.Stories.Select(s => present.StaysOf(state.Job, s)[^1].Bay).OfType<string>().Distinct();
        return new JobReport(
            state.Job,
            shop.Now,
            state.Told,
            surfaces,
            [.. shop.Warnings.Values.Where(w => w.Subject.Job == id || (w.Subject.Job is null && bays.Contains(w.Subject.Bay) && !(w.ClearedAt < state.OpenedAt)))],
            ruling)
        {
            Promise = state.LeftAt is null ? PromiseReport.Of(shop, present, state, ruling, begun: begun, queues: queues) : null,
            Tonight = state.LeftAt is null ? [.. baysNow.Select(queues?.Open ?? OpenTonight.In(shop)).Select(o => TonightReport.Of(shop, o))] : [],
            Arrival = arrival?.Surfaces ?? [],
            ArrivalAssumes = arrival?.Assumes ?? Sentence.None,
            Assumes = Sentence.Join(" ", state.Stories.Select(s => ClimateAhead.Of(shop, present, present.StaysOf(state.Job, s))).Distinct()),
            Next = NextActs.InWords(shop, present, state),
            Learning = [.. LearningReport.Of(shop).Where(r => state.Job.Surfaces.SelectMany(s => s.Products()).Any(p => p.Product == r.Product && p.Revision == r.Revision))],
            CoolDowns =
            [
                .. from story in state.Stories
                   let warm = Bays.CoolDowns.Of(shop, present, state.Job, story)
                   where warm is not null
                   select (story.Surface.Id, warm),
            ],
        };
    }

    /// <summary>Rules on a car without reporting on it.</summary>
    /// <param name="shop">The shop.</param>
    /// <param name="job">The job, one of the shop's.</param>
    /// <returns>Whether the car may leave.</returns>
    internal static Ruling RulingOn(Shop shop, JobState job) => RulingOn(shop, new Present(shop, shop.Now), job);

    /// <summary>Rules on a car as its present is, or is supposed to be.</summary>
    internal static Ruling RulingOn(Shop shop, Present present, JobState job) => RulingOf(shop, EvidenceFor(shop, present, job));

    private static Ruling RulingOf(Shop shop, ImmutableArray<Evidence> evidence) =>
        Ruling.On(evidence, shop.Plan.Hours, shop.Plan.Finishing, shop.Now);

    private static ImmutableArray<Evidence> EvidenceFor(Shop shop, Present present, JobState job) =>
        [.. job.Stories.Select(s => EvidenceOf(shop, present, job, s))];

    private static Evidence EvidenceOf(Shop shop, Present present, JobState state, SurfaceStory story)
    {
        ImmutableArray<Stay> stays = present.StaysOf(state.Job, story);
        return new Evidence(
            story,
            [.. story.Living.Select(c => new CoatEvidence(c, present.WindowsOf(state.Job, story, c)))],
            Stay.Wet(shop, stays),
            Stay.Unwatched(stays),
            [.. state.Overheats.Where(o => o.Surface == story.Surface.Id && !WasMistyped(state.Told, o.Overheat)).Select(o => o.Overheat)])
        {
            Assumed = UnheardPanel.InWords(shop, present, stays),
        };
    }

    /// <summary>What was read by hand and told wrongly heated nothing.</summary>
    private static bool WasMistyped(ImmutableArray<Tap> told, Overheat overheat)
    {
        return told.Any(IsIt) && !Taps.Standing(told).Any(IsIt);

        bool IsIt(Tap tap) => tap.At == overheat.At && tap.PanelC == overheat.PanelC;
    }

    private static ImmutableArray<CoatReport> CoatsOf(Shop shop, Present present, JobState state, Evidence evidence) =>
    [
        .. from coat in evidence.Story.Coats
           let report = CoatReport.Of(present, state.Job, evidence, coat)
           select report with
           {
               BegunWith = coat.EndedAt is null ? state.Lessons.BegunWith(state.Job.Id, coat) : Learnt.Nothing,
               Windows = WindowReasons.Beside(shop, present.StaysOf(state.Job, evidence.Story), coat, report.Windows),
           },
    ];

    /// <summary>What stands beside the windows that a car waits for.</summary>
    private static ImmutableArray<WindowReason> BecauseOf(ImmutableArray<(Surface Surface, ImmutableArray<CoatReport> Coats)> surfaces) =>
        [.. surfaces.SelectMany(s => s.Coats).SelectMany(c => c.Windows).Where(w => w.Stage == WindowStage.KeepDry).SelectMany(w => w.Because).Distinct()];
}

/// <summary>How a coat stands at an instant.</summary>
/// <param name="Coat">The coat.</param>
/// <param name="ReferenceHours">Progress of its cure clock so far; 0 once it was polished off.</param>
/// <param name="Windows">Its windows; none once it was polished off.</param>
public sealed record CoatReport(Coat Coat, ReferenceHours ReferenceHours, ImmutableArray<Window> Windows)
{
    /// <summary>Whether there is something to level, and nobody has; false once it was polished off.</summary>
    public bool AwaitsLevelling { get; init; }

    /// <summary>Whether a planned layer still has to go over it.</summary>
    public bool AwaitsLayer { get; init; }

    /// <summary>What lamps have earned it, by the stages they help; none where there was no lamp, or the sheet has no band.</summary>
    public ImmutableArray<CoatLamp> Lamps { get; init; } = [];

    /// <summary>What was known of its product beyond the sheet when it was begun; nothing once it was polished off.</summary>
    public Learnt BegunWith { get; init; } = Learnt.Nothing;

    internal static CoatReport Of(Present present, Job job, Evidence evidence, Coat coat)
    {
        if (evidence.Coats.FirstOrDefault(c => c.Coat == coat) is not { } living)
        {
            return new CoatReport(coat, default, []);
        }

        CoatLaws laws = living.Windows.Laws;
        CoatClock cure = present.ClockOf(job, evidence.Story, coat, laws.Cure);
        ReferenceHours earned = cure.EarnedSince(living.Windows.CureStart, laws.Cure.Milestone);
        return new CoatReport(coat, earned, [.. living.Windows.Explained])
        {
            AwaitsLevelling = living.Windows.AwaitsLevelling,
            AwaitsLayer = evidence.Story.AwaitsLayerOver(coat),
            Lamps = present.LampsOver(job, evidence.Story) is { } lamps ? CoatLamp.Of(lamps, coat, laws, present.Now) : [],
        };
    }
}
