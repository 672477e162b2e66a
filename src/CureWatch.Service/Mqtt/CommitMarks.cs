using CureWatch.Bays;
using CureWatch.Service.Journal;
using CureWatch.Service.Pump;

namespace CureWatch.Service.Mqtt;

/// <summary>Marks what a commit touches: the climate of a bay and the cars in it, a car, the warnings, the day plan, the night.</summary>
/// <remarks>
/// Once a minute of the shop's time everything is marked, for what only time has changed; with a new plan at once.
/// </remarks>
internal sealed class CommitMarks(Marks warnings, Marks climates, Marks cars, Marks plans, Marks nights)
{
    private static readonly TimeSpan Everything = TimeSpan.FromMinutes(1);

    /// <summary>Nights are told of the whole shop at once.</summary>
    private const string Everywhere = "";

    /// <summary>There is one plan for all bays.</summary>
    private static readonly string[] ThePlan = ["plan"];

    private readonly HashSet<string> _bays = new(StringComparer.Ordinal);
    private readonly HashSet<string> _cars = new(StringComparer.Ordinal);
    private CarsByBay _carsByBay = CarsByBay.None;
    private DateTimeOffset _lookedAt = DateTimeOffset.MinValue;

    public void Follow(Commit commit)
    {
        bool isWarned = false, isPlanned = false, isAnotherShop = false, isForeseen = false;
        if (commit.After.Shop is { } shop)
        {
            _carsByBay = _carsByBay.Of(shop);
        }

        foreach (Step step in commit.Steps)
        {
            isAnotherShop |= step.Entry is Entry.SettingsChanged;
            foreach (ShopEvent e in step.Happened)
            {
                Touch(e);
                isPlanned |= e is ShopEvent.TapTakenDown or ShopEvent.JobOpened or ShopEvent.CarHandedOver or ShopEvent.JobClosed
                    or ShopEvent.WorkPlanned or ShopEvent.WorkDropped or ShopEvent.VisitPlanned or ShopEvent.RulingTurned or ShopEvent.PromiseWatched;
                isWarned |= e is ShopEvent.WarningRaised or ShopEvent.WarningCleared or ShopEvent.WarningReworded;
                isForeseen |= e is ShopEvent.BayForeseen or ShopEvent.RulingTurned or ShopEvent.CarHandedOver;
            }
        }

        if (isWarned)
        {
            warnings.AddAll();
        }

        if (isPlanned || isAnotherShop)
        {
            plans.Add(ThePlan);
        }

        if (isWarned || isForeseen)
        {
            nights.AddAll();
        }

        Mark(commit, isAnotherShop);
    }

    private void Touch(ShopEvent happened)
    {
        if (BayOf(happened) is { } bay)
        {
            _ = _bays.Add(bay);
        }
        else if (CarOf(happened) is { } car)
        {
            _ = _cars.Add(car);
        }
        else if (ToldCarOf(happened) is { } told)
        {
            cars.AddUrgent(told);
        }
    }

    private static string? BayOf(ShopEvent happened) => happened switch
    {
        ShopEvent.ReadingBelieved e => e.Raw.Bay,
        ShopEvent.ReadingDoubted { IsFollowed: true } e => e.Raw.Bay,
        ShopEvent.ProbeOutvoted e => e.Bay,
        ShopEvent.BacklogFollowed e => e.Bay,
        ShopEvent.ValueStood e => e.Bay,
        ShopEvent.ValueMoved e => e.Bay,
        ShopEvent.CondensationBegan e => e.Bay,
        ShopEvent.CondensationEnded e => e.Bay,
        ShopEvent.CondensationWithdrawn e => e.Bay,
        ShopEvent.WarningRaised e => e.Warning.Subject.Bay,
        _ => null,
    };

    private static string? CarOf(ShopEvent happened) => happened switch
    {
        ShopEvent.CoatForeseen e => e.Coat.Job,
        ShopEvent.SurfaceOverheated e => e.Job,
        ShopEvent.RulingForeseen e => e.Job,
        ShopEvent.PromiseWatched e => e.Job,
        _ => null,
    };

    /// <summary>What somebody told or was told of a car waits for nothing.</summary>
    private static string? ToldCarOf(ShopEvent happened) => happened switch
    {
        ShopEvent.RulingTurned e => e.Job,
        ShopEvent.TapTakenDown e => e.Job,
        ShopEvent.JobOpened e => e.Job.Id,
        ShopEvent.CarHandedOver e => e.Job,
        ShopEvent.VisitPlanned e => e.Job,
        ShopEvent.JobClosed e => e.Last.Job.Id,
        _ => null,
    };

    private void Mark(Commit commit, bool isAnotherShop)
    {
        if (isAnotherShop)
        {
            climates.AddAll();
            cars.AddAll();
            nights.AddAll();
        }
        else if (commit.After.At - _lookedAt >= Everything && commit.After.Shop is { } shop)
        {
            _lookedAt = commit.After.At;
            climates.AddLater(shop.Plan.Bays.Select(b => b.Bay));
            cars.AddLater(_carsByBay.All);
            nights.AddLater([Everywhere]);
            plans.AddLater(ThePlan);
        }

        foreach (string bay in _bays)
        {
            _cars.UnionWith(_carsByBay.In(bay));
        }

        if (_bays.Count > 0)
        {
            climates.Add(_bays);
            _bays.Clear();
        }

        if (_cars.Count > 0)
        {
            cars.Add(_cars);
            _cars.Clear();
        }
    }
}
