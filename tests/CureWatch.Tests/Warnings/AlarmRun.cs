using CureWatch.Warnings;

namespace CureWatch.Tests.Warnings;

/// <summary>One alarm through a row of measurements, judged at every instant it falls due.</summary>
internal sealed class AlarmRun(AlarmRule rule)
{
    private static readonly DateTimeOffset Start = new(2026, 5, 4, 8, 0, 0, TimeSpan.Zero);

    public Alarm Alarm { get; private set; } = new Alarm.Normal();

    /// <summary>The minutes at which a person was told.</summary>
    public List<double> Raised { get; } = [];

    /// <summary>The minutes at which it was over.</summary>
    public List<double> Cleared { get; } = [];

    public AlarmRun Look(double minute, double excess)
    {
        Until(minute);
        Become(minute, Alarm.Look(At(minute), excess, rule));
        return this;
    }

    public AlarmRun Until(double minute)
    {
        while (Alarm.DueAt(rule) is { } due && due <= At(minute))
        {
            Become((due - Start).TotalMinutes, Alarm.Judge(due, rule));
        }

        return this;
    }

    private void Become(double minute, Alarm after)
    {
        if (after.IsTold != Alarm.IsTold)
        {
            (after.IsTold ? Raised : Cleared).Add(minute);
        }

        Alarm = after;
    }

    private static DateTimeOffset At(double minute) => Start + TimeSpan.FromMinutes(minute);
}
