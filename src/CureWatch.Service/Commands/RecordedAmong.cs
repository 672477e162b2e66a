using CureWatch.Service.Settings;

namespace CureWatch.Service.Commands;

/// <summary>Holds what happened in a recorded day against the readings it is said to lie among: both came in the order of one journal.</summary>
/// <param name="day">The day.</param>
/// <param name="file">Its file, for a fault.</param>
/// <param name="faults">Where the first thing that cannot be is told.</param>
internal sealed class RecordedAmong(LivedDay day, string file, Faults faults)
{
    /// <summary>Longest that a day goes on after its last reading or event. Source (choice): beyond a year it is a slip, or a clock gone wrong.</summary>
    public static readonly TimeSpan Longest = TimeSpan.FromDays(366);

    private DateTimeOffset? _last;
    private int _read;
    private int _next;
    private bool _isWrong;

    /// <summary>Looks at the next reading, and at what happened before it.</summary>
    /// <returns>Whether all can have been so until then.</returns>
    public bool Fits(DateTimeOffset arrived)
    {
        if (_read == 0 && day.OpenedAt > arrived)
        {
            Refuse("openedAt", day.OpenedAt, $"no later than the first reading, {UtcText.Of(arrived)}");
        }

        CheckEvents(_read, arrived, "the reading after it");
        (_last, _read) = (arrived, _read + 1);
        return !_isWrong;
    }

    /// <summary>Looks at what happened after the last reading.</summary>
    /// <returns>Whether all can have been so.</returns>
    public bool FitsToItsEnd()
    {
        if (_last is { } last)
        {
            // Where the day says when it ended, no event of it is later than that: nobody may have measured for years before a car came.
            DateTimeOffset end = last + Longest;
            CheckEvents(int.MaxValue, day.EndedAt > end ? day.EndedAt.Value : end, "a year after the last reading");
            DateTimeOffset latest = (day.Order is [.., { At: var at }] && at > last ? at : last) + Longest;
            if (day.EndedAt > latest)
            {
                Refuse("endedAt", day.EndedAt.Value, $"no later than a year after the last reading or event, {UtcText.Of(latest)}");
            }
        }

        return !_isWrong;
    }

    private void CheckEvents(int readings, DateTimeOffset latest, string what)
    {
        for (; _next < day.Order.Length && day.Order[_next].Readings <= readings; _next++)
        {
            DateTimeOffset at = day.Order[_next].At;
            if (at > latest)
            {
                Refuse($"order/{_next}/at", at, $"no later than {what}, {UtcText.Of(latest)}");
            }
            else if (at < _last)
            {
                Refuse($"order/{_next}/at", at, $"no earlier than the reading before it, {UtcText.Of(_last.Value)}");
            }
        }
    }

    private void Refuse(string key, DateTimeOffset seen, string allowed)
    {
        if (!_isWrong)
        {
            faults.Add(file, $"/{RecordedOfJob.Key}/{key}", UtcText.Of(seen), allowed);
        }

        _isWrong = true;
    }
}
