using System.Collections.Immutable;
using CureWatch.Bays;
using CureWatch.Handover;
using CureWatch.Planning;
using CureWatch.TimeWindows;
using CureWatch.Words;

namespace CureWatch.Reports;

/// <summary>Puts bays and cars on a time line, in the order of their lines.</summary>
internal sealed class DayPlanning
{
    private readonly Shop _shop;
    private readonly Present _present;
    private readonly BayQueues _queues;
    private readonly List<CoatAtRisk> _coats = [];
    private readonly ILookup<bool, (JobState Job, StartDecision Decision)> _jobs;

    public DayPlanning(Shop shop, BayQueues? queues = null)
    {
        _shop = shop;
        _present = new Present(shop, shop.Now);
        _queues = queues ?? new BayQueues(shop);
        _jobs = shop.JobsInOrder.Where(j => j.LeftAt is null)
            .Select(j => (Job: j, StartReport.Of(shop, j.Job.Id, queues: _queues).Decision)).ToLookup(j => BayQueues.IsBegun(j.Job));
    }

    private ShopHours Hours => _queues.Hours;

    public DayPlan Plan()
    {
        ILookup<string?, CarDay> begun = _jobs[true].Select(Begun).ToLookup(c => c.Bay, c => c.Car);
        ILookup<string, PlannedWork> planned = _shop.Planned.Where(w => w.To > _shop.Now).ToLookup(w => w.Bay);
        ImmutableArray<BayDay> bays = [.. _shop.Plan.Bays.Select(b => Bay(b, begun[b.Bay], planned[b.Bay]))];
        return new DayPlan(_shop.Now, Hours, SameHands.Noted(bays, Hours), WorkConflict.Between(_queues.Works, _coats, Hours), _shop.Plan.Pace)
        {
            Assumed =
            [
                .. _jobs.SelectMany(j => j).SelectMany(j => j.Decision.Assumed).Distinct(),
                .. bays.Length > 1 && _jobs.Count > 0 ? [$"Each bay is planned by itself: where two cars are worked on at the same time, that is said."] : Array.Empty<Sentence>(),
                .. _jobs[false].Any()
                    ? [
                        $"One car is in a bay at a time, but what people work on is in it. A car that waits begins once those before it have left, at the latest.",
                        $"When a car that is planned for another day may be levelled and coated again is reckoned in the climate from now on.",
                    ]
                    : Array.Empty<Sentence>(),
            ],
        };
    }

    private BayDay Bay(BayPlan bay, IEnumerable<CarDay> begun, IEnumerable<PlannedWork> planned)
    {
        BayLine line = _queues.Of(bay.Bay);
        return new BayDay(bay.Bay, bay.Airspace, line.Free, line.FreeFromHere, [.. begun, .. line.Waiting.Select(ToCome)], [.. planned]);
    }

    /// <summary>A car with a coat on it, or with nothing left to go on.</summary>
    private (string? Bay, CarDay Car) Begun((JobState Job, StartDecision Decision) car)
    {
        (JobState job, StartDecision decision) = car;
        string? bay = _queues.BayOf(job);
        PromiseScene scene = PromiseScene.Of(_shop, _present, job);
        TimeBounds? ready = _queues.ReadyAt(_present, job, scene);
        DateTimeOffset? frees = _queues.LeavesAt(ready).Latest, told = PromiseReport.PromisedAt(job);
        ImmutableArray<LayerWork> left = scene.Left?.Plan.Layers ?? [];
        _coats.AddRange(CoatsAtRisk.Of(_shop, _present, job, (surface, layer) => left.FirstOrDefault(l => l.Surface == surface && l.Layer == layer)?.BeginsAt));
        if (bay is not null)
        {
            _coats.AddRange(left.Where(l => decision.Answers.Any(a => a.Evidence.Surface.Id == l.Surface && !a.Evidence.Times.IsEmpty)).Select(l => Left(decision, l, job.Job.Id, bay, left.FirstOrDefault(n => n.Surface == l.Surface && n.Layer == l.Layer + 1)?.BeginsAt)));
        }

        StartReason[] reasons =
        [
            .. scene.Left?.Unfit is { } late
                ? [new StartReason(
                    StartReasonKind.RecoatMissed,
                    StartWeight.Stops,
                    late.Surface,
                    $"Layer {late.Layer} of {late.Surface} would come only {Hours.Clock(late.BeginsAt)}, when the layer below takes it no more.",
                    $"Stay until it is levelled, or leave it out.")]
                : Array.Empty<StartReason>(),
            .. JobReport.RulingOn(_shop, job).Holds.Where(h => h.Kind is not (HoldKind.KeepDry or HoldKind.NotApplied))
                .Select(h => new StartReason(StartReasonKind.BelowHeld, StartWeight.Notes, h.Surface, h.Text)).DistinctBy(r => (r.Surface, r.Text)),
            .. !(frees <= told) && told is { } promised
                ? [new StartReason(StartReasonKind.Promise, StartWeight.Stops, null, $"It leaves {(frees is null ? (Sentence)$"at no time anybody can tell" : $"{Hours.Clock(frees)} at the latest")}; promised is {Hours.Clock(promised)}.", $"Tell whoever promised it.")]
                : Array.Empty<StartReason>(),
        ];
        return (bay, new CarDay(
            job.Job,
            IsBegun: true,
            new CarArrival(IsHere: true, job.CameAt, null),
            new CarWork(left.IsEmpty ? null : left[0].BeginsAt, scene.Left?.DoneAt, ready, frees, left),
            new AskedStart(null, reasons.All(r => r.Weight == StartWeight.Notes), null, [.. reasons]))
        {
            PromisedAt = told,
        });
    }

    private CarDay ToCome(QueuedCar queued)
    {
        CarSlot? chosen = queued.Chosen, planned = queued.IsBeyondSight ? null : chosen;
        CarSlot asked = queued.Asked;
        bool isAsked = queued.Car.AskedAt is not null || asked.IsPossible;
        ImmutableArray<StartReason> reasons = queued.IsBeyondSight ? [NotPlannedYet(asked.Start)] : WhyNotAsAsked(queued, isAsked);
        _coats.AddRange(queued.IsBeyondSight ? [] : asked.IsPossibleBesideOthers && isAsked ? asked.Coats : chosen?.Coats ?? []);
        return new CarDay(
            queued.Job.Job,
            IsBegun: false,
            new CarArrival(queued.IsHere, queued.Job.CameAt, queued.Car.Surfaces.Max(s => s.DryFrom) is { } dry && dry > _shop.Now ? dry : null),
            planned is null ? CarWork.Unknown : new CarWork(
                planned.Plan?.Layers[0].BeginsAt, planned.Plan?.DoneAt, queued.ReadyAt, _queues.LeavesAt(queued.ReadyAt).Latest, planned.Plan?.Layers ?? []),
            new AskedStart(
                asked.Start,
                queued.IsBeyondSight || (isAsked ? asked.Fits : chosen is { Fits: true }),
                queued.IsBeyondSight ? null : queued.Earliest?.Start,
                reasons))
        {
            IsPlanned = !queued.IsBeyondSight,
            PromisedAt = queued.Car.PromisedAt,
        };
    }

    /// <summary>
    /// What speaks against the start that was asked for. What others do in its air is said of the first start that nothing else rules out, so that it is why another
    /// is proposed; the promise is held against the start that is proposed.
    /// </summary>
    private static ImmutableArray<StartReason> WhyNotAsAsked(QueuedCar queued, bool isAsked)
    {
        CarSlot slot = queued.Asked;
        IEnumerable<StartReason> asked = slot.IsPossibleBesideOthers ? slot.Reasons
            : slot.Reasons.Where(r => r.Kind != StartReasonKind.SharedAir).Concat(queued.Earliest?.HeldOffBy ?? []);
        return isAsked || queued.Chosen is not { } chosen ? [.. asked]
            : [.. asked.Where(r => r.Kind != StartReasonKind.Promise), .. chosen.Reasons.Where(r => r.Kind == StartReasonKind.Promise)];
    }

    private StartReason NotPlannedYet(DateTimeOffset asked) => new(
        StartReasonKind.Closed, StartWeight.Notes, null, $"A plan looks {BayQueues.Sight.TotalDays:0} days ahead: it is in it from {Hours.Clock(asked - BayQueues.Sight)} on.");

    /// <summary>A layer of a begun car that is still to go on.</summary>
    private CoatAtRisk Left(StartDecision decision, LayerWork layer, string job, string bay, DateTimeOffset? nextBegins)
    {
        StartEvidence evidence = decision.Answers.First(a => a.Evidence.Surface.Id == layer.Surface).Evidence;
        CoatTimes times = evidence.Times[layer.Layer - evidence.Next!.Layer];
        RiskTimes risk = RiskTimes.Of(_shop.LawsOf(evidence.Surface, layer.Layer), times.RecoatFrom, times.KeepDry?.Latest);
        return CoatAtRisk.Planned(job, bay, AirWorks.AirspaceOf(_shop, bay) ?? bay, layer, risk, nextBegins);
    }
}
