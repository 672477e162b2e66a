namespace CureWatch.Service.Pump;

/// <summary>A stretch in which the journal cannot be written, and when it is tried again: after twice as long each time.</summary>
internal sealed class Outage
{
    private static readonly TimeSpan First = TimeSpan.FromSeconds(1);
    private static readonly TimeSpan Longest = TimeSpan.FromSeconds(30);

    private readonly TimeProvider _clock;
    private readonly Func<Task> _wake;
    private readonly TimeSpan _pause;
    private readonly Task _nextTry;

    /// <param name="why">Why nothing is taken.</param>
    /// <param name="clock">The clock.</param>
    /// <param name="wake">Called when it is time to try again.</param>
    public Outage(string why, TimeProvider clock, Func<Task> wake)
        : this(why, clock, wake, First)
    {
    }

    private Outage(string why, TimeProvider clock, Func<Task> wake, TimeSpan pause)
    {
        (Why, _clock, _wake, _pause) = (why, clock, wake, pause);
        _nextTry = Task.Delay(pause, clock);
        _ = _nextTry.ContinueWith(_ => wake(), TaskScheduler.Default);
    }

    /// <summary>Why nothing is taken.</summary>
    public string Why { get; }

    /// <summary>Whether it is time to try again.</summary>
    public bool IsDue => _nextTry.IsCompleted;

    /// <summary>It was tried again and lasts.</summary>
    public Outage GoesOn(string why) => new(why, _clock, _wake, _pause * 2 < Longest ? _pause * 2 : Longest);
}
