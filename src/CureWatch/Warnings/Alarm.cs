namespace CureWatch.Warnings;

/// <summary>One alarm between normal and raised, and back.</summary>
/// <remarks>
/// Source: on-delay, off-delay and deadband as ISA-18.2 and IEC 62682 define them. What is judged at the end of a delay is the majority of
/// the measurements in it, so that noise around a limit neither starts an alarm over and over nor keeps one from starting.
/// </remarks>
public abstract record Alarm
{
    private Alarm()
    {
    }

    /// <summary>Nothing is wrong.</summary>
    public sealed record Normal : Alarm;

    /// <summary>Something is wrong, but not yet for long enough.</summary>
    /// <param name="Since">Since when.</param>
    /// <param name="Looks">Measurements since then.</param>
    /// <param name="Beyond">How many of them lay beyond the limit.</param>
    /// <param name="Worst">What was worst off in the newest of those; the default where that is not told apart.</param>
    public sealed record Pending(DateTimeOffset Since, int Looks, int Beyond, Worst Worst = default) : Alarm;

    /// <summary>A person was told.</summary>
    public sealed record Raised : Alarm;

    /// <summary>A person was told, and the cause seems gone, but not yet for long enough.</summary>
    /// <param name="Since">Since when.</param>
    /// <param name="Looks">Measurements since then.</param>
    /// <param name="Back">How many of them lay back inside the limit by the deadband.</param>
    public sealed record Returning(DateTimeOffset Since, int Looks, int Back) : Alarm;

    /// <summary>Whether a person was told and the warning is not over.</summary>
    public bool IsTold => this is Raised or Returning;

    /// <summary>When the alarm has to be judged, if nothing is measured before.</summary>
    /// <param name="rule">How it is managed.</param>
    /// <returns>The instant; null where only a measurement can change it.</returns>
    public DateTimeOffset? DueAt(AlarmRule rule) => this switch
    {
        Pending p when p.Looks >= rule.LeastLooks => p.Since + rule.OnDelay,
        Returning r => r.Since + rule.OffDelay,
        _ => null,
    };

    /// <summary>Takes a measurement in.</summary>
    /// <param name="at">When it was taken.</param>
    /// <param name="excess">How far it lies beyond the limit, in the unit of what is measured; below 0 inside.</param>
    /// <param name="rule">How the alarm is managed.</param>
    /// <param name="worst">What is worst off; the default where that is not told apart.</param>
    /// <returns>The alarm after it, judged.</returns>
    public Alarm Look(DateTimeOffset at, double excess, AlarmRule rule, Worst worst = default)
    {
        bool isBeyond = excess > 0;
        bool isBack = excess <= -rule.Deadband;
        Alarm next = this switch
        {
            Normal when isBeyond => new Pending(at, 1, 1, worst),
            Pending p when isBeyond => p with { Looks = p.Looks + 1, Beyond = p.Beyond + 1, Worst = worst },
            Pending p => p with { Looks = p.Looks + 1 },
            Raised when isBack => new Returning(at, 1, 1),
            Returning r => r with { Looks = r.Looks + 1, Back = r.Back + (isBack ? 1 : 0) },
            _ => this,
        };
        Alarm judged = next.Judge(at, rule);
        return judged is Normal && next is Pending && isBeyond ? new Pending(at, 1, 1, worst) : judged;
    }

    /// <summary>Judges the alarm at an instant.</summary>
    /// <param name="at">The instant.</param>
    /// <param name="rule">How it is managed.</param>
    /// <returns>The alarm, raised, returned or as it was.</returns>
    public Alarm Judge(DateTimeOffset at, AlarmRule rule)
    {
        if (!(at >= DueAt(rule)))
        {
            return this;
        }

        return this switch
        {
            Pending p => 2 * p.Beyond > p.Looks ? new Raised() : new Normal(),
            Returning r => 2 * r.Back > r.Looks ? new Normal() : new Raised(),
            _ => this,
        };
    }
}
