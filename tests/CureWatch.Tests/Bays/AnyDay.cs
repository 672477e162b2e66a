using System.Collections.Immutable;
using CsCheck;
using CureWatch.Bays;
using CureWatch.Curing;
using CureWatch.Handover;
using CureWatch.Panels;
using CureWatch.Planning;
using CureWatch.Products;
using CureWatch.Readings;

namespace CureWatch.Tests.Bays;

/// <summary>
/// Days on which anything is told: readings in any order and of any kind, taps of every kind, corrections, names that nobody knows. A
/// shorter day of the same seed is the beginning of the longer one, so a failure shrinks to the message that brings it about.
/// </summary>
internal sealed class AnyDay(int seed)
{
    public static readonly Gen<(int Seed, int Length)> Days = Gen.Select(Gen.Int[0, 1_000_000], Gen.Int[1, 50]);

    private static readonly double?[] AirC = [20, 18, 22, 12, 31, null, double.NaN, -300, 1e9], Pct = [50, 60, 85, 100, 22, 5, 0.2, null, 0, 140];
    private static readonly double?[] PanelC = [null, 20, 17, 8, 75, 95, double.NaN, -300, 1e9];
    private static readonly string?[] Surfaces = [null, "bonnet", "seat", "film", "roof", "nowhere"], Ids = [null, null, "a", "b", "c", "d"];
    private static readonly string?[] Places = [null, "bay-1", "bay-2", "store", "outside", "nowhere"];
    private static readonly string[] Jobs = ["job-1", "job-1", "job-2", "job-9"], Bays = ["bay-1", "bay-1", "bay-1", "bay-2", "bay-9"];
    private static readonly string[] Probes = ["air-1", "air-1", "panel-1", "panel-1", "air-2", "cabin-1", "out-1", "nobody"];
    private static readonly Did[] Acts = [Did.Applied, Did.Applied, Did.Levelled, Did.Levelled, .. Enum.GetValues<Did>()];

    private readonly Random _random = new(seed);
    private DateTimeOffset _now = TestShop.Start;

    public static Shop Opening()
    {
        ImmutableArray<OpenStretch> day = [new OpenStretch(TimeSpan.FromHours(8), TimeSpan.FromHours(18))];
        var hours = new OpeningHours(TimeZoneInfo.Utc, Enum.GetValues<DayOfWeek>().ToImmutableDictionary(d => d, _ => day));
        ImmutableArray<ProbeMount> mounts =
        [
            Mount(TestShop.Air("air-1")),
            Mount(TestShop.Air("air-2") with { Every = TimeSpan.FromMinutes(5) }),
            Mount(TestShop.Panel("panel-1"), Material.Steel),
            Mount(TestShop.Air("out-1") with { Measures = Measures.Outdoor }),
            Mount(TestShop.Air("cabin-1"), place: Place.Cabin),
        ];
        var plan = new ShopPlan(
            "test-shop", hours, TimeSpan.FromMinutes(75), [new BayPlan("bay-1", 1013, "a", [], mounts), new BayPlan("bay-2", 1013, "a", [], mounts[..1])]);
        ProductSheet dressing = TestShop.Paint(Carrier.Water, IfMissed.Note, AfterWetting.Continue, heatMaxC: null) with { Product = "dressing" };
        return Shop.Opening(plan, [TestShop.Paint(), dressing], TestShop.Start);
    }

    public static Shop Fold(Shop shop, IEnumerable<Message> messages) => messages.Aggregate(shop, (s, m) => ShopFold.Take(s, m).Shop);

    public ImmutableArray<Message> Messages(int length) =>
    [
        new Message.JobStarted(Job("job-1", "bay-1", On("bonnet", "paint", layers: 2, sections: 2), On("seat", "dressing", Material.Fabric, Place.Cabin), On("film", "dressing", Material.Film)), TestShop.Start),
        new Message.JobStarted(Job("job-2", "bay-2", On("roof", "paint", Material.Glass)), TestShop.Start),
        new Message.WorkPlanned(
            new PlannedWork("sand", "bay-2", HarmfulWork.Sanding, TestShop.At(0.4), TestShop.At(3), null, null), TestShop.Start),
        .. Enumerable.Range(0, length).Select(_ => Next()),
    ];

    private Message Next()
    {
        _now += TimeSpan.FromSeconds(_random.Next(10) switch { 0 => _random.Next(7200), < 4 => _random.Next(900), _ => _random.Next(90) });
        DateTimeOffset at = _random.Next(15) == 0 ? _now - TimeSpan.FromMinutes(_random.Next(60)) : _now;
        return _random.Next(12) switch
        {
            0 => new Message.ClockReached(at),
            1 => new Message.JobStarted(Job(Of(Jobs), Of(Bays)), at),
            < 6 => new Message.Tapped(Of(Jobs), Tap(at)),
            _ => new Message.ReadingCame(Reading(at)),
        };
    }

    private RawReading Reading(DateTimeOffset at)
    {
        DateTimeOffset measured = _random.Next(3) == 0 ? at - TimeSpan.FromMinutes(_random.Next(-4, 20)) : at;
        bool isGarbage = _random.Next(6) == 0;
        string probe = Of(Probes);
        bool isPanel = probe == "panel-1" && !isGarbage;
        return new RawReading(
            Of(Bays), probe, measured, at, isPanel ? null : isGarbage ? Of(AirC) : Of(AirC[..5]), isPanel ? null : isGarbage ? Of(Pct) : Of(Pct[..6]), isPanel || isGarbage ? Of(PanelC[..7]) : null);
    }

    private Tap Tap(DateTimeOffset reported)
    {
        DateTimeOffset at = _random.Next(3) == 0 ? reported - TimeSpan.FromMinutes(_random.Next(-10, 180)) : reported;
        return new Tap(
            Of(Ids), at, reported, Of(Surfaces), Of(Acts), Of<int?>([null, 1, 2, 3]), Of<int?>([null, null, 1, 2, 5]),
            _random.Next(4) == 0 ? at - TimeSpan.FromMinutes(_random.Next(-3, 8)) : null, _random.Next(4) == 0 ? Of(PanelC) : null,
            Of<Found?>([null, Found.Clear, Found.Clear, Found.HighSpot]), Of<How?>([null, How.ReWet, How.Wiped, How.PolishedOff]), Of(Places),
            Corrects: _random.Next(4) == 0 ? Of(Ids) : null);
    }

    private T Of<T>(T[] choices) => choices[_random.Next(choices.Length)];

    private static ProbeMount Mount(Probe probe, Material? material = null, Place place = Place.Outside) => new(probe, material, place);

    private static Job Job(string id, string bay, params Surface[] surfaces) => new(id, bay, null, null, [.. surfaces]);

    private static Surface On(
        string id, string product, Material material = Material.Steel, Place place = Place.Outside, int layers = 1, int sections = 1) =>
        new(id, material, null, place, product, 1, layers, sections);
}
