using System.Globalization;
using CureWatch.Planning;
using CureWatch.Reports;
using CureWatch.Service.Api;
using CureWatch.Service.Documents;
using CureWatch.Service.Settings;
using CureWatch.Words;

namespace CureWatch.Service.Board;

/// <summary>Puts the day plan into words, and onto a line.</summary>
internal sealed class PlanViews
{
    /// <summary>How much of the plan is drawn. Source (choice): today and the two days after.</summary>
    private static readonly TimeSpan Drawn = TimeSpan.FromDays(3);

    private const int WholeLine = 1_000;

    private readonly Look _look;
    private readonly DayPlan _plan;
    private readonly PlanWords _words;
    private readonly ShopClock _clock;

    private PlanViews(Look look)
    {
        (_look, _plan) = (look, look.DayPlan);
        _words = new PlanWords(_plan);
        _clock = new ShopClock(look.Shop.Plan.Hours.Zone, look.At);
    }

    public static PlanView Of(Look look, IReadOnlyList<Sentence> faults, RefusedForm refused) => new PlanViews(look).View(faults, refused);

    private PlanView View(IReadOnlyList<Sentence> faults, RefusedForm refused) => new(
        _look.Shop.Plan.Shop,
        _clock.Zone.Id,
        _clock.Of(_look.At),
        TroubleViews.Of(_look),
        [.. _plan.Bays.Select(Of)],
        [.. _plan.Conflicts.Select(c => (Sentence)$"{_words.Of(c)}")],
        [.. _plan.Bays.SelectMany(b => b.Cars).Where(c => !c.IsBegun).Select(VisitOf)],
        [.. Enum.GetValues<HarmfulWork>().Where(w => w != HarmfulWork.CarComesIn).Select(w => (WireName<HarmfulWork>.Of(w), ConflictWords.Of(w)))],
        _plan.Assumed,
        [.. Cautions.Beside(_plan)],
        faults,
        refused);

    private BayPlanView Of(BayDay bay) => new(
        bay.Bay, $"{_words.Of(bay)}", LineOf(bay), [.. bay.Cars.Select(Of)], [.. bay.Work.Select(Of)]);

    private CarPlanView Of(CarDay car) => new(
        car.Job.Id,
        car.Asked.Fits ? Tone.Fine : car.Asked.Reasons.Any(r => r.Weight == StartWeight.Stops) ? Tone.Act : Tone.Soon,
        $"{_words.Of(car, car.Job.Car)}",
        [.. car.Asked.Reasons.Select(r => new StartReasonView(r.Weight == StartWeight.Notes ? Tone.Unknown : Tone.Soon, r.Text, r.Help, _clock.Of(r.Until?.Latest)))]);

    private WorkPlanView Of(PlannedWork work)
    {
        Sentence text = work.By is null ? (Sentence)$"{_words.Of(work)}" : $"{_words.Of(work)}, {work.By}";
        return new WorkPlanView(
            work.Id,
            _plan.Conflicts.Any(c => c.Work.Id == work.Id) ? Tone.Act : Tone.Fine,
            work.Note is null ? text : $"{text} ({work.Note})",
            WireName<HarmfulWork>.Of(work.Work),
            Local(work.From),
            Local(work.To),
            work.By ?? "",
            work.Note ?? "");
    }

    private VisitView VisitOf(CarDay car) => new(
        car.Job.Id,
        car.Job.Car ?? car.Job.Id,
        Local(car.Job.Visit?.ArrivesAt),
        car.Job.Visit?.ArrivesAtC,
        Local(car.Job.Visit?.PlannedAt));

    private TimeLine LineOf(BayDay bay)
    {
        var spans = new List<(string, int, int)>();
        void Draw(string kind, DateTimeOffset? from, DateTimeOffset? to)
        {
            if (from is { } begins && Thousandth(begins) is var start && Thousandth(to ?? _plan.At + Drawn) - start is > 0 and var length)
            {
                spans.Add((kind, start, length));
            }
        }

        foreach (CarDay car in bay.Cars)
        {
            Draw("stays", car.Arrival.IsHere ? _plan.At : car.Work.BeginsAt ?? car.Arrival.At, car.Work.FreesAt);
            foreach (LayerWork layer in car.Work.Layers)
            {
                Draw("coats", layer.BeginsAt, layer.DoneAt);
            }

            Draw("dries", car.Work.DoneAt ?? (car.Arrival.IsHere ? _plan.At : null), car.Work.ReadyAt?.Latest);
        }

        foreach (PlannedWork work in bay.Work)
        {
            Draw(_plan.Conflicts.Any(c => c.Work.Id == work.Id) ? "harms" : "works", work.From, work.To);
        }

        return new TimeLine(
            Sentence.Join(" ", bay.Cars.Select(c => (Sentence)$"{_words.Of(c, c.Job.Car)}").Concat(bay.Work.Select(w => (Sentence)$"{_words.Of(w)}.")).Prepend((Sentence)$"{_words.Of(bay)}")),
            spans,
            [
                .. _plan.Hours.Days.Where(d => d.Opens < _plan.At + Drawn)
                    .Select(d => (Thousandth(d.Opens), (Sentence)$"{TimeZoneInfo.ConvertTime(d.Opens, _clock.Zone):ddd HH:mm}")),
            ]);
    }

    private int Thousandth(DateTimeOffset at) => (int)Math.Clamp(WholeLine * ((at - _plan.At) / Drawn), 0, WholeLine);

    private string Local(DateTimeOffset? at) =>
        at is { } instant ? TimeZoneInfo.ConvertTime(instant, _clock.Zone).ToString("yyyy-MM-dd'T'HH:mm", CultureInfo.InvariantCulture) : "";
}
