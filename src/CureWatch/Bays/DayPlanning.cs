using System.Collections.Immutable;
using CureWatch.Handover;
using CureWatch.Planning;
using CureWatch.TimeWindows;

namespace CureWatch.Bays;

/// <summary>Puts bays and cars on a time line.</summary>
/// <remarks>
/// One car a bay (choice). A car whose coating is begun stays as it is; after it come the others, in the order somebody wants to begin them, each when it
/// was asked for where that fits, else at the earliest start that does.
/// </remarks>
internal sealed class DayPlanning
{
    private readonly Shop _shop;
    private readonly Present _present;
    private readonly ShopHours _hours;
    private readonly AirWork[] _works;
    private readonly List<CoatAtRisk> _coats = [];
    private readonly Dictionary<string, BayFree> _free = new(StringComparer.Ordinal);
    private readonly ILookup<bool, (JobState Job, StartDecision Decision)> _jobs;

    public DayPlanning(Shop shop)
    {
        _shop = shop;
        _present = new Present(shop, shop.Now);
        _hours = HoursOf(shop);
        _works = [.. AirWorks.Of(shop).Concat(AirWorks.OfCarsToCome(shop)).Where(w => w.From < _hours.Until)];
        _jobs = shop.JobsInOrder.Where(j => j.LeftAt is null)
            .Select(j => (Job: j, StartReport.Of(shop, j.Job.Id).Decision)).ToLookup(j => IsBegun(j.Job, j.Decision));
    }

    public DayPlan Plan()
    {
        List<(string? Bay, CarDay Car)> cars = [.. _jobs[true].Select(Begun)];
        var here = new Dictionary<string, BayFree>(_free, StringComparer.Ordinal);
        cars.AddRange(_jobs[false]
            .OrderBy(j => j.Job.IsExpectedAt(_shop.Now)).ThenBy(j => j.Job.Job.Visit?.PlannedAt ?? j.Job.CameAt).ThenBy(j => j.Job.Number)
            .Select(j => ToCome(j.Job, j.Decision)));
        return new DayPlan(
            _shop.Now,
            _hours,
            [
                .. _shop.Plan.Bays.Select(b => new BayDay(
                    b.Bay,
                    b.Airspace,
                    _free.GetValueOrDefault(b.Bay, BayFree.Now),
                    here.GetValueOrDefault(b.Bay, BayFree.Now),
                    [.. cars.Where(c => c.Bay == b.Bay).Select(c => c.Car)],
                    [.. _shop.Planned.Where(w => w.Bay == b.Bay && w.To > _shop.Now)])),
            ],
            WorkConflict.Between(_works, _coats, _hours),
            _shop.Plan.Pace)
        {
            Assumed =
            [
                .. _jobs.SelectMany(j => j).SelectMany(j => j.Decision.Assumed).Distinct(),
                .. _jobs[false].Any() ? ["One car is in a bay at a time. What is planned for another day is reckoned in the climate from now on."] : Array.Empty<string>(),
            ],
        };
    }

    /// <summary>A car with a coat on it, or with nothing left to go on.</summary>
    private static bool IsBegun(JobState job, StartDecision decision) =>
        job.Stories.Any(s => s.Living.Any()) || decision.Answers.All(a => a.Evidence.Next is null);

    private (string? Bay, CarDay Car) Begun((JobState Job, StartDecision Decision) car)
    {
        (JobState job, StartDecision decision) = car;
        string? bay = BayOf(job);
        Ruling ruling = JobReport.RulingOn(_shop, job);
        bool isAnyOn = job.Stories.Any(s => s.Living.Any()), isLeft = decision.Answers.Any(a => a.Evidence.Next is not null);
        TimeBounds? ready = isAnyOn ? ruling.ReadyAt : TimeBounds.Known(_shop.Now);
        foreach (StartAnswer answer in decision.Answers.Where(a => a.Evidence.Next is not null))
        {
            ready = decision.Plan?.ReadyAt(answer.Evidence.Surface.Id) is { } at && ready is not null ? ready.OrLater(at) : null;
        }

        DateTimeOffset? frees = ready?.Latest is { } latest ? _shop.Plan.Hours.AfterWork(latest, _shop.Plan.Finishing) : null;
        frees = frees < _shop.Now ? _shop.Now : frees;
        _coats.AddRange(CoatsAtRisk.Of(_shop, _present, job, (surface, layer) => decision.Plan?.Layers.FirstOrDefault(l => l.Surface == surface && l.Layer == layer)?.BeginsAt));
        if (bay is not null)
        {
            _coats.AddRange((decision.Plan?.Layers ?? []).Select(l => Left(decision, l, job.Job.Id, bay)));
            _free[bay] = _free.GetValueOrDefault(bay, BayFree.Now).After(frees, job.Job.Id);
        }

        StartReason[] reasons =
        [
            .. ruling.Holds.Where(h => h.Kind is not (HoldKind.KeepDry or HoldKind.NotApplied))
                .Select(h => new StartReason(StartReasonKind.BelowHeld, StartWeight.Notes, h.Surface, h.Text)).DistinctBy(r => (r.Surface, r.Text)),
            .. !(frees <= job.Job.PromisedAt) && job.Job.PromisedAt is { } promised
                ? [new StartReason(StartReasonKind.Promise, StartWeight.Stops, null, $"It leaves {(frees is null ? "at no time anybody can tell" : $"{_hours.Clock(frees)} at the latest")}; promised is {_hours.Clock(promised)}.", "Tell whoever promised it.")]
                : Array.Empty<StartReason>(),
        ];
        return (bay, new CarDay(
            job.Job,
            IsHere: true,
            IsBegun: true,
            job.CameAt,
            null,
            isLeft ? decision.Plan?.Layers[0].BeginsAt : null,
            isLeft ? decision.Plan?.DoneAt : null,
            ready,
            frees,
            reasons.All(r => r.Weight == StartWeight.Notes),
            null,
            [.. reasons],
            decision.Plan?.Layers ?? []));
    }

    private (string? Bay, CarDay Car) ToCome(JobState job, StartDecision decision)
    {
        string bay = BayOf(job) ?? job.Job.Bay;
        bool isHere = !job.IsExpectedAt(_shop.Now);
        ImmutableArray<SurfaceToPlan> surfaces = [.. decision.Answers.Where(a => a.Evidence.Next is not null).Select(Surface)];
        var car = new CarToPlan(
            job.Job.Id, bay, AirWorks.AirspaceOf(_shop, bay) ?? bay, surfaces, isHere ? null : job.CameAt, job.Job.Visit?.PlannedAt, job.Job.PromisedAt)
        {
            IsColdUnknown = decision.Answers.Any(a => a.Evidence is { Next: not null, Arrival: { NowC: null }, ComesAt: not null }),
            ColdestArrivalC = _shop.Plan.Habits.ColdestArrivalC,
        };
        var planner = new CarPlanner(
            car, _free.GetValueOrDefault(bay, BayFree.Now), _works, _shop.Plan.Pace, _hours, at => _shop.Plan.Hours.AfterWork(at, _shop.Plan.Finishing));
        CarSlot asked = planner.At(planner.Asked);
        CarSlot? earliest = asked.IsPossible && car.AskedAt is null && planner.Asked <= _shop.Now + CarPlanner.Step ? asked : planner.Earliest();
        CarSlot? chosen = asked.IsPossible ? asked : earliest;
        _coats.AddRange((car.AskedAt is null ? chosen ?? asked : asked).Coats);
        if (isHere || chosen is not null)
        {
            _free[bay] = _free.GetValueOrDefault(bay, BayFree.Now).After(chosen?.CollectAt, job.Job.Id);
        }

        bool isPlannedSo = car.AskedAt is not null || asked.IsPossible;
        return (bay, new CarDay(
            job.Job,
            isHere,
            IsBegun: false,
            job.CameAt,
            surfaces.Max(s => s.DryFrom) is { } dry && dry > _shop.Now ? dry : null,
            chosen?.Plan?.Layers[0].BeginsAt,
            chosen?.Plan?.DoneAt,
            chosen?.ReadyAt,
            chosen?.CollectAt,
            isPlannedSo ? asked.Fits : chosen is { Fits: true },
            earliest?.Start,
            isPlannedSo || chosen is null ? asked.Reasons : [.. asked.Reasons.Where(r => r.Kind != StartReasonKind.Promise), .. chosen.Reasons.Where(r => r.Kind == StartReasonKind.Promise)],
            chosen?.Plan?.Layers ?? [])
        {
            AskedAt = planner.Asked,
        });
    }

    private SurfaceToPlan Surface(StartAnswer answer)
    {
        StartEvidence evidence = answer.Evidence;
        DateTimeOffset? dry = evidence.Arrival is not { } arrival || evidence is { Panel.IsMeasured: true, ComesAt: null, IsStillCold: false } ? _shop.Now : arrival.DryAt.Latest;
        int first = evidence.Next!.Layer;
        return new SurfaceToPlan(
            evidence.Surface.Id,
            evidence.Surface.Sections,
            dry,
            evidence.Times,
            [.. evidence.Times.Select((t, i) => RiskTimes.Of(_shop.LawsOf(evidence.Surface, first + i), t.RecoatFrom, t.KeepDry?.Latest))]);
    }

    /// <summary>A layer of a begun car that is still to go on.</summary>
    private CoatAtRisk Left(StartDecision decision, LayerWork layer, string job, string bay)
    {
        StartEvidence evidence = decision.Answers.First(a => a.Evidence.Surface.Id == layer.Surface).Evidence;
        CoatTimes times = evidence.Times[layer.Layer - evidence.Next!.Layer];
        RiskTimes risk = RiskTimes.Of(_shop.LawsOf(evidence.Surface, layer.Layer), times.RecoatFrom, times.KeepDry?.Latest);
        DateTimeOffset? touchDry = layer.DoneAt + risk.TouchDry;
        return new CoatAtRisk(
            job,
            layer.Surface,
            bay,
            AirWorks.AirspaceOf(_shop, bay) ?? bay,
            layer.BeginsAt,
            risk.HasSolvent ? layer.DoneAt : null,
            touchDry,
            touchDry,
            layer.DryAt is { } dry ? dry.Latest : layer.DoneAt);
    }

    /// <summary>The bay a car is in, by its first surface that is in one; null where it is in none.</summary>
    private string? BayOf(JobState job) => job.Stories.Select(s => _present.StaysOf(job.Job, s)[^1].Bay).OfType<string>().FirstOrDefault();

    private static ShopHours HoursOf(Shop shop)
    {
        var days = ImmutableArray.CreateBuilder<ShopDay>();
        OpenDay? day = shop.Plan.Hours.DayAt(shop.Now);
        while (day is not null && (days.Count == 0 || days[^1].Opens <= shop.Now + DayPlan.Sight))
        {
            days.Add(new ShopDay(day.Opens, day.LocksUp));
            day = day.LocksUp is { } lockUp ? shop.Plan.Hours.DayAt(lockUp) : null;
        }

        return new ShopHours(shop.Now, shop.Now + DayPlan.Sight, shop.Plan.Hours.Zone, days.ToImmutable());
    }
}
