using CureWatch.Bays;
using CureWatch.Service.Pump;

namespace CureWatch.Service.Mqtt;

/// <summary>
/// Publishes how the shop stands: of each output what changed, at once after a quiet quarter of a second, else no more often than that, and
/// warnings without any delay. Nothing is decided here, so it runs on the time of the machine.
/// </summary>
/// <remarks>
/// What a commit touches is marked on the pump's thread (<see cref="CommitMarks"/>); documents are worked out beside it. At a start and on a new
/// connection everything is arranged anew.
/// </remarks>
internal sealed class Outputs : IFollower, IDisposable
{
    /// <summary>A climate is worked out in microseconds: half a processor at most. Source (choice).</summary>
    private const int RestPerClimate = 1;

    /// <summary>While thousands of bays wait, a twentieth: each is then shown some seconds late. Source (choice).</summary>
    private const int RestPerClimateInCrowd = 19;

    /// <summary>A car of forty coats takes milliseconds, and moves with every reading of its bay: a tenth of a processor at most. Source (choice).</summary>
    private const int RestPerCar = 9;

    /// <summary>What tells of every bay at once takes the longer the more there are: a fiftieth of a processor at most. Source (choice).</summary>
    private const int RestPerShop = 49;

    private readonly Latest _latest;
    private readonly IOutlet _outlet;
    private readonly Troubles _troubles;
    private readonly Shelf _keptWarnings;
    private readonly Shelf _keptClimates;
    private readonly Shelf _keptCars;
    private readonly Shelf _keptPlans;
    private readonly Shelf _keptNights;
    private readonly OutputLane _warnings;
    private readonly OutputLane _climates;
    private readonly OutputLane _cars;
    private readonly OutputLane _plans;
    private readonly OutputLane _nights;
    private readonly CommitMarks _marks;
    private long _followed = -1;

    public Outputs(Latest latest, IOutlet outlet, Troubles troubles, TimeProvider time, ILogger<Outputs> log)
    {
        (_latest, _outlet, _troubles) = (latest, outlet, troubles);
        (_keptWarnings, _keptClimates, _keptCars, _keptPlans, _keptNights) = (new Shelf(outlet), new Shelf(outlet), new Shelf(outlet), new Shelf(outlet), new Shelf(outlet));
        _warnings = new OutputLane(time, PublishWarningsAsync, restPerWork: 0, restInCrowd: 0, log);
        _climates = new OutputLane(time, PublishClimatesAsync, RestPerClimate, RestPerClimateInCrowd, log);
        _cars = new OutputLane(time, PublishCarsAsync, RestPerCar, RestPerCar, log);
        _plans = new OutputLane(time, PublishPlansAsync, RestPerShop, RestPerShop, log);
        _nights = new OutputLane(time, PublishNightsAsync, RestPerShop, RestPerShop, log);
        _marks = new CommitMarks(_warnings.Marks, _climates.Marks, _cars.Marks, _plans.Marks, _nights.Marks);
    }

    /// <summary>The journal's entry up to which everything is published; below 0 while something is on its way.</summary>
    public long PublishedThrough
    {
        get
        {
            long followed = Volatile.Read(ref _followed);
            return _warnings.Marks.IsEmpty && _climates.Marks.IsEmpty && _cars.Marks.IsEmpty && _plans.Marks.IsEmpty && _nights.Marks.IsEmpty ? followed : -1;
        }
    }

    public void Follow(Commit commit)
    {
        _marks.Follow(commit);
        Volatile.Write(ref _followed, commit.After.Sequence);
    }

    /// <summary>Publishes everything again: the broker is another, or came back.</summary>
    public void Refresh()
    {
        _warnings.Marks.AddAll(isForgotten: true);
        _climates.Marks.AddAll(isForgotten: true);
        _cars.Marks.AddAll(isForgotten: true);
        _nights.Marks.AddAll(isForgotten: true);
        _plans.Marks.AddAll(isForgotten: true);
    }

    /// <summary>Takes away a message that a broker kept from before, unless it is still true.</summary>
    public void Find(string topic)
    {
        (Shelf shelf, OutputLane lane) =
            topic.Contains("/warnings/", StringComparison.Ordinal) ? (_keptWarnings, _warnings)
            : topic.Contains("/jobs/", StringComparison.Ordinal) ? (_keptCars, _cars)
            : topic.EndsWith("/tonight", StringComparison.Ordinal) || topic.EndsWith("/morning", StringComparison.Ordinal) ? (_keptNights, _nights)
            : topic.EndsWith("/plan", StringComparison.Ordinal) || topic.EndsWith("/promises", StringComparison.Ordinal) ? (_keptPlans, _plans)
            : (_keptClimates, _climates);
        shelf.Find(topic);
        lane.Marks.AddAll();
    }

    /// <summary>Publishes until it is cancelled.</summary>
    public async Task RunAsync(CancellationToken cancelled)
    {
        _troubles.Changed += TellTroubles;
        await Task.CompletedTask.ConfigureAwait(ConfigureAwaitOptions.ForceYielding); // the start goes on while everything is published for the first time
        await Task.WhenAll(_warnings.RunAsync(cancelled), _climates.RunAsync(cancelled), _cars.RunAsync(cancelled), _plans.RunAsync(cancelled), _nights.RunAsync(cancelled)).ConfigureAwait(false);
    }

    /// <summary>Says that nothing more is published.</summary>
    public async Task SignOffAsync(CancellationToken cancelled)
    {
        if (_latest.Register.Shop is { } shop)
        {
            await _outlet.KeepAsync(new Topics(shop.Plan.Shop).Status, Topics.Offline.ToArray(), cancelled).ConfigureAwait(false);
        }
    }

    public void Dispose()
    {
        _troubles.Changed -= TellTroubles;
        _warnings.Dispose();
        _climates.Dispose();
        _cars.Dispose();
        _nights.Dispose();
        _plans.Dispose();
    }

    private void TellTroubles() => _warnings.Marks.AddAll();

    private async Task PublishWarningsAsync(Marked marked, CancellationToken cancelled)
    {
        if (_latest.Register.Shop is { } shop)
        {
            await _keptWarnings.ArrangeAsync(OutputDocuments.Warnings(shop, _troubles.Standing), marked.IsForgotten, cancelled).ConfigureAwait(false);
        }
    }

    private Task PublishClimatesAsync(Marked marked, CancellationToken cancelled) =>
        PublishAsync(_keptClimates, marked, OutputDocuments.Climates, shop => bay => OutputDocuments.OfBay(shop, bay), cancelled);

    private Task PublishCarsAsync(Marked marked, CancellationToken cancelled) => PublishAsync(
        _keptCars,
        marked,
        OutputDocuments.Cars,
        shop =>
        {
            var queues = new BayQueues(shop);
            return job => OutputDocuments.OfCar(shop, job, queues);
        },
        cancelled);

    private async Task PublishAsync(
        Shelf kept,
        Marked marked,
        Func<Shop, Dictionary<string, OutputDocument>> all,
        Func<Shop, Func<string, IEnumerable<(string Topic, OutputDocument? Document)>>> ofOne,
        CancellationToken cancelled)
    {
        if (_latest.Register.Shop is not { } shop)
        {
            return;
        }

        if (marked.IsAll)
        {
            await kept.ArrangeAsync(all(shop), marked.IsForgotten, cancelled).ConfigureAwait(false);
            return;
        }

        foreach ((string topic, OutputDocument? document) in marked.Keys.SelectMany(ofOne(shop)))
        {
            await kept.PutAsync(topic, document, cancelled).ConfigureAwait(false);
        }
    }

    /// <summary>One car moves the plans of every bay, so all of them are worked out together.</summary>
    private async Task PublishPlansAsync(Marked marked, CancellationToken cancelled)
    {
        if (_latest.Register.Shop is { } shop)
        {
            await _keptPlans.ArrangeAsync(OutputDocuments.Plans(shop), marked.IsForgotten, cancelled).ConfigureAwait(false);
        }
    }

    private async Task PublishNightsAsync(Marked marked, CancellationToken cancelled)
    {
        if (_latest.Register.Shop is { } shop)
        {
            await _keptNights.ArrangeAsync(OutputDocuments.Nights(shop), marked.IsForgotten, cancelled).ConfigureAwait(false);
        }
    }
}
