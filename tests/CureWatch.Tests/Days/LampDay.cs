using System.Collections.Immutable;
using CureWatch.Bays;
using CureWatch.Curing;
using CureWatch.Handover;
using CureWatch.Panels;
using CureWatch.Products;
using CureWatch.Readings;
using CureWatch.Tests.Bays;
using CureWatch.TimeWindows;
using CureWatch.Warnings;

namespace CureWatch.Tests.Days;

/// <summary>
/// A day of a car of several surfaces at the sheet's own climate, coated at 09:00 and levelled at 09:04, with a lamp over some of them; each has a
/// probe of its own that bears its name, but for the roof and the door.
/// </summary>
internal sealed class LampDay
{
    public static readonly LampBand Band = new(55, 65, 0.2, TimeSpan.FromHours(1), 20, [Stage.KeepDry, Stage.NoWash, Stage.FullCure]);

    private readonly ImmutableArray<ProbeMount> _panels;
    private readonly List<ShopEvent> _happened = [];
    private Shop _shop;

    private LampDay(ProbeMount[] more, params LampBand[] bands)
    {
        _panels =
        [
            new ProbeMount(TestShop.Panel("bonnet"), Material.Steel, Place.Outside),
            new ProbeMount(TestShop.Panel("wing"), Material.Film, Place.Outside),
            .. more,
        ];
        var open = Enum.GetValues<DayOfWeek>().ToImmutableDictionary(d => d, _ => ImmutableArray.Create(new OpenStretch(TimeSpan.FromHours(8), TimeSpan.FromHours(18))));
        ProductSheet sheet = TestShop.Paint() with { Lamp = [.. bands] };
        var bay = new BayPlan(
            "bay-1", 1013.25, "hall", [Equipment.Lamp],
            [
                new ProbeMount(TestShop.Air("air-1"), null, Place.Outside),
                .. _panels,
            ]);
        _shop = Shop.Opening(new ShopPlan("test-shop", new OpeningHours(TimeZoneInfo.Utc, open), TimeSpan.FromMinutes(75), [bay]), [sheet], TestShop.Start);
        Surface[] surfaces =
        [
            On("bonnet", Material.Steel), On("roof", Material.Steel), On("door", Material.Aluminium), On("wing", Material.Film) with { Over = Material.Steel },
        ];
        Take(new Message.JobStarted(new Job("job-1", "bay-1", null, null, [.. surfaces]), TestShop.Start));

        Surface On(string id, Material material) => new(id, material, null, Place.Outside, sheet.Product, sheet.Revision, 1, 1);
    }

    public JobReport Report => JobReport.Of(_shop, "job-1");

    public Shop Shop => _shop;

    public IReadOnlyList<ShopEvent> Happened => _happened;

    public IEnumerable<Warning> Warnings(WarningKind kind) => _shop.Warnings.Values.Where(w => w.Subject.Kind == kind);

    public CoatReport Coat(string surface) => Report.Surfaces.Single(s => s.Surface.Id == surface).Coats.Single();

    public Window Window(string surface, WindowStage stage) => Coat(surface).Windows.Single(w => w.Stage == stage);

    /// <summary>The day by the minute.</summary>
    /// <param name="untilMinute">How long it is, from 08:00.</param>
    /// <param name="panelC">What a surface's own probe reads at a minute; NaN where it says nothing.</param>
    /// <param name="lamps">When a lamp goes on and off over which surface; null for all of them.</param>
    /// <param name="perMinute">How often its own probes are read.</param>
    /// <param name="more">Panel probes beside those two.</param>
    public static LampDay Lived(
        int untilMinute, Func<string, double, double> panelC, (string? Surface, double On, double Off)[] lamps, int perMinute = 1, params ProbeMount[] more)
    {
        LampDay day = new(more, Band);
        var taps = lamps
            .SelectMany(l => new[] { (At: l.On, l.Surface, Did: Did.LampOn), (At: l.Off, l.Surface, Did: Did.LampOff) })
            .Append((At: 60, Surface: null, Did: Did.Applied)).Append((At: 64, Surface: null, Did: Did.Levelled))
            .Where(t => t.At <= untilMinute).OrderBy(t => t.At).ToList();
        for (int minute = 0; minute <= untilMinute; minute++)
        {
            foreach ((double at, string? surface, Did did) in taps.Where(t => t.At > minute - 1 && t.At <= minute))
            {
                day.Take(new Message.Tapped("job-1", new Tap($"{did}-{surface}-{at}", At(at), At(at), surface, did)));
            }

            day.Read(minute, "air-1", 20, 50, null);
            foreach ((string probe, int part) in day._panels.Select(m => m.Probe.Id).SelectMany(p => Enumerable.Range(0, perMinute), (p, i) => (p, i)).OrderBy(r => r.i))
            {
                double at = minute + ((double)part / perMinute);
                if (panelC(probe, at) is var read && !double.IsNaN(read))
                {
                    day.Read(at, probe, null, null, read);
                }
            }
        }

        return day;
    }

    /// <summary>A surface under a lamp: up to its final temperature, then back to the air.</summary>
    public static double Heated(double minute, double on, double off, double finalC, double tau = 6, double airC = 20)
    {
        double highest = finalC - ((finalC - airC) * Math.Exp(-Math.Max(0, Math.Min(minute, off) - on) / tau));
        return minute <= off ? highest : airC + ((highest - airC) * Math.Exp(-(minute - off) / tau));
    }

    public static DateTimeOffset At(double minute) => TestShop.At(minute / 60);

    public LampDay Take(Message message)
    {
        (_shop, ImmutableArray<ShopEvent> happened) = ShopFold.Take(_shop, message);
        _happened.AddRange(happened);
        return this;
    }

    /// <summary>A reading of the air.</summary>
    public LampDay Air(double minute)
    {
        Read(minute, "air-1", 20, 50, null);
        return this;
    }

    private void Read(double minute, string probe, double? airC, double? humidityPct, double? panelC) =>
        Take(new Message.ReadingCame(new RawReading("bay-1", probe, At(minute), At(minute), airC, humidityPct, panelC)));
}
