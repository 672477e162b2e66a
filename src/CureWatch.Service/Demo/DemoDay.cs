namespace CureWatch.Service.Demo;

/// <summary>
/// A day at Ottermoss Works, invented: the same acts in every run. A blue hatch gets its trim dressed in bay 2. A grey estate rolls cold
/// into bay 1, is coated on five surfaces, loses its climate to a wash next door, an ajar door and a night setting, and is ready next
/// morning.
/// </summary>
internal sealed class DemoDay(string folder)
{
    /// <summary>What the shop's topics begin with.</summary>
    public const string Root = "curewatch/v1/ottermoss-works";

    public const string MainJob = "grey-estate";
    public const string SecondJob = "blue-hatch";
    public const string MainBay = "bay-1";

    /// <summary>A Monday at 07:00 in the shop's own time.</summary>
    public static readonly DateTimeOffset Start = new(2026, 3, 2, 7, 0, 0, TimeSpan.Zero);

    /// <summary>After that nothing happens but the climate, with the grey estate there to be handed over.</summary>
    public static readonly DateTimeOffset StoryEnds = Start.AddHours(26);

    /// <summary>When each car is booked in. The grey estate is the newer job, the one a replay without a name takes.</summary>
    private static readonly (string Job, TimeSpan At)[] Bookings =
        [(SecondJob, new TimeSpan(0, 8, 30)), (MainJob, new TimeSpan(0, 52, 30))];

    private static readonly TimeSpan SecondCarLeaves = new(6, 20, 0);

    /// <summary>While a battery contact is loose the bonnet's probe says nothing.</summary>
    private static readonly (string Probe, TimeSpan From, TimeSpan To) Loose =
        ("bonnet", new TimeSpan(18, 40, 0), new TimeSpan(19, 25, 0));

    /// <summary>The folder that ships beside the program: the shop, its sheets and the cars.</summary>
    public static string ShippedFolder => Path.Combine(AppContext.BaseDirectory, "config", "demo");

    /// <summary>Everything that happens without being asked for, in order of time and without an end: the shop outlives the story.</summary>
    public IEnumerable<DemoAct> Acts()
    {
        var people = new Queue<DemoAct>(People().OrderBy(a => a.At));
        foreach (DemoAct.Published reading in Readings())
        {
            while (people.TryPeek(out DemoAct? act) && act.At <= reading.At)
            {
                yield return people.Dequeue();
            }

            yield return reading;
        }
    }

    private IEnumerable<DemoAct> People()
    {
        foreach ((string job, TimeSpan at) in Bookings)
        {
            var car = DemoCar.Read(Path.Combine(folder, $"{job}.json"), Start + at);
            yield return car.Booking;
            foreach (DemoAct.Tapped tap in car.Taps)
            {
                yield return tap;
            }
        }

        yield return new DemoAct.HandedOver(Start + SecondCarLeaves, SecondJob, "Alex");
    }

    private static IEnumerable<DemoAct.Published> Readings()
    {
        var hall = new Hall();
        int[] numbers = new int[DemoProbe.All.Count];
        while (true)
        {
            int next = Enumerable.Range(0, numbers.Length).MinBy(i => TimeOf(i, numbers[i]));
            DemoProbe probe = DemoProbe.All[next];
            int number = numbers[next]++;
            TimeSpan at = TimeOf(next, number);
            DemoSample sample = probe.SampleOf(hall.At(at), number);
            if (probe.Id != Loose.Probe || at < Loose.From || at >= Loose.To)
            {
                yield return new DemoAct.Published(Start + at, probe, sample);
            }
        }
    }

    private static TimeSpan TimeOf(int probe, int number) => DemoProbe.All[probe].First + (number * DemoProbe.All[probe].Every);
}
