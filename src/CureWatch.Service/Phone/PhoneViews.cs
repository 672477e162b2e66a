using CureWatch.Bays;
using CureWatch.Curing;
using CureWatch.Planning;
using CureWatch.Products;
using CureWatch.Service.Api;
using CureWatch.Service.Board;
using CureWatch.Service.Documents;
using CureWatch.Service.Pump;
using CureWatch.Service.Settings;
using CureWatch.Words;

namespace CureWatch.Service.Phone;

/// <summary>Puts a car on the phone of whoever works on it.</summary>
internal sealed class PhoneViews(Look look, BoardView board)
{
    /// <summary>More than that nobody looks ahead in the middle of a pass. Source (choice).</summary>
    private const int MostActs = 9;

    private static readonly (string Did, string Words)[] Finds =
        [("inspected:high-spot", "High spot"), ("inspected:streak", "Streak"), ("inspected:water-mark", "Water mark"), ("inspected:dust", "Dust")];

    private static readonly (string Did, string Words)[] Reworks =
        [("reworked:wiped", "Wiped in time"), ("reworked:re-wet", "Re-wetted, now level"), ("reworked:polished-off", "Polished off")];

    private readonly ShopClock _clock = new(look.Shop.Plan.Hours.Zone, look.At);

    public PhoneView Of(JobState state, string bay, RefusedForm refused)
    {
        string[] bays = [.. look.BaysOf(state)];
        JobReport report = look.ReportOf(state);
        var once = new SaidOnce();
        CarView car = new CarViews(look, _clock).Of(state);
        return new PhoneView(
            Frame.Of(look, _clock),
            bay,
            bays.Contains(bay) ? null : bays.Length > 0 ? Sentence.Names(", ", bays) : $"not in a bay",
            car,
            [.. InOrder(report.Next).Take(MostActs).Select((told, i) => Of(told, state, once, isFirst: i == 0))],
            new ToldViews(_clock).LastOf(state),
            WarningsOf(state.Job.Id),
            refused)
        {
            ComeIn = [.. report.Arrival.Select(a => a.Surface.Id)],
            Photos = Board.PhotoViews.Of(look, _clock, state.Job.Id),
            Layers = state.Job.Surfaces.Max(s => s.Layers),
            Coming = report.Next.Length - 1,
            Alone = [.. look.StartOf(state).Decision.Answers.Where(a => a.Evidence.Next is not null).Select(a => Of(a.Evidence, a.Evidence.Next!, once))],
        };
    }

    /// <summary>While a coat flashes, even what only has to be told stands behind it: here everybody sees what they press.</summary>
    private static IEnumerable<ToldAct> InOrder(IReadOnlyCollection<ToldAct> acts) =>
        acts.Any(a => IsLevelling(a.Act)) ? acts.OrderBy(a => a.Act.Kind == ActKind.Apply && !a.Against.IsEmpty) : acts;

    private static bool IsLevelling(NextAct act) => act.Kind is ActKind.Level or ActKind.ReWet;

    private static AloneView Of(StartEvidence evidence, NextLayer next, SaidOnce once)
    {
        Surface surface = evidence.Surface;
        CoatTimes? times = evidence.Times.FirstOrDefault();
        return new AloneView(
            surface.Id,
            next.Layer,
            evidence.Laws.Sheet.Name,
            times?.Flash?.From,
            times?.Flash?.To,
            times?.HasToBeLevelled != false,
            IfLate(evidence.Laws.Sheet),
            [.. next.Sections.Select(section => (section, BoardWords.Coat(surface, next.Layer, section)))],
            once.Of(Cautions.Of(evidence.Laws.Sheet)));
    }

    private static string IfLate(ProductSheet sheet) => sheet.Find(Stage.LevelBy) is { IfMissed: IfMissed.Note } ? "level now" : "re-wet and level now";

    private IReadOnlyList<WarningView> WarningsOf(string job)
    {
        HashSet<int> numbers = [.. look.OpenWarnings.Where(w => w.Warning.Subject.Job == job).Select(w => w.Number)];
        return [.. board.Warnings.Where(w => numbers.Contains(w.Number))];
    }

    private ActView Of(ToldAct told, JobState state, SaidOnce once, bool isFirst)
    {
        NextAct act = told.Act;
        NextView next = NextViews.Of(told, look.At);
        next = next with { Cautions = once.Of(next.Cautions) };
        return new ActView(
            $"{act.Surface.Id}-{act.Layer}-{act.Section ?? 0}",
            // What speaks against a coat is told of the next ones alone: a later one has no button that might say otherwise.
            isFirst || IsLevelling(act) || act.Kind == ActKind.Look ? next : next with { Button = null },
            next.Section is { } section ? BoardWords.Coat(act.Surface, act.Layer, section) : Sentence.Named(act.Surface.Id),
            _clock.Of(act.From),
            _clock.Of(act.By),
            act.IsLate ? "It closed" : IsLevelling(act) ? "Level by" : "By",
            act.From > look.At,
            IsLevelling(act),
            IfLate(told.Sheet),
            act.Kind switch
            {
                ActKind.Look when act.CanBeTold(look.At) => Finds,
                ActKind.Rework when !act.LetCool => Reworks,
                _ => [],
            },
            next.Did == "applied" ? Batches.InUse(look.Register, state, act.Surface, act.Layer) ?? "" : null)
        {
            Call = IsLevelling(act) ? $"{act.Surface.Id}-{act.Layer}-{act.Section}-{UtcText.Of(WipedAt(state, act))}" : null,
        };
    }

    private static DateTimeOffset WipedAt(JobState state, NextAct act) =>
        state.Stories.First(s => s.Surface.Id == act.Surface.Id).Living.Last(c => c.Layer == act.Layer && c.Section == act.Section).LastWipeAt;
}
