namespace CureWatch.Service.Demo;

/// <summary>What people do to the hall in the demo, by the time since its start at 07:00. Source (choice): every number.</summary>
internal static class HallPlan
{
    /// <summary>When the cold car rolls into bay 1.</summary>
    public static readonly TimeSpan CarArrives = At(7, 48);

    /// <summary>How warm a car is that spent the night outside [°C].</summary>
    public const double ParkedCarC = 3;

    private static readonly (TimeSpan From, TimeSpan To, double SetC)[] Heating =
    [
        (At(7, 0), At(18, 0), 20.5),
        (At(18, 0), At(22, 50), 6), // the timer's night setting, though a coat is curing
        (At(22, 50), At(33, 0), 21), // switched back on by whoever was called
    ];

    private static readonly (int Bay, TimeSpan From, TimeSpan To, double AirChangesPerHour)[] Doors =
    [
        (2, At(7, 3), At(7, 7), 12), // the blue hatch comes in
        (1, At(7, 46), At(7, 51), 12),
        (2, At(13, 20), At(13, 24), 12), // and leaves
        (2, At(16, 30), At(16, 34), 12), // a van comes in to be washed
        (2, At(18, 15), At(19, 15), 2), // half open, to air the damp out
        (2, At(19, 15), At(22, 50), 0.5), // not quite shut again, and forgotten
    ];

    private static readonly (int Bay, TimeSpan From, TimeSpan To, double PascalsPerHour)[] Moisture =
    [
        (1, TimeSpan.Zero, TimeSpan.MaxValue, 40), // the floor drain
        (2, TimeSpan.Zero, TimeSpan.MaxValue, 40),
        (1, TimeSpan.Zero, At(18, 30), 60), // people, and a floor they keep damp
        (2, TimeSpan.Zero, At(18, 30), 60),
        (1, At(7, 51), At(8, 40), 650), // a wet car dries off
        (1, At(8, 5), At(8, 20), 1000), // and is washed
        (2, At(16, 40), At(18, 10), 1350), // pressure washer next door
    ];

    public static double SetC(TimeSpan at)
    {
        foreach ((TimeSpan from, TimeSpan to, double setC) in Heating)
        {
            if (at >= from && at < to)
            {
                return setC;
            }
        }

        return 20.5;
    }

    public static double AirChangesPerHour(int bay, TimeSpan at) =>
        Doors.Where(d => d.Bay == bay && at >= d.From && at < d.To).Sum(d => d.AirChangesPerHour);

    public static double PascalsPerHour(int bay, TimeSpan at) =>
        Moisture.Where(m => m.Bay == bay && at >= m.From && at < m.To).Sum(m => m.PascalsPerHour);

    /// <summary>Since the start of the day, from a time on the wall; hours past 24 are the next morning's.</summary>
    private static TimeSpan At(int hour, int minute) => new(hour - 7, minute, 0);
}
