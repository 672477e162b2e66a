using System.Collections.Immutable;
using CureWatch.Bays;
using CureWatch.Curing;
using CureWatch.Forecasting;
using CureWatch.Handover;
using CureWatch.Planning;
using CureWatch.Units;
using CureWatch.Words;

namespace CureWatch.Reports;

/// <summary>What would follow if something were otherwise: worked out on a copy, with nothing told to anybody and nothing kept.</summary>
/// <param name="Hypothesis">What is otherwise.</param>
/// <param name="Report">How the job would stand: its windows, its ruling, its promise.</param>
/// <param name="Planned">The coats that are still to go on, and when each would be ready; empty where none is.</param>
/// <param name="Beyond">What of it no sheet, no surface or no equipment allows, in words; empty where all is allowed.</param>
public sealed record WhatIf(Hypothesis Hypothesis, JobReport Report, ImmutableArray<AwaitedCoat> Planned, ImmutableArray<Sentence> Beyond)
{
    /// <summary>The air that would be held, and how fast it would cure in it; null where no air is held otherwise, or nobody measures it.</summary>
    public AirIf? Air { get; private init; }

    /// <summary>Works it out.</summary>
    /// <param name="shop">The shop.</param>
    /// <param name="id">The job's id; the job must be there, its car still here.</param>
    /// <param name="hypothesis">What is otherwise; its surfaces the job's, its sheet the shop's, its start not before the present.</param>
    /// <returns>What would follow at the shop's present.</returns>
    public static WhatIf Of(Shop shop, string id, Hypothesis hypothesis)
    {
        ArgumentNullException.ThrowIfNull(hypothesis);
        JobState state = shop.Find(id) ?? throw new ArgumentException($"No job '{id}'.", nameof(id));
        Shop copy = Retold(shop, state, hypothesis);
        JobState job = copy.Jobs[id];
        var present = new Present(copy, copy.Now) { Supposed = SupposedOf(copy, job, hypothesis) };
        PromiseScene scene = PromiseScene.Of(copy, present, job, hypothesis.StartAt);
        JobReport report = JobReport.Of(copy, present, job, hypothesis.StartAt);
        return new WhatIf(
            hypothesis,
            report,
            [.. scene.Coats.Where(c => c.Waits == Awaits.Application)],
            [.. HypothesisLimits.Beyond(copy, job, hypothesis), .. HypothesisLimits.BeyondBay(copy, hypothesis, scene.Turn)])
        {
            Air = present.Supposed.Bay is { } held ? AirIf.Of(copy, present, job, copy.Bays[held], report.Promise!.Outlook.Governing) : null,
        };
    }

    /// <summary>The job begun anew in a copy of the shop, with what is otherwise about it, and all that was told of it told again.</summary>
    private static Shop Retold(Shop shop, JobState state, Hypothesis hypothesis)
    {
        if (hypothesis is { Sheet: null, PromisedAt: null })
        {
            return shop;
        }

        Job job = state.Job with
        {
            PromisedAt = hypothesis.PromisedAt ?? state.Job.PromisedAt,
            Surfaces = [.. state.Job.Surfaces.Select(s => s.Id == hypothesis.Sheet?.Surface ? s with { Product = hypothesis.Sheet.Value.Product, Revision = hypothesis.Sheet.Value.Revision } : s)],
        };
        ImmutableDictionary<CoatKey, Learning.Learnt> begun = state.Lessons.Begun.RemoveRange(state.Lessons.Begun.Keys.Where(k => k.Surface == hypothesis.Sheet?.Surface));
        Shop copy = ShopFold.Take(shop.Without(state), new Message.JobStarted(job, shop.Now) { Begun = begun }).Shop;
        foreach (Tap tap in state.Told.Where(t => t.Did != Did.Told || hypothesis.PromisedAt is null))
        {
            copy = ShopFold.Take(copy, new Message.Tapped(job.Id, tap)).Shop;
        }

        return copy.With(copy.Jobs[job.Id] with { Overheats = state.Overheats, Number = state.Number, OpenedAt = state.OpenedAt });
    }

    private static Supposed SupposedOf(Shop shop, JobState job, Hypothesis hypothesis)
    {
        double? kelvins = hypothesis.AirC + Celsius.KelvinsAtZero;
        bool isHeld = kelvins is not null || hypothesis.HumidityPct is not null;
        Supposed lit = hypothesis.Lamp is { } lamp ? LampWays.Of(shop, job, lamp.Surface, lamp.Minutes) : Supposed.Nothing;
        if (!isHeld || PromiseReport.BaysOf(shop, job).FirstOrDefault() is not { } bay)
        {
            return lit;
        }

        ClimateReach reach = BayReaches.Of(shop, job, bay);
        var held = new ClimateHeld
        {
            LeastAirKelvins = kelvins,
            MostAirKelvins = kelvins,
            LeastHumidityPct = hypothesis.HumidityPct,
            MostHumidityPct = hypothesis.HumidityPct,
        };
        return lit with { Bay = bay.Plan.Bay, Held = hypothesis.AirC > reach.AirC ? reach.While(held, shop.Now) : held };
    }
}
