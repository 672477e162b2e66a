using System.Collections.Immutable;
using CureWatch.Bays;
using CureWatch.Curing;
using CureWatch.Handover;
using CureWatch.Panels;
using CureWatch.Readings;

namespace CureWatch.Tests.Bays;

/// <summary>A shop of two bays that stay as they are and one car that is moved between them, read every minute.</summary>
internal sealed class CarInTwoBays
{
    private static readonly DateTimeOffset Start = new(2026, 1, 12, 8, 0, 0, TimeSpan.Zero);

    private readonly double _firstC, _secondC, _outdoorC;
    private readonly int _comesAt, _layers;
    private int _minute = -1;

    public CarInTwoBays(double firstC = 19, double secondC = 19, double outdoorC = -3, int comesAt = 0, int layers = 1)
    {
        (_firstC, _secondC, _outdoorC, _comesAt, _layers) = (firstC, secondC, outdoorC, comesAt, layers);
        var outside = new Probe("outside", Measures.Outdoor, 0, 0, 0.5, 3, TimeSpan.FromMinutes(1));
        ImmutableArray<BayPlan> bays =
        [
            new("bay-1", 1013.25, "bay-1", [], [new ProbeMount(TestShop.Air("air"), null, Place.Outside), new ProbeMount(outside, null, Place.Outside)]),
            new("bay-2", 1013.25, "bay-2", [], [new ProbeMount(TestShop.Air("air"), null, Place.Outside)]),
        ];
        var plan = new ShopPlan("shop", OpeningHours.Always(TimeZoneInfo.Utc), TimeSpan.Zero, bays);
        Shop = Shop.Opening(plan, [TestShop.Paint()], Start.AddMinutes(-1));
    }

    public Shop Shop { get; private set; }

    /// <summary>Every minute up to one is read; the car comes in its own.</summary>
    public CarInTwoBays Until(int minute)
    {
        while (_minute < minute)
        {
            _minute++;
            Read("bay-1", "outside", _outdoorC, 80);
            Read("bay-1", "air", _firstC, 48);
            Read("bay-2", "air", _secondC, 48);
            if (_minute == _comesAt)
            {
                Take(new Message.JobStarted(new Job("job-1", "bay-1", null, null, [Bare("door", Material.Aluminium), Bare("screen", Material.Glass), Bare("wheels", Material.Casting)]), Now));
            }
        }

        return this;
    }

    public CarInTwoBays Moves(string to) => Tell(new Tap($"t-{_minute}-moved", Now, Now, null, Did.Moved, ToBay: to));

    public CarInTwoBays Tells(Did did, string? surface = null, double? panelC = null) => Tell(did == Did.Applied
        ? new Tap($"t-{_minute}-{did}", Now, Now, surface, did, Layer: 1, Section: 1)
        : new Tap($"t-{_minute}-{did}", Now, Now, surface, did, PanelC: panelC));

    public SurfaceArrival Arrival(string surface) => ArrivalReport.Of(Shop, "job-1").Surfaces.Single(s => s.Surface.Id == surface);

    private DateTimeOffset Now => Start.AddMinutes(_minute);

    private Surface Bare(string id, Material material) => new(id, material, null, Place.Outside, "paint", 1, _layers, 1);

    private CarInTwoBays Tell(Tap tap)
    {
        Take(new Message.Tapped("job-1", tap));
        return this;
    }

    private void Read(string bay, string probe, double c, double pct) => Take(new Message.ReadingCame(new RawReading(bay, probe, Now, Now, c, pct, null)));

    private void Take(Message message) => Shop = ShopFold.Take(Shop, message).Shop;
}
