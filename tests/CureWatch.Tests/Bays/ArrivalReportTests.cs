using System.Collections.Immutable;
using CureWatch.Bays;
using CureWatch.Curing;
using CureWatch.Handover;
using CureWatch.Panels;
using CureWatch.Planning;
using CureWatch.Readings;

namespace CureWatch.Tests.Bays;

/// <summary>A car of −3 °C in a bay of 19 °C and 48 %.</summary>
public class ArrivalReportTests
{
    private static readonly DateTimeOffset Start = new(2026, 1, 12, 8, 0, 0, TimeSpan.Zero);

    [Fact]
    public void ColdCar_CastWheelsAndGlass_AreMuchLaterThanAnAluminiumDoor()
    {
        ArrivalReport report = Report(Day(outdoors: true, minutes: 5));
        SurfaceArrival wheels = Of(report, "wheels"), glass = Of(report, "screen"), door = Of(report, "door");
        Assert.Equal("wheels", report.Surfaces[0].Surface.Id);
        Assert.Equal(-3, door.StartC!.Value, 1e-9);
        Assert.All(report.Surfaces, s => Assert.True(s.DryAt!.Earliest <= s.DryAt.Likely && s.DryAt.Likely <= s.DryAt.Latest));
        Assert.All(report.Surfaces, s => Assert.True(s.NeedsWipe));
        Assert.True(wheels.DryAt!.Likely - Start > 3 * (door.DryAt!.Likely - Start));
        Assert.True(glass.DryAt!.Earliest - Start > 3 * (door.DryAt.Earliest - Start));
    }

    [Fact]
    public void Spot_MovesIt()
    {
        Shop shop = Day(outdoors: true, minutes: 5);
        DateTimeOffset before = Of(Report(shop), "door").DryAt!.Likely!.Value;
        Shop cold = Tell(shop, new Tap("t", Start.AddMinutes(5), Start.AddMinutes(5), "door", Did.Measured, PanelC: 1));
        Assert.True(Of(Report(cold), "door").DryAt!.Likely > before);
        Assert.Equal(1, Of(Report(cold), "door").NowC!.Value, 0.05);
        Shop warm = Tell(shop, new Tap("t", Start.AddMinutes(5), Start.AddMinutes(5), "door", Did.Measured, PanelC: 10.5));
        Assert.True(Of(Report(warm), "door").DryAt!.Likely < before);
        Assert.Equal(Of(Report(shop), "wheels"), Of(Report(warm), "wheels"));
    }

    // A screen read to be −3 °C was dry at once by a second reading that showed the room, and nothing was to be wiped.
    [Theory]
    [InlineData("screen", 17.5)]
    [InlineData("wheels", 18.8)]
    public void Spots_ThatContradictEachOther_AreNoReasonToStartSooner(string surface, double panelC)
    {
        Shop shop = Tell(Day(outdoors: false, minutes: 30), new Tap("t", Start.AddMinutes(2), Start.AddMinutes(30), null, Did.Measured, PanelC: -3));
        SurfaceArrival first = Of(Report(shop), surface);
        SurfaceArrival both = Of(Report(Tell(shop, new Tap("u", Start.AddMinutes(30), Start.AddMinutes(30), surface, Did.Measured, PanelC: panelC))), surface);
        Assert.True(both.DryAt!.Latest >= first.DryAt!.Latest);
        Assert.True(both.NeedsWipe);
        Assert.Equal(panelC, both.NowC!.Value, 0.1);
    }

    [Fact]
    public void Start_NobodyKnows_IsSaid_UntilSomebodyMeasuresTheCar()
    {
        Shop shop = Day(outdoors: false, minutes: 10);
        Assert.All(Report(shop).Surfaces, s => Assert.Equal((ArrivalBasis.Unknown, null, null), (s.Basis, s.StartC, s.NowC)));
        shop = Tell(shop, new Tap("t", Start.AddMinutes(10), Start.AddMinutes(10), null, Did.Measured, PanelC: 2));
        Assert.All(Report(shop).Surfaces, s => Assert.True(s.DryAt!.Likely > Start.AddMinutes(10)));
    }

    // A car nobody had measured, in a shop without an outdoor probe, counted as dry.
    [Fact]
    public void Start_NobodyKnows_CountsAsTheColdestThatCarsCome_UntilOneSpotSaysOtherwise()
    {
        ArrivalReport unknown = Report(Day(outdoors: false, minutes: 5)), cold = Report(Day(outdoors: true, minutes: 5));
        Assert.All(unknown.Surfaces, s => Assert.True(s.NeedsWipe));
        Assert.All(unknown.Surfaces, s => Assert.True(s.DryAt!.Latest > Of(cold, s.Surface.Id).DryAt!.Latest)); // −15 °C, not −3
        Assert.Equal("wheels", unknown.Surfaces[0].Surface.Id);
        Shop waiting = Day(outdoors: false, minutes: 5);
        StartReason reason = StartReport.Of(waiting, "job-1", "door").Decision.Answers.Single().Reasons.Single(r => r.Kind == StartReasonKind.Arrival);
        Assert.Equal((StartWeight.Waits, Of(unknown, "door").DryAt!.Latest), (reason.Weight, reason.Until!.Latest));
        Assert.Contains("infrared", reason.Help?.ToString(), StringComparison.Ordinal);
        Shop read = Tell(waiting, new Tap("t", Start.AddMinutes(5), Start.AddMinutes(5), null, Did.Measured, PanelC: 18));
        Assert.All(StartReport.Of(read, "job-1").Decision.Answers, a => Assert.DoesNotContain(a.Reasons, r => r.Kind == StartReasonKind.Arrival));
        Assert.All(Report(read).Surfaces, s => Assert.False(s.NeedsWipe));
    }

    // The probe outdoors was away when the car came in; what it said within a day bounds how cold that was.
    [Theory]
    [InlineData(-120, -3.0, -6.0)]
    [InlineData(-120, 9.0, 6.0)]
    [InlineData(-3000, 9.0, -15.0)]
    public void Start_NobodyKnows_CountsAsTheDaysColdestOutdoors_WhereThatWasMeasured(int heardMinute, double outdoorC, double coldestC)
    {
        ArrivalReport report = Report(Day(outdoors: true, minutes: 5, outdoorC: outdoorC, outdoorMinute: heardMinute));
        Assert.All(report.Surfaces, s => Assert.Equal(ArrivalBasis.Unknown, s.Basis));
        Assert.All(report.Surfaces, s => Assert.Equal(coldestC, s.ColdestC!.Value, 1e-9));
        Assert.Contains(coldestC > -15 ? "outside measured outdoors within a day" : "Nobody measured outdoors", report.Assumes.ToString(), StringComparison.Ordinal);
        string told = StartReport.Of(Day(outdoors: true, minutes: 5, outdoorC: outdoorC, outdoorMinute: heardMinute), "job-1", "wheels").Decision.Answers.Single()
            .Reasons.Single(r => r.Kind == StartReasonKind.Arrival).Text.ToString();
        Assert.Contains(FormattableString.Invariant($"{Math.Abs(coldestC)} °C"), told, StringComparison.Ordinal);
    }

    // Under a clear sky a car is colder than the air it stands in: latest reckons with that, likely does not.
    [Fact]
    public void Start_Outdoors_IsToldWithItsMargin()
    {
        ArrivalReport report = Report(Day(outdoors: true, minutes: 5));
        Assert.Equal("It came in as outside measured outdoors then, -3 °C, or up to 3 K colder under a clear sky.", report.Assumes.ToString());
        Shop colder = Day(outdoors: true, minutes: 5, outdoorC: -6);
        Assert.Equal(Of(Report(colder), "door").DryAt!.Likely!.Value, Of(report, "door").DryAt!.Latest!.Value, TimeSpan.FromMinutes(30)); // on a heavier body
        Assert.True(Of(report, "door").DryAt!.Latest > Of(Report(colder), "door").DryAt!.Likely);
    }

    [Fact]
    public void Start_NobodyKnows_WhereNoCarComesCold_IsDryAtOnce()
    {
        WorkHabits mild = WorkHabits.Usual with { ColdestArrivalC = 18 };
        Assert.All(Report(Day(outdoors: false, minutes: 5, mild)).Surfaces, s => Assert.True(s.DryAt!.Latest <= Start.AddMinutes(5) && !s.NeedsWipe));
    }

    [Fact]
    public void Wipe_CountsOnceItIsDryEnough()
    {
        Shop shop = Day(outdoors: true, minutes: 240);
        Shop early = Tell(shop, new Tap("t", Start.AddMinutes(2), Start.AddMinutes(240), "door", Did.PanelWiped));
        Assert.True(Of(Report(early), "door").NeedsWipe);
        Shop late = Tell(early, new Tap("u", Start.AddMinutes(240), Start.AddMinutes(240), "door", Did.PanelWiped));
        Assert.False(Of(Report(late), "door").NeedsWipe);
    }

    private static ArrivalReport Report(Shop shop) => ArrivalReport.Of(shop, "job-1");

    private static SurfaceArrival Of(ArrivalReport report, string surface) => report.Surfaces.Single(s => s.Surface.Id == surface);

    private static Shop Tell(Shop shop, Tap tap) => ShopFold.Take(shop, new Message.Tapped("job-1", tap)).Shop;

    private static Shop Day(bool outdoors, int minutes, WorkHabits? habits = null, double outdoorC = -3, int outdoorMinute = 0)
    {
        var outdoor = new Probe("outside", Measures.Outdoor, 0, 0, 0.5, 3, TimeSpan.FromMinutes(1));
        ImmutableArray<ProbeMount> probes =
        [
            new ProbeMount(TestShop.Air("air"), null, Place.Outside), .. outdoors ? [new ProbeMount(outdoor, null, Place.Outside)] : Array.Empty<ProbeMount>(),
        ];
        var plan = new ShopPlan("shop", OpeningHours.Always(TimeZoneInfo.Utc), TimeSpan.Zero, [new BayPlan("bay-1", 1013.25, "bay-1", [], probes)])
        {
            Habits = habits ?? WorkHabits.Usual,
        };
        Shop shop = Shop.Opening(plan, [TestShop.Paint()], Start.AddMinutes(Math.Min(-1, outdoorMinute - 1)));
        shop = Read(Read(shop, "outside", outdoorMinute, outdoorC, 80), "air", 0, 19, 48);
        ImmutableArray<Surface> surfaces =
        [
            new Surface("door", Material.Aluminium, null, Place.Outside, "paint", 1, 1, 1),
            new Surface("screen", Material.Glass, null, Place.Outside, "paint", 1, 1, 1),
            new Surface("wheels", Material.Casting, null, Place.Outside, "paint", 1, 1, 1),
        ];
        shop = ShopFold.Take(shop, new Message.JobStarted(new Job("job-1", "bay-1", null, null, surfaces), Start)).Shop;
        return Enumerable.Range(1, minutes).Aggregate(shop, (s, m) => Read(s, "air", m, 19, 48));
    }

    private static Shop Read(Shop shop, string probe, int minute, double c, double pct) => ShopFold.Take(
        shop, new Message.ReadingCame(new RawReading("bay-1", probe, Start.AddMinutes(minute), Start.AddMinutes(minute), c, pct, null))).Shop;
}
