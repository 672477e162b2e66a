using CureWatch.Bays;
using CureWatch.Curing;
using CureWatch.Handover;
using CureWatch.Planning;
using CureWatch.Products;
using CureWatch.Reports;
using CureWatch.Service.Api;
using CureWatch.Service.Documents;
using CureWatch.Words;

namespace CureWatch.Service.Board;

/// <summary>Puts a car into words.</summary>
internal sealed class CarViews(Look look, ShopClock clock)
{
    private readonly WindowWords _windows = new(clock);

    public CarView Of(JobState state)
    {
        JobReport report = look.ReportOf(state);
        CoatView[] coats = [.. report.Surfaces.SelectMany(s => s.Coats).Select(_windows.Of)];
        NextCoat[] next = [.. state.Stories.Zip(report.Surfaces, (story, s) => Next(story, s.Coats)).OfType<NextCoat>()];
        var once = new SaidOnce();
        PromiseView stands = PromiseViews.Of(report.Promise!, clock);
        stands = stands with { Cautions = once.Of(stands.Cautions) };
        NextView? whatIsNext = NextViews.Of(report.Next, look.At);
        whatIsNext = whatIsNext is null ? null : whatIsNext with { Cautions = once.Of(whatIsNext.Cautions) };
        string[] ofWarmth = once.Of(report.CoolDowns.IsEmpty ? [] : [Cautions.Lamp]);
        CanStartView? start = next.Length > 0 ? new CanStartViews(clock).Of(look.StartOf(state), PassesOf(state)) : null;
        start = start is null ? null : start with { HeatCautions = once.Of(start.HeatCautions) };
        string? ofArrival = once.Of(report.Arrival.Select(Cautions.Beside).OfType<string>()).FirstOrDefault();
        return new CarView(
            state.Job.Id,
            state.Job.Car ?? state.Job.Id,
            clock.Of(PromiseReport.PromisedAt(state)),
            Of(report.Ruling, PromiseReport.PromisedAt(state)),
            [.. coats.Where(c => c.CanBeLevelled || c.Tone >= Tone.Soon).OrderByDescending(c => c.Tone).ThenBy(Deadline)],
            coats,
            next,
            start,
            coats.Length > 0 ? [] : [.. report.Arrival.Select(a => (Sentence)$"{ArrivalWords.Of(a, report.At, clock.Zone)}")],
            [.. state.Job.Surfaces.Select(s => s.Id)],
            once.Of(CautionsOf(report.Surfaces.Where(s => next.Any(n => n.Target.Surface == s.Surface.Id)).Select(s => s.Surface))),
            [.. report.CoolDowns.Select(c => (Sentence)$"{LampWords.Of(c.Surface, c.CoolDown, at => clock.Of(at)?.Text ?? Sentence.None)}")],
            state.Told.Length)
        {
            Assumes = report.Assumes,
            ArrivalAssumes = report.ArrivalAssumes,
            HowItStands = stands,
            WarmCautions = ofWarmth,
            ArrivalCaution = ofArrival,
            WhatIsNext = whatIsNext,
        };
    }

    /// <summary>What a pass is for one person and for two; nothing where nothing is left to be levelled.</summary>
    private IEnumerable<Sentence> PassesOf(JobState state) => Enumerable.Range(1, SectionPace.MostPeople)
        .Select(people => PassReport.Of(look.Shop, look.StartOf(state), people)).Where(p => !p.Passes.IsEmpty).Select(p => (Sentence)$"{PassWords.Of(p)}");

    private static DateTimeOffset Deadline(CoatView coat) => coat.Lines.Count > 0 && coat.Lines[0].Moment is { } moment ? moment.At : DateTimeOffset.MaxValue;

    private HandoverView Of(Ruling ruling, DateTimeOffset? promisedAt)
    {
        TimeSpan? late = ruling.CollectFrom - promisedAt;
        return new HandoverView(
            ruling.IsReady,
            clock.Of(ruling.CollectFrom),
            late > TimeSpan.Zero ? ShopClock.Length(late.Value) : null,
            ruling.Holds.Length,
            [.. Together(ruling.Holds)],
            [.. Together(ruling.Holds.Where(h => h.IsForPeople))],
            [.. ruling.Notes.Select(n => (Sentence)$"{BoardWords.Coat(n.Surface, n.Layer, null)}: {n.Text}")]);
    }

    private static IEnumerable<HoldView> Together(IEnumerable<Hold> holds) => holds.GroupBy(h => (h.Kind, h.Text)).Select(alike => new HoldView(
        BoardWords.Of(alike.Key.Kind), Sentence.Join("; ", alike.Select(h => BoardWords.Coat(h.Surface, h.Layer, h.Section))), alike.Key.Text));

    /// <summary>The first layer that is missing in any section, lowest layers first.</summary>
    private NextCoat? Next(SurfaceStory story, IReadOnlyList<CoatReport> coats)
    {
        if (story.Missing().FirstOrDefault() is not (> 0 and var layer, var section))
        {
            return null;
        }

        CoatReport? below = coats.LastOrDefault(c => c.Coat.Layer == layer - 1 && c.Coat.Section == section && c.Coat.EndedAt is null);
        return new NextCoat(
            BoardWords.Coat(story.Surface, layer, section),
            NameOf(story.Surface, layer),
            new CoatTarget(story.Surface.Id, layer, section),
            below is null ? null : _windows.NextLayer(below));
    }

    private string NameOf(Surface surface, int layer)
    {
        (string product, int revision) = surface.SheetOf(layer);
        return look.Register.Settings.Catalogue.Find(product, revision)?.Name ?? product;
    }

    private IEnumerable<string> CautionsOf(IEnumerable<Surface> surfaces)
    {
        ProductSheet[] sheets = [.. surfaces.SelectMany(look.Shop.AllLawsOf).Select(l => l.Sheet).Distinct()];
        IEnumerable<string> general = sheets.Any(s => s.Carrier == Carrier.Solvent) ? [Cautions.SolventVapour] : [];
        return general.Concat(sheets.SelectMany(s => s.Cautions)).Distinct();
    }
}
