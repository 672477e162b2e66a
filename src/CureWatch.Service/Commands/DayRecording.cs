using System.Collections.Immutable;
using CureWatch.Bays;
using CureWatch.Curing;
using CureWatch.Planning;
using CureWatch.Service.Journal;
using CureWatch.Service.Pump;
using CureWatch.Service.Settings;

namespace CureWatch.Service.Commands;

/// <summary>Takes down from a journal's entries, one after the other, what happened to which cars after which reading.</summary>
internal sealed class DayRecording
{
    /// <summary>What concerns no car; no job is called so.</summary>
    private const string OfNoJob = "";

    private readonly List<(string Job, RecordedEvent Event)> _events = [];
    private readonly Dictionary<string, RecordedCar> _cars = new(StringComparer.Ordinal);
    private readonly List<PlannedWork> _works = [];
    private readonly List<Visit> _visits = [];
    private DateTimeOffset? _openedAt, _lastAt;
    private long? _first;
    private DateTimeOffset _now;
    private int _readings;

    /// <summary>Takes an entry down.</summary>
    public void Look(Step step)
    {
        if (step.After.Shop is not { } shop)
        {
            return;
        }

        _openedAt ??= shop.Now;
        _first ??= step.After.Sequence;
        (_readings, _lastAt) = step.Entry is Entry.Reading ? (_readings + 1, step.At) : (_readings, _lastAt);
        foreach (ShopEvent e in step.Happened)
        {
            switch (e)
            {
                case ShopEvent.JobOpened { Job: var job }:
                    _cars[job.Id] = new RecordedCar(job, _cars.Count, step.At, []);
                    Add(job.Id, step.At, Recorded.Begun, null);
                    break;
                case ShopEvent.TapTakenDown tapped when _cars.TryGetValue(tapped.Job, out RecordedCar? car):
                    Add(tapped.Job, step.At, Recorded.Told, car.Taps.Count);
                    car.Taps.Add(tapped.Tap);
                    break;
                case ShopEvent.CarHandedOver left when _cars.ContainsKey(left.Job):
                    Add(left.Job, step.At, Recorded.Left, null);
                    break;
                case ShopEvent.WorkPlanned { Work: var work }:
                    _works.Add(work with { By = null, Note = null });
                    Add(OfNoJob, step.At, Recorded.Planned, null, _works.Count - 1);
                    break;
                case ShopEvent.WorkDropped dropped when _works.FindLastIndex(w => w.Id == dropped.Id) is >= 0 and var index:
                    Add(OfNoJob, step.At, Recorded.Dropped, null, index);
                    break;
                case ShopEvent.VisitPlanned planned when _cars.ContainsKey(planned.Job):
                    _visits.Add(planned.Visit);
                    Add(planned.Job, step.At, Recorded.Visited, null, _visits.Count - 1);
                    break;
                case ShopEvent.JobClosed closed when _cars.TryGetValue(closed.Last.Job.Id, out RecordedCar? car):
                    (car.ClosedAt, car.ReadingsAtLast, car.SettingsAtLast) = (step.At, _readings, step.After.Settings);
                    if (step.Entry is Entry.VisitCancelled)
                    {
                        Add(closed.Last.Job.Id, step.At, Recorded.Cancelled, null);
                    }

                    break;
            }
        }

        _now = shop.Now;
    }

    /// <summary>The entry from which on the day was taken down: where the journal's beginning is in an archive, none of before belongs to it.</summary>
    public long From => _first ?? 0;

    /// <summary>The settings a job was closed under: what was set up otherwise since is nothing of its.</summary>
    /// <param name="id">The job's id.</param>
    /// <returns>The settings; null while it is open.</returns>
    public SettingsRegister? SettingsOf(string id) => _cars.GetValueOrDefault(id)?.SettingsAtLast;

    /// <summary>The day of a job, with every car that the shop still knew while it was there.</summary>
    /// <param name="id">The job's id.</param>
    /// <returns>The day; null where the journal's beginning, and the job's with it, is in an archive.</returns>
    public LivedDay? Of(string id)
    {
        if (!_cars.TryGetValue(id, out RecordedCar? asked))
        {
            return null;
        }

        RecordedCar[] beside =
        [
            .. _cars.Values.Where(c => c != asked && !(c.ClosedAt < asked.BegunAt) && !(c.BegunAt > asked.ClosedAt) && c.BegunAt <= End).OrderBy(c => c.Number),
        ];
        Dictionary<string, int> numbers = beside.Select((car, i) => (car.Job.Id, Number: i + 1)).Append((id, 0)).ToDictionary(StringComparer.Ordinal);
        ImmutableArray<RecordedEvent> order =
        [
            .. from e in _events
               where e.Job == id || ((e.Job == OfNoJob || numbers.ContainsKey(e.Job)) && !(e.Event.At > asked.ClosedAt) && e.Event.At <= End)
               select e.Event with { Job = numbers.GetValueOrDefault(e.Job), Readings = Math.Min(e.Event.Readings, asked.ReadingsAtLast) },
        ];
        return new LivedDay(_openedAt!.Value, [.. beside.Select((car, i) => WithoutNames(car, i + 1, order, id))], order)
        {
            EndedAt = asked.ClosedAt < End ? asked.ClosedAt : End,
            Works = [.. _works],
            Visits = [.. _visits],
            OpenedWith = asked.Job.Visit,
        };
    }

    /// <summary>
    /// The folder's clock; where for more than a year nobody measured and nothing happened, a year after that: what replay takes, and nothing moves any more by then.
    /// </summary>
    private DateTimeOffset End => _lastAt + RecordedAmong.Longest is { } most && most < _now ? most : _now;

    private void Add(string job, DateTimeOffset at, Recorded did, int? tap, int? plan = null)
    {
        _events.Add((job, new RecordedEvent(_readings, _now, at, did, 0, tap) { Plan = plan }));
        _lastAt = at;
    }

    /// <summary>A car as far as it was told of in that day; who it is for and who told is nobody's business here.</summary>
    private static JobRecord WithoutNames(RecordedCar car, int number, ImmutableArray<RecordedEvent> order, string asked) => new(
        car.Job with { Id = NameOf(number, asked), Car = null, PromisedAt = null },
        [.. car.Taps.Take(order.Count(e => e.Job == number && e.Did == Recorded.Told)).Select(t => t with { By = null, Note = null })]);

    /// <summary>A name that says nothing but which of them it is; the asked job may be called just so, and keeps its own.</summary>
    private static string NameOf(int number, string asked) => $"beside-{number}" is var name && name == asked ? $"{name}-too" : name;

    private sealed record RecordedCar(Job Job, int Number, DateTimeOffset BegunAt, List<Tap> Taps)
    {
        public DateTimeOffset? ClosedAt { get; set; }

        /// <summary>How many readings had come when it was closed: no more are exported.</summary>
        public int ReadingsAtLast { get; set; } = int.MaxValue;

        /// <summary>The settings as they were then; null while it is open.</summary>
        public SettingsRegister? SettingsAtLast { get; set; }
    }
}
