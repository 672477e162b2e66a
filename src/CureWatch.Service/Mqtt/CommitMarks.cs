using CureWatch.Bays;
using CureWatch.Service.Journal;
using CureWatch.Service.Pump;

namespace CureWatch.Service.Mqtt;

/// <summary>Marks what a commit touches: the climate of a bay and the cars in it, a car, the warnings.</summary>
/// <remarks>
/// Once a minute of the shop's time everything is marked, for what only time has changed; with a new plan at once.
/// </remarks>
internal sealed class CommitMarks(Marks warnings, Marks climates, Marks cars)
{
    private static readonly TimeSpan Everything = TimeSpan.FromMinutes(1);

    private readonly HashSet<string> _bays = new(StringComparer.Ordinal);
    private readonly HashSet<string> _cars = new(StringComparer.Ordinal);
    private CarsByBay _carsByBay = CarsByBay.None;
    private DateTimeOffset _lookedAt = DateTimeOffset.MinValue;

    public void Follow(Commit commit)
    {
        bool isWarned = false, isAnotherShop = false;
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
                isWarned |= e is ShopEvent.WarningRaised or ShopEvent.WarningCleared;
            }
        }

        if (isWarned)
        {
            warnings.AddAll();
        }

        Mark(commit, isAnotherShop);
    }

    private void Touch(ShopEvent happened)
    {
        switch (happened)
        {
            case ShopEvent.ReadingBelieved e:
                _ = _bays.Add(e.Raw.Bay);
                break;
            case ShopEvent.ReadingDoubted { Held: not null } e:
                _ = _bays.Add(e.Raw.Bay);
                break;
            case ShopEvent.ProbeOutvoted e:
                _ = _bays.Add(e.Bay);
                break;
            case ShopEvent.CondensationBegan e:
                _ = _bays.Add(e.Bay);
                break;
            case ShopEvent.CondensationEnded e:
                _ = _bays.Add(e.Bay);
                break;
            case ShopEvent.WarningRaised { Warning.Subject.Bay: { } bay }:
                _ = _bays.Add(bay);
                break;
            case ShopEvent.CoatForeseen e:
                _ = _cars.Add(e.Coat.Job);
                break;
            case ShopEvent.SurfaceOverheated e:
                _ = _cars.Add(e.Job);
                break;
            case ShopEvent.RulingForeseen e:
                _ = _cars.Add(e.Job);
                break;
            case ShopEvent.RulingTurned e:
                cars.AddUrgent(e.Job);
                break;
            case ShopEvent.TapTakenDown e:
                cars.AddUrgent(e.Job);
                break;
            case ShopEvent.JobOpened e:
                cars.AddUrgent(e.Job.Id);
                break;
            case ShopEvent.CarHandedOver e:
                cars.AddUrgent(e.Job);
                break;
        }
    }

    private void Mark(Commit commit, bool isAnotherShop)
    {
        if (isAnotherShop)
        {
            climates.AddAll();
            cars.AddAll();
        }
        else if (commit.After.At - _lookedAt >= Everything && commit.After.Shop is { } shop)
        {
            _lookedAt = commit.After.At;
            climates.AddLater(shop.Plan.Bays.Select(b => b.Bay));
            cars.AddLater(_carsByBay.All);
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
