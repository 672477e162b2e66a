using CureWatch.Bays;
using CureWatch.Handover;
using CureWatch.Panels;
using CureWatch.Readings;
using CureWatch.Service.Settings;

namespace CureWatch.Service.Tests.Settings;

public sealed class ShopFileTests : IDisposable
{
    private readonly Written _written = new();
    private readonly Faults _faults = new();

    public static TheoryData<string, string?, string> Broken { get; } = [.. ShopVariants.ForBoth, .. ShopVariants.ForTheReader];

    public void Dispose() => _written.Dispose();

    [Fact]
    public void Shop_WithEveryKey_IsReadWhole()
    {
        ShopSettings shop = Read(ShopVariants.Whole)!;

        Assert.Empty(_faults.All);
        Assert.Equal(("test-works", TimeSpan.FromMinutes(75)), (shop.Plan.Shop, shop.Plan.Finishing));
        BayPlan bay = shop.Plan.Bays[0];
        Assert.Equal(("bay-1", 995.5, "hall"), (bay.Bay, bay.PressureHpa, bay.Airspace));
        Assert.Equal([Equipment.FixedHeating, Equipment.Lamp], bay.Equipment);
        Assert.Equal(
            new ProbeMount(new Probe("air", Measures.Air, -0.2, 1, 0.3, 2, TimeSpan.FromSeconds(30)), null, Place.Cabin), bay.Probes[0]);
        Assert.Equal(
            new ProbeWiring("bay-1", "air", "sensors/1/air", new ProbeFields("/main/t", "/main/h", "/ts", "/n"), TemperatureUnit.Fahrenheit),
            shop.Wiring[0]);
    }

    [Fact]
    public void Calibration_OfADay_HoldsFromItsMidnightInTheShop()
    {
        Probe bonnet = Read(ShopVariants.Whole)!.Plan.Bays[0].Probes[1].Probe;

        Assert.Equal(
            [
                new Calibration(new DateTimeOffset(2026, 6, 30, 23, 0, 0, TimeSpan.Zero), 0.4, 0, "in an ice bath"),
                new Calibration(new DateTimeOffset(2026, 11, 12, 9, 30, 0, TimeSpan.Zero), 0.4, 0), // what it does not name goes on
            ],
            bonnet.Calibrations);
    }

    // Copied and pasted: a second name for one sensor would pass for a twin that always agrees.
    [Fact]
    public void SensorReadTwice_IsRefused_AndOneThatMeasuresTwoThingsIsNot()
    {
        Assert.Null(Read(Bay("""{"probe":"a","measures":"air","topic":"hall/1"},{"probe":"b","measures":"air","topic":"hall/1"}""")));
        Assert.Contains("no other probe of the bay reads", Assert.Single(_faults.All).ToString(), StringComparison.Ordinal);
        Assert.NotNull(Read(Bay("""{"probe":"a","measures":"air","topic":"hall/1"},{"probe":"p","measures":"panel","topic":"hall/1","fields":{"temperature":"/panel"}}""")));

        static string Bay(string probes) => $$"""{"shop":"s","timeZone":"UTC","bays":[{"bay":"b","probes":[{{probes}}]}]}""";
    }

    [Fact]
    public void Hours_AreStretchesOfTheWallClock()
    {
        OpeningHours hours = Read(ShopVariants.Whole)!.Plan.Hours;

        Assert.Equal("Europe/Dublin", hours.Zone.Id);
        Assert.Equal([Stretch(8, 12), Stretch(13, 18)], hours.Open[DayOfWeek.Monday]);
        Assert.Equal([Stretch(9.5, 24)], hours.Open[DayOfWeek.Saturday]);
        Assert.Equal([DayOfWeek.Monday, DayOfWeek.Saturday], hours.Open.Keys.Order());
    }

    [Fact]
    public void Shop_WithOnlyWhatIsRequired_TakesTheStatedDefaults()
    {
        ShopSettings shop = Read(ShopVariants.Least)!;

        Assert.Empty(_faults.All);
        Assert.Equal(TimeSpan.Zero, shop.Plan.Finishing);
        Assert.All(shop.Plan.Hours.Open.Values, day => Assert.Equal([OpenStretch.WholeDay], day));
        BayPlan bay = shop.Plan.Bays.Single();
        Assert.Equal((1013.25, "b"), (bay.PressureHpa, bay.Airspace));
        Assert.Empty(bay.Equipment);
        Assert.Equal(
            new ProbeMount(new Probe("p", Measures.Air, 0, 0, 0.5, 3, TimeSpan.FromMinutes(1)), null, Place.Outside), bay.Probes.Single());
        Assert.Equal(new ProbeWiring("b", "p", "curewatch/v1/s/b/probe/p", null, TemperatureUnit.Celsius), shop.Wiring.Single());
    }

    [Fact]
    public void PanelProbe_WhereNothingIsSaid_IsTrustedToOneKelvin()
    {
        ProbeMount bonnet = Read(ShopVariants.Whole)!.Plan.Bays[0].Probes[1];

        Assert.Equal((1.0, Material.Aluminium, Place.Outside), (bonnet.Probe.AccuracyTemperatureK, bonnet.Material, bonnet.Place));
    }

    [Fact]
    public void Bay_WithoutProbes_IsAccepted() => Assert.Empty(Read(ShopVariants.Whole)!.Plan.Bays[1].Probes);

    [Fact]
    public void SameProbeId_InTwoBays_IsAccepted()
    {
        Assert.NotNull(Read(Edited.At(ShopVariants.Whole, "/bays/1/probes", """[{"probe":"air","measures":"air"}]""")));
        Assert.Empty(_faults.All);
    }

    [Theory]
    [MemberData(nameof(Broken))]
    public void Shop_WithOnePlaceBroken_IsRefusedThere(string changed, string? json, string place)
    {
        Assert.Null(Read(Edited.At(ShopVariants.Whole, changed, json)));
        Assert.Contains(place, _faults.All.Select(f => f.Place));
    }

    private static OpenStretch Stretch(double fromHours, double toHours) => new(TimeSpan.FromHours(fromHours), TimeSpan.FromHours(toHours));

    private ShopSettings? Read(string text) => ShopFile.Read(_written.File("shop.json", text), _faults);
}
