using System.Collections.Immutable;
using CureWatch.Bays;
using CureWatch.Curing;
using CureWatch.Handover;
using CureWatch.Panels;
using CureWatch.Products;
using CureWatch.Psychrometrics;
using CureWatch.Readings;
using CureWatch.Tests.Bays;
using CureWatch.TimeWindows;
using CureWatch.Units;

namespace CureWatch.Tests.Days;

/// <summary>
/// A coat in a bay that obeys the limits of science (4 K/h, and 3 K/h for its dew point), and the same with a fault: what is said of it from minute to
/// minute while the fault lasts, beside what would have been said.
/// </summary>
/// <param name="Seed">How the bay drifts.</param>
/// <param name="KeepDryHours">What the sheet asks for [h].</param>
/// <param name="Probes">Which probes there are.</param>
/// <param name="Fault">What goes wrong.</param>
/// <param name="From">When it does, after the coat [h].</param>
/// <param name="Length">For how long [h].</param>
/// <param name="DaysBefore">For how long the bay was measured before [d].</param>
internal sealed record FaultInTime(int Seed, double KeepDryHours, FaultInTime.Set Probes, FaultInTime.Kind Fault, double From, double Length, int DaysBefore)
{
    /// <summary>How far a bay that can be forecast goes of what it may [1]: one that goes anywhere every hour has no forecast worth the name.</summary>
    private const double CalmShare = 0.3;

    private const int CoatedMinute = 60, LevelledMinute = 63;

    public enum Set
    {
        Air,
        AirAndPanel,
        Twins,
    }

    public enum Kind
    {
        AllSilent,
        AirSilent,
        PanelSilent,
        HumidityStuck,
        TemperatureStuck,
        AirStuck,
        PanelStuck,
        PanelSilentThenAirStuck,
        PanelSilentThenAllSilent,
    }

    /// <summary>What was said at an instant.</summary>
    /// <param name="At">The instant.</param>
    /// <param name="Sound">What would have been said without the fault.</param>
    /// <param name="Faulty">What was.</param>
    /// <param name="IsKnown">Whether the fault was known by then.</param>
    /// <param name="Lasted">For how long the last part of the fault had lasted.</param>
    public sealed record Said(DateTimeOffset At, ImmutableArray<Window> Sound, ImmutableArray<Window> Faulty, bool IsKnown, TimeSpan Lasted);

    /// <summary>How far apart what was said is looked at [min].</summary>
    public int EveryMinutes { get; init; } = 7;

    public IEnumerable<Said> Live()
    {
        var drift = new Drift(Seed, (DaysBefore * 24) + 40, DaysBefore == 0 ? 1 : CalmShare);
        Shop sound = Opened(), faulty = sound;
        int coated = (DaysBefore * 24 * 60) + CoatedMinute, first = coated + (int)(From * 60), last = first + (int)(Length * 60);
        var stuck = new Dictionary<string, (double C, double Pct)>();
        for (int minute = 0; minute <= last; minute += minute < coated - 120 ? 10 : 1)
        {
            DateTimeOffset at = TestShop.Start.AddMinutes(minute);
            Message? tap = minute == coated ? Tapped("a", at, Did.Applied) : minute == coated + LevelledMinute - CoatedMinute ? Tapped("l", at, Did.Levelled) : null;
            foreach (string probe in ProbeIds)
            {
                (double c, double pct) = drift.At(minute / 60.0, probe);
                sound = Take(sound, Read(probe, at, c, pct));
                if (minute < first)
                {
                    stuck[probe] = (c, pct);
                }
                else if (!IsSilent(probe, minute))
                {
                    (double C, double Pct) held = stuck[probe];
                    faulty = Take(faulty, Read(probe, at, IsStuck(probe, minute, Quantity.Temperature) ? held.C : c, IsStuck(probe, minute, Quantity.Humidity) ? held.Pct : pct));
                    stuck[probe] = IsStuck(probe, minute, Quantity.Temperature) || IsStuck(probe, minute, Quantity.Humidity) ? held : (c, pct);
                }
            }

            sound = tap is null ? sound : Take(sound, tap);
            faulty = minute < first ? sound : tap is null ? faulty : Take(faulty, tap);
            if (minute > first && (minute - first) % EveryMinutes == 0)
            {
                faulty = Take(faulty, new Message.ClockReached(at));
                yield return new Said(at, Windows(sound), Windows(faulty), IsKnown(faulty), TimeSpan.FromMinutes(minute - (Fault == Kind.PanelSilentThenAllSilent && minute > (first + last) / 2 ? (first + last) / 2 : first)));
            }
        }

        bool IsSilent(string probe, int minute) => probe.StartsWith("air", StringComparison.Ordinal)
            ? Fault is Kind.AllSilent or Kind.AirSilent || (Fault == Kind.PanelSilentThenAllSilent && minute > (first + last) / 2)
            : Fault is Kind.AllSilent or Kind.PanelSilent or Kind.PanelSilentThenAirStuck or Kind.PanelSilentThenAllSilent;

        bool IsStuck(string probe, int minute, Quantity what) => probe switch
        {
            "air-1" => Fault == Kind.AirStuck || (Fault == Kind.PanelSilentThenAirStuck && minute > first + 40)
                || Fault == (what == Quantity.Temperature ? Kind.TemperatureStuck : Kind.HumidityStuck),
            "panel-1" => Fault == Kind.PanelStuck,
            _ => false,
        };
    }

    private string[] ProbeIds => Probes switch
    {
        Set.Air => ["air-1"],
        Set.AirAndPanel => ["air-1", "panel-1"],
        _ => ["air-1", "air-2", "panel-1"],
    };

    /// <summary>A probe that repeats itself may be right for a while: before it is told, nobody can reckon with it.</summary>
    private bool IsKnown(Shop shop)
    {
        bool isStuck = Fault is Kind.HumidityStuck or Kind.TemperatureStuck or Kind.AirStuck or Kind.PanelStuck or Kind.PanelSilentThenAirStuck;
        Quantity[] wanted = Fault switch
        {
            Kind.HumidityStuck => [Quantity.Humidity],
            Kind.TemperatureStuck or Kind.PanelStuck => [Quantity.Temperature],
            _ => [Quantity.Humidity, Quantity.Temperature],
        };
        int probe = Fault == Kind.PanelStuck ? ProbeIds.Length - 1 : 0;
        ProbeLog log = shop.Bays["bay-1"].Logs[probe];
        return !isStuck || wanted.All(w => log.Standing.Open(w) is not null);
    }

    private static Shop Take(Shop shop, Message message) => ShopFold.Take(shop, message).Shop;

    private static ImmutableArray<Window> Windows(Shop shop) => JobReport.Of(shop, "job-1").Surfaces[0].Coats is [var coat, ..] ? coat.Windows : [];

    private static Message.ReadingCame Read(string probe, DateTimeOffset at, double c, double pct) => new(
        probe == "panel-1" ? new RawReading("bay-1", probe, at, at, null, null, c) : new RawReading("bay-1", probe, at, at, c, pct, null));

    private static Message.Tapped Tapped(string id, DateTimeOffset at, Did did) => new("job-1", new Tap(id, at, at, "bonnet", did));

    private Shop Opened()
    {
        ProductSheet paint = TestShop.Paint();
        double scale = KeepDryHours / 12;
        ProductSheet sheet = paint with
        {
            Stages = [.. paint.Stages.Select(s => s.DrivenBy == Mechanism.Evaporation ? s : s with { Rows = [.. s.Rows.Select(r => r with { From = r.From * scale, To = r.To * scale })] })],
        };
        ImmutableArray<ProbeMount> mounts = [.. ProbeIds.Select(p => new ProbeMount(p == "panel-1" ? TestShop.Panel(p) : TestShop.Air(p), null, Place.Outside))];
        var plan = new ShopPlan("test-shop", OpeningHours.Always(TimeZoneInfo.Utc), TimeSpan.FromMinutes(75), [new BayPlan("bay-1", 1013.25, "hall", [], mounts)]);
        var surface = new Surface("bonnet", Material.Steel, null, Place.Outside, "paint", 1, 1, 1);
        return Take(Shop.Opening(plan, [sheet], TestShop.Start), new Message.JobStarted(new Job("job-1", "bay-1", null, null, [surface]), TestShop.Start));
    }

    /// <summary>From hour to hour anywhere within its limits, by a probe with some noise of its own.</summary>
    private sealed class Drift
    {
        private readonly (double C, double DewC)[] _hours;

        public Drift(int seed, int hours, double share)
        {
            var random = new Random(seed);
            double meanC = 12 + (14 * random.NextDouble()), drynessK = 5 + (9 * random.NextDouble());
            _hours = new (double, double)[hours];
            _hours[0] = (meanC, meanC - drynessK);
            double day = share < 1 ? 2 : 0;
            for (int i = 1; i < hours; i++)
            {
                double c = _hours[i - 1].C + (day * Math.Sin(i / 24.0 * 2 * Math.PI) * 2 * Math.PI / 24) + Step(3.9) + (0.15 * (meanC - _hours[i - 1].C));
                double dewC = _hours[i - 1].DewC + Step(2.9) + (0.15 * (meanC - drynessK - _hours[i - 1].DewC));
                c = Math.Clamp(c, _hours[i - 1].C - 3.9, _hours[i - 1].C + 3.9);
                dewC = Math.Clamp(Math.Min(dewC, c - 1), _hours[i - 1].DewC - 2.9, _hours[i - 1].DewC + 2.9);
                _hours[i] = (c, dewC);
            }

            double Step(double most) => random.Next(4) == 0 ? 0 : share * most * ((2 * random.NextDouble()) - 1);
        }

        public (double C, double Pct) At(double hour, string probe)
        {
            int i = (int)hour;
            double share = hour - i, c = Mix(_hours[i].C, _hours[i + 1].C), dew = Mix(_hours[i].DewC, _hours[i + 1].DewC);
            double pct = 100 * SaturationPressure.OverWaterPa(new Celsius(dew).Kelvins) / SaturationPressure.OverWaterPa(new Celsius(c).Kelvins);
            double off = probe switch { "panel-1" => -0.5, "air-2" => 0.1, _ => 0 };
            return (Math.Round(c + off + (0.03 * Math.Sin(89 * hour)), 2), Math.Round(Math.Clamp(pct + (0.1 * Math.Sin(113 * hour)), 1, 99.9), 2));

            double Mix(double a, double b) => a + ((b - a) * share);
        }
    }
}
