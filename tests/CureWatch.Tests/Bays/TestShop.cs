using System.Collections.Immutable;
using CureWatch.Bays;
using CureWatch.Curing;
using CureWatch.Handover;
using CureWatch.Panels;
using CureWatch.Planning;
using CureWatch.Products;
using CureWatch.Readings;
using CureWatch.TimeWindows;
using CureWatch.Units;
using CureWatch.Warnings;

namespace CureWatch.Tests.Bays;

/// <summary>A shop with one car, for days told in a test: climate by the minute, taps, and what comes of them.</summary>
internal sealed class TestShop
{
    public static readonly DateTimeOffset Start = new(2026, 5, 4, 8, 0, 0, TimeSpan.Zero);

    private Shop _shop;
    private int _taps;

    public TestShop(ProductSheet? sheet = null, int layers = 1, int sections = 1, Place place = Place.Outside, ProductSheet? over = null, params Probe[] probes)
    {
        sheet ??= Paint();
        Probe[] mounted = probes.Length > 0 ? probes : [Air("air-1")];
        ImmutableArray<BayPlan> bays =
        [
            .. new[] { "bay-1", "bay-2" }.Select(b => new BayPlan(
                b, 1013.25, b, [], [.. mounted.Select(p => new ProbeMount(p, null, Place.Outside))])),
        ];
        var open = Enum.GetValues<DayOfWeek>().ToImmutableDictionary(d => d, _ => ImmutableArray.Create(new OpenStretch(TimeSpan.FromHours(8), TimeSpan.FromHours(18))));
        var plan = new ShopPlan("test-shop", new OpeningHours(TimeZoneInfo.Utc, open), TimeSpan.FromMinutes(75), bays)
        {
            Habits = WorkHabits.Usual with { ColdestArrivalC = 40 }, // its cars stand in the sun: none comes in colder than its bays
        };
        _shop = Shop.Opening(plan, over is null ? [sheet] : [sheet, over], Start);
        var surface = new Surface("bonnet", Material.Steel, null, place, sheet.Product, sheet.Revision, layers, sections);
        surface = over is null ? surface : surface.With([new(sheet.Product, sheet.Revision, layers), new(over.Product, over.Revision, 1)]);
        Take(new Message.JobStarted(new Job("job-1", "bay-1", null, null, [surface]), Start));
    }

    public List<ShopEvent> Happened { get; } = [];

    public Shop Shop => _shop;

    public JobReport Report => JobReport.Of(_shop, "job-1");

    public ImmutableArray<Hold> Holds => Report.Ruling.Holds;

    public IEnumerable<HoldKind> HoldKinds => Holds.Select(h => h.Kind);

    public static Probe Air(string id) => new(id, Measures.Air, 0, 0, 0.3, 2, TimeSpan.FromMinutes(1));

    public static Probe Panel(string id) => new(id, Measures.Panel, 0, 0, 0.5, 2, TimeSpan.FromMinutes(1));

    public static ProductSheet Paint(
        Carrier carrier = Carrier.Solvent, IfMissed ifMissed = IfMissed.Hold, AfterWetting afterWetting = AfterWetting.Restart, double? heatMaxC = 70)
    {
        var stages = ImmutableArray.Create(
            Row(Stage.Flash, Mechanism.Evaporation, 1 / 60.0, 3 / 60.0),
            Row(Stage.LevelBy, Mechanism.Evaporation, 8 / 60.0) with { IfMissed = ifMissed },
            Row(Stage.RecoatFrom, Mechanism.Cure, 1),
            Row(Stage.RecoatBy, Mechanism.Cure, 6),
            Row(Stage.KeepDry, Mechanism.Cure, 12),
            Row(Stage.NoWash, Mechanism.Cure, 120),
            Row(Stage.FullCure, Mechanism.Cure, 168));
        var limits = new SheetLimits(10, 30, 30, 75, 3, heatMaxC);
        return new ProductSheet(
            "paint", 1, ProductKind.Paint, carrier, "paint", "invented for a test", ReferenceClimate.Usual, limits, stages, [], afterWetting, []);
    }

    public static SheetStage Row(Stage stage, Mechanism clock, double fromHours, double? toHours = null) => new(
        stage,
        clock,
        [new SheetRow(new Celsius(20), new RelativeHumidity(50), TimeSpan.FromHours(fromHours), TimeSpan.FromHours(toHours ?? fromHours))]);

    public static DateTimeOffset At(double hours) => Start + TimeSpan.FromHours(hours);

    public TestShop Read(double hour, double airC, double humidityPct, string probe = "air-1", string bay = "bay-1", double? panelC = null)
    {
        Take(new Message.ReadingCame(new RawReading(bay, probe, At(hour), At(hour), airC, humidityPct, panelC)));
        return this;
    }

    public TestShop ReadPanel(double hour, double panelC, string probe = "panel-1")
    {
        Take(new Message.ReadingCame(new RawReading("bay-1", probe, At(hour), At(hour), null, null, panelC)));
        return this;
    }

    /// <summary>A reading a minute, from one hour to another.</summary>
    public TestShop Climate(double fromHour, double toHour, Func<double, (double C, double Pct)> at, string bay = "bay-1")
    {
        for (int minute = (int)Math.Round(fromHour * 60); minute <= Math.Round(toHour * 60); minute++)
        {
            (double c, double pct) = at(minute / 60.0);
            Read(minute / 60.0, c, pct, bay: bay);
        }

        return this;
    }

    public TestShop Steady(double fromHour, double toHour, double airC = 20, double humidityPct = 50) =>
        Climate(fromHour, toHour, _ => (airC, humidityPct));

    public TestShop Tap(
        double hour, Did did, int? layer = null, int? section = null, double? startedHour = null, double? reportedHour = null,
        Found? found = null, How? how = null, string? toBay = null, string? corrects = null, string? id = null, double? panelC = null)
    {
        var tap = new Tap(
            id ?? $"tap-{_taps++}", At(hour), At(reportedHour ?? hour), "bonnet", did, layer, section, startedHour is { } s ? At(s) : null,
            panelC, found, how, toBay, null, null, corrects);
        Take(new Message.Tapped("job-1", tap));
        return this;
    }

    public TestShop Until(double hour)
    {
        Take(new Message.ClockReached(At(hour)));
        return this;
    }

    public Window Window(WindowStage stage, int layer = 1) =>
        Report.Surfaces[0].Coats.First(c => c.Coat.Layer == layer).Windows.First(w => w.Stage == stage);

    public IEnumerable<Warning> Warnings(WarningKind kind) => _shop.Warnings.Values.Where(w => w.Subject.Kind == kind);

    public TestShop Take(Message message)
    {
        (_shop, ImmutableArray<ShopEvent> happened) = ShopFold.Take(_shop, message);
        Happened.AddRange(happened);
        return this;
    }
}
