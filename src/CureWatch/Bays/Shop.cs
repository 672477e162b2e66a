using System.Collections.Immutable;
using CureWatch.Curing;
using CureWatch.Handover;
using CureWatch.Learning;
using CureWatch.Planning;
using CureWatch.Products;
using CureWatch.TimeWindows;
using CureWatch.Warnings;

namespace CureWatch.Bays;

/// <summary>Everything known of a shop at an instant.</summary>
/// <param name="Plan">The shop as it is set up.</param>
/// <param name="Laws">The laws of every product sheet, by product and revision.</param>
/// <param name="Now">The present.</param>
/// <param name="Bays">What each bay's probes told, by bay.</param>
/// <param name="Jobs">The jobs by id, until two days after their car has left.</param>
/// <param name="JobsBegun">How many jobs were ever begun.</param>
/// <param name="Warnings">The warnings by number, in the order they were given, until nobody asks for them any more.</param>
/// <param name="WarningsGiven">How many warnings were ever given.</param>
/// <param name="Standing">The number of the warning that stands, by what it is about.</param>
/// <param name="Tally">Readings believed and not.</param>
public sealed record Shop(
    ShopPlan Plan,
    ImmutableDictionary<(string Product, int Revision), CoatLaws> Laws,
    DateTimeOffset Now,
    BayStates Bays,
    ImmutableDictionary<string, JobState> Jobs,
    int JobsBegun,
    ImmutableSortedDictionary<int, Warning> Warnings,
    int WarningsGiven,
    ImmutableDictionary<Subject, int> Standing,
    ReadingTally Tally)
{
    /// <summary>What people taught, by product and revision; a product nobody taught anything about is not in it.</summary>
    public ImmutableDictionary<(string Product, int Revision), ProductLearning> Learning { get; init; } =
        ImmutableDictionary<(string Product, int Revision), ProductLearning>.Empty;

    /// <summary>The work other than coating that is planned, in the order it begins; what was over two days ago is let go of.</summary>
    public ImmutableArray<PlannedWork> Planned { get; init; } = [];

    /// <summary>The washing and polishing that people told lately.</summary>
    public ImmutableArray<ToldWork> ToldWorks { get; init; } = [];

    /// <summary>When what harms open coats has to be looked at again; null where nothing is planned or going on.</summary>
    public DateTimeOffset? ConflictsDueAt { get; init; }

    /// <summary>The bays of which something that came late is not followed yet.</summary>
    public ImmutableSortedSet<string> Behind { get; private init; } = ImmutableSortedSet.Create<string>(StringComparer.Ordinal);

    /// <summary>The bays with a probe outdoors, in the plan's order.</summary>
    public ImmutableArray<string> WithOutdoors { get; private init; } = [];

    /// <summary>The jobs in the order they were begun.</summary>
    public IEnumerable<JobState> JobsInOrder => Jobs.Values.OrderBy(j => j.Number);

    /// <summary>The jobs by when something about them falls due.</summary>
    internal Agenda DueJobs { get; private init; } = Agenda.Empty;

    /// <summary>At how many warnings the shop lets go of old ones.</summary>
    internal int MostWarnings { get; init; } = History.LeastWarnings;

    /// <summary>A shop at the moment it begins to watch.</summary>
    /// <param name="plan">The shop as it is set up.</param>
    /// <param name="sheets">Every product sheet, each product and revision once.</param>
    /// <param name="now">The present.</param>
    /// <returns>The shop.</returns>
    public static Shop Opening(ShopPlan plan, IEnumerable<ProductSheet> sheets, DateTimeOffset now)
    {
        Shop opening = new Shop(
            plan,
            sheets.ToImmutableDictionary(s => (s.Product, s.Revision), s => CoatLaws.Of(SheetFit.Of(s))),
            now,
            BayStates.Empty.And(plan.Bays.Select(b => BayState.Opening(b, now))),
            ImmutableDictionary<string, JobState>.Empty,
            0,
            ImmutableSortedDictionary<int, Warning>.Empty,
            0,
            ImmutableDictionary<Subject, int>.Empty,
            ReadingTally.None).SetUp(plan);
        return opening.Bays.Values.Aggregate(opening, (shop, bay) => shop.With(bay));
    }

    /// <summary>The shop set up otherwise; its bays are told apart from that.</summary>
    /// <param name="plan">The shop as it is set up from now on.</param>
    /// <returns>The shop.</returns>
    internal Shop SetUp(ShopPlan plan) => this with
    {
        Plan = plan,
        WithOutdoors = [.. plan.Bays.Where(b => b.Probes.Any(m => m.Probe.Measures == Readings.Measures.Outdoor)).Select(b => b.Bay)],
    };

    /// <summary>Whether another warning stands that says more about the same.</summary>
    /// <param name="subject">What a warning is about.</param>
    /// <returns>True where it need not be told beside the other.</returns>
    public bool IsOvertaken(Subject subject) => AlarmRule.Of(subject.Kind).OvertakenBy.Any(kind => Standing.ContainsKey(subject with { Kind = kind }));

    /// <summary>The laws of a coat's product.</summary>
    /// <param name="coat">The coat; its product and revision must be known.</param>
    /// <returns>The laws.</returns>
    public CoatLaws LawsOf(Coat coat) => LawsOf(coat.Surface, coat.Layer);

    /// <summary>The laws of the product of a surface's layer.</summary>
    /// <param name="surface">The surface; its products and revisions must be known.</param>
    /// <param name="layer">The layer.</param>
    /// <returns>The laws.</returns>
    public CoatLaws LawsOf(Surface surface, int layer = 1) => Laws[surface.SheetOf(layer)];

    /// <summary>The laws of every product that goes on a surface.</summary>
    /// <param name="surface">The surface; its products and revisions must be known.</param>
    /// <returns>The laws, the first product's first.</returns>
    public IEnumerable<CoatLaws> AllLawsOf(Surface surface) => surface.Products().Select(p => Laws[(p.Product, p.Revision)]);

    /// <summary>How hot a surface may get under whatever is to go on it.</summary>
    /// <param name="surface">The surface; its products and revisions must be known.</param>
    /// <returns>The lowest limit [°C]; infinite where there is none.</returns>
    public double HeatLimitOfC(Surface surface) => AllLawsOf(surface).Min(l => HeatLimit.OfC(surface, l.Sheet));

    /// <summary>The laws of a coat: those of its product, as they were known to run when it was begun, or are now where it is not begun.</summary>
    /// <param name="job">Its job's id.</param>
    /// <param name="coat">The coat.</param>
    /// <returns>The laws.</returns>
    public CoatLaws LawsOf(string job, Coat coat) => LawsOf(coat).With(LearntOf(job, coat));

    /// <summary>What was known about a coat's product when it was begun, or is now where it is not begun.</summary>
    internal Learnt LearntOf(string job, Coat coat) =>
        Find(job) is { } here ? here.Lessons.Begun.GetValueOrDefault(CoatKey.Of(job, coat)) ?? LearntNow(here, coat) : Learnt.Nothing;

    /// <summary>What was known about a product in a bay at an instant, as far as it is followed.</summary>
    internal Learnt LearntAbout((string Product, int Revision) sheet, string bay, DateTimeOffset at) =>
        Learning.GetValueOrDefault(sheet)?.In(bay, at) is { } learnt ? Laws[sheet].Within(learnt) : Learnt.Nothing;

    private Learnt LearntNow(JobState job, Coat coat) => Learning.IsEmpty || job.Stories.FirstOrDefault(s => s.Surface.Id == coat.Surface.Id) is not { } story
        ? Learnt.Nothing
        : LearntAbout(coat.Surface.SheetOf(coat.Layer), Stay.Of(this, job.Job, story)[^1].Bay ?? "", Now);

    /// <summary>Finds a job.</summary>
    /// <param name="id">Its id.</param>
    /// <returns>The job, or null where none has that id.</returns>
    public JobState? Find(string id) => Jobs.GetValueOrDefault(id);

    /// <summary>The climate a coat is, or was, exposed to.</summary>
    /// <param name="point">The point that watches it.</param>
    /// <returns>The climate; null where no coat asked for it.</returns>
    public WatchedClimate? ClimateAt(WatchPoint point) => Bays.Find(point.Bay)?.Climates.GetValueOrDefault(point);

    /// <summary>The shop with a bay as it is now.</summary>
    /// <param name="bay">The bay.</param>
    /// <param name="tally">Its readings believed and not, where they are other ones by now; else null.</param>
    /// <returns>The shop.</returns>
    internal Shop With(BayState bay, ReadingTally? tally = null)
    {
        BayState foreseen = bay.Foreseen(Now);
        return this with
        {
            Tally = tally ?? Tally,
            Bays = Bays.With(foreseen),
            Behind = bay.Backlog is not null ? Behind.Add(bay.Plan.Bay) : Behind.IsEmpty ? Behind : Behind.Remove(bay.Plan.Bay),
        };
    }

    /// <summary>The shop with its bays filed so that the first of them up to an instant falls due where it is filed indeed.</summary>
    /// <param name="instant">The instant.</param>
    /// <returns>The shop.</returns>
    internal Shop FiledUpTo(DateTimeOffset instant)
    {
        Shop shop = this;
        while (shop.Bays.NextFiledAt <= instant && shop.Bays.FirstFiled is { } first && first.DueAt != first.FiledAt)
        {
            shop = shop with { Bays = shop.Bays.With(first.Refiled()) };
        }

        return shop;
    }

    /// <summary>The shop with a job as it is now.</summary>
    /// <param name="job">The job.</param>
    /// <returns>The shop.</returns>
    internal Shop With(JobState job)
    {
        JobState foreseen = job.Foreseen();
        return this with
        {
            Jobs = Jobs.SetItem(job.Job.Id, foreseen),
            DueJobs = DueJobs.Move(job.Job.Id, Find(job.Job.Id)?.DueAt, foreseen.DueAt),
        };
    }

    /// <summary>The shop without a job.</summary>
    /// <param name="job">The job, one of the shop's.</param>
    /// <returns>The shop.</returns>
    internal Shop Without(JobState job) => this with
    {
        Jobs = Jobs.Remove(job.Job.Id),
        DueJobs = DueJobs.Move(job.Job.Id, Find(job.Job.Id)?.DueAt, null),
    };
}
