using System.Collections.Immutable;
using CureWatch.Bays;
using CureWatch.Curing;
using CureWatch.Handover;
using CureWatch.Panels;
using CureWatch.Products;
using CureWatch.Readings;
using CureWatch.Units;

namespace CureWatch.Tests.Bays;

/// <summary>A shop that is open from eight to six, with one bay, what equipment it has, and one car that was promised.</summary>
internal sealed class PromisedCar
{
    public static readonly DateTimeOffset Start = new(2026, 5, 4, 8, 0, 0, TimeSpan.Zero);

    public PromisedCar(double? promisedHour, IEnumerable<Equipment>? equipment = null, ProductSheet? sheet = null,
        int layers = 1, Material material = Material.Steel, IReadOnlyList<string>? surfaces = null, bool outdoors = false, bool panel = false)
    {
        sheet ??= TestShop.Paint();
        var bay = new BayPlan("bay-1", 1013.25, "hall", [.. equipment ?? []], [
            new ProbeMount(TestShop.Air("air-1") with { Every = TimeSpan.FromMinutes(10) }, null, Place.Outside),
            .. outdoors ? [new ProbeMount(TestShop.Air("yard") with { Every = TimeSpan.FromMinutes(10), Measures = Measures.Outdoor }, null, Place.Outside)] : Array.Empty<ProbeMount>(),
            .. panel
                ? [new ProbeMount(TestShop.Air("panel-1") with { Every = TimeSpan.FromMinutes(10), Measures = Measures.Panel }, null, Place.Outside)]
                : Array.Empty<ProbeMount>(),
        ]);
        var open = Enum.GetValues<DayOfWeek>().ToImmutableDictionary(d => d, _ => ImmutableArray.Create(new OpenStretch(TimeSpan.FromHours(8), TimeSpan.FromHours(18))));
        var plan = new ShopPlan("test-shop", new OpeningHours(TimeZoneInfo.Utc, open), TimeSpan.FromMinutes(75), [bay]);
        Shop = Shop.Opening(plan, [sheet], Start);
        ImmutableArray<Surface> cars =
            [.. (surfaces ?? ["bonnet"]).Select(s => new Surface(s, material, null, Place.Outside, sheet.Product, sheet.Revision, layers, 1))];
        Take(new Message.JobStarted(new Job("job-1", "bay-1", null, promisedHour is { } hour ? At(hour) : null, cars), Start));
    }

    public Shop Shop { get; private set; }

    public List<ShopEvent> Happened { get; } = [];

    public PromiseReport Promise => PromiseReport.Of(Shop, "job-1");

    public static DateTimeOffset At(double hours) => Start + TimeSpan.FromHours(hours);

    /// <summary>The rows a good sheet has: warmth by E 50 kJ/mol, moisture by m 0.6, keep-dry 12 h at 20 °C and 50 %.</summary>
    public static ProductSheet Rows(double keepDryHours = 12, ImmutableArray<LampBand>? lamp = null)
    {
        ProductSheet one = TestShop.Paint();
        return one with
        {
            Lamp = lamp ?? [],
            Stages =
            [
                .. one.Stages.Select(s => s.DrivenBy != Mechanism.Cure ? s : s with
                {
                    Rows = [.. new[] { (10.0, 50.0), (15, 50), (20, 50), (25, 50), (30, 50), (20, 30), (20, 70) }.Select(c => Row(s, keepDryHours, c.Item1, c.Item2))],
                }),
            ],
        };
    }

    public PromisedCar Read(double hour, double airC, double humidityPct, string probe = "air-1")
    {
        Take(new Message.ReadingCame(new RawReading("bay-1", probe, At(hour), At(hour), airC, humidityPct, null)));
        return this;
    }

    /// <summary>The panel, where it has a probe.</summary>
    public PromisedCar ReadPanel(double hour, double panelC)
    {
        Take(new Message.ReadingCame(new RawReading("bay-1", "panel-1", At(hour), At(hour), null, null, panelC)));
        return this;
    }

    /// <summary>A reading every five minutes.</summary>
    public PromisedCar Steady(double fromHour, double toHour, double airC = 20, double humidityPct = 50)
    {
        for (int i = 0; i <= Math.Round((toHour - fromHour) * 12); i++)
        {
            Read(fromHour + (i / 12.0), airC, humidityPct);
        }

        return this;
    }

    public PromisedCar Tap(double hour, Did did, string? surface = null, double? promisedHour = null, Found? found = null, int? layer = null)
    {
        Take(new Message.Tapped("job-1", new Tap(
            $"tap-{Happened.Count}", At(hour), At(hour), surface, did, layer, Found: found, PromisedAt: promisedHour is { } h ? At(h) : null)));
        return this;
    }

    public PromisedCar Coated(double hour) => Tap(hour - 0.05, Did.Applied).Tap(hour, Did.Levelled);

    public PromisedCar Take(Message message)
    {
        (Shop, ImmutableArray<ShopEvent> happened) = ShopFold.Take(Shop, message);
        Happened.AddRange(happened);
        return this;
    }

    private static SheetRow Row(SheetStage stage, double keepDryHours, double celsius, double percent)
    {
        double reference = stage.Stage == Stage.KeepDry ? keepDryHours : stage.Rows[0].From.TotalHours;
        double rate = Math.Exp(50_000 / 8.314462618 * ((1 / 293.15) - (1 / (celsius + 273.15)))) * Math.Pow(percent / 50, 0.6);
        return new SheetRow(new Celsius(celsius), new RelativeHumidity(percent), TimeSpan.FromHours(reference / rate), TimeSpan.FromHours(reference / rate));
    }
}
