using System.Diagnostics;

namespace CureWatch.Service.Settings;

/// <summary>Whether what happened in a recorded day can have happened in that order. Only the first that cannot is told: the rest follows from it.</summary>
/// <param name="place">Where the day stands.</param>
/// <param name="day">The day.</param>
/// <param name="jobs">The exported job, then those beside it.</param>
internal sealed class RecordedOrder(JsonCursor place, LivedDay day, JobRecord[] jobs)
{
    private readonly HashSet<int> _begun = [], _left = [];
    private readonly HashSet<(int Job, int? Tap)> _told = [];
    private RecordedEvent _before = new(0, day.OpenedAt, day.OpenedAt, Recorded.Begun, 0, null);

    public void Check()
    {
        if (day.EndedAt < day.OpenedAt)
        {
            place["endedAt"].Refuse($"no earlier than openedAt, {UtcText.Of(day.OpenedAt)}");
            return;
        }

        foreach ((RecordedEvent next, JsonCursor at) in day.Order.Zip(place["order"].Items()))
        {
            if (Wrong(next) is var (key, allowed))
            {
                at[key].Refuse(allowed);
                return;
            }

            _before = next;
        }

        int missing = Enumerable.Range(0, jobs.Length).FirstOrDefault(j => !_begun.Contains(j) || _told.Count(t => t.Job == j) < jobs[j].Taps.Length, -1);
        if (missing >= 0)
        {
            place["order"].Refuse(
                $"{day.Order.Length} entries", $"job {missing} begun, and each of its {jobs[missing].Taps.Length} taps told; or no '{RecordedOfJob.Key}' at all");
        }
    }

    /// <summary>The key of an entry that cannot be, and what is allowed there; null where all can.</summary>
    private (string Key, string Allowed)? Wrong(RecordedEvent next) =>
        next.Job >= jobs.Length ? ("job", $"a whole number 0 to {jobs.Length - 1}: this job, then those beside it")
        : next.Readings < _before.Readings ? ("readings", $"no fewer than before, {_before.Readings}")
        : next.Now < _before.Now ? ("now", $"no earlier than before, {UtcText.Of(_before.Now)}")
        : next.At > day.EndedAt ? ("at", $"no later than endedAt, {UtcText.Of(day.EndedAt.Value)}")
        : next.At < _before.At ? ("at", $"no earlier than before, {UtcText.Of(_before.At)}")
        : next.Now > next.At ? ("now", $"no later than at, {UtcText.Of(next.At)}")
        : next.Did switch
        {
            Recorded.Begun => _begun.Add(next.Job) ? null : ("did", "each job begun once"),
            Recorded.Told => WrongTold(next),
            Recorded.Left => !_begun.Contains(next.Job) ? ("did", $"job {next.Job} begun before it leaves")
                : _left.Add(next.Job) ? null
                : ("did", "each car leaving once"),
            Recorded.Planned or Recorded.Dropped => OneOf(next.Plan, day.Works.Length, "works"),
            Recorded.Visited => !_begun.Contains(next.Job) ? ("did", $"job {next.Job} begun before it is planned otherwise") : OneOf(next.Plan, day.Visits.Length, "visits"),
            Recorded.Cancelled => _begun.Contains(next.Job) ? null : ("did", $"job {next.Job} begun before it is cancelled"),
            _ => throw new UnreachableException(next.Did.ToString()),
        };

    private static (string Key, string Allowed)? OneOf(int? plan, int most, string what) =>
        plan < most ? null : ("plan", $"one of the {most} {what}, from 0");

    private (string Key, string Allowed)? WrongTold(RecordedEvent next) =>
        !_begun.Contains(next.Job) ? ("did", $"job {next.Job} begun before anything is told of it")
        : next.Tap is not { } tap || tap >= jobs[next.Job].Taps.Length ? ("tap", $"one of the {jobs[next.Job].Taps.Length} taps of job {next.Job}, from 0")
        : !_told.Add((next.Job, tap)) ? ("tap", "each tap told once")
        : jobs[next.Job].Taps[tap].ReportedAt is var reported && next.At < reported ? ("at", $"no earlier than the tap says it was told, {UtcText.Of(reported)}")
        : null;
}
