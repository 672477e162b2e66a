using CureWatch.Bays;
using CureWatch.Curing;
using CureWatch.Panels;
using CureWatch.Reports;
using CureWatch.Tests.Bays;
using static CureWatch.Tests.Bays.SharedAir;

namespace CureWatch.Tests.Reports;

/// <summary>The morning tells of each bay what concerns it, however many bays are told of at once.</summary>
public class LastNightTests
{
    // A car's warnings are told where it is, and its neighbour's are not.
    [Fact]
    public void CarsWarnings_AreToldWhereItIs()
    {
        MorningReport[] mornings = Mornings(Hall().Steady(0, 1).Tap(1, Did.Applied).Car("job-2", "bay-2", 1.1).Told("job-2", 1.2, Did.Applied));
        Assert.Equal(["bay-1", "bay-2"], mornings.Select(m => m.Bay));
        Assert.All(mornings, (m, bay) => Assert.Equal([$"job-{bay + 1}"], Jobs(m)));
    }

    [Fact]
    public void CarWhoseParts_AreInTwoBays_IsToldInBoth()
    {
        TestShop shop = Hall().Steady(0, 1);
        Surface Part(string id) => new(id, Material.Steel, null, Place.Outside, "paint", 1, 1, 1);
        shop.Take(new Message.JobStarted(new Job("job-2", "bay-1", null, null, [Part("roof"), Part("hood")]), TestShop.At(1))).Told("job-2", 1.1, Did.Applied);
        shop.Take(new Message.Tapped("job-2", new Tap("away", TestShop.At(2), TestShop.At(2), "hood", Did.Moved) { ToBay = "bay-2" }));
        Assert.All(Mornings(shop), m => Assert.Contains("job-2", Jobs(m)));
    }

    [Fact]
    public void CarThatLeft_OrIsInNoBay_IsToldInNone()
    {
        TestShop shop = Hall().Steady(0, 1).Tap(1, Did.Applied).Tap(2, Did.Moved, toBay: "store").Car("job-2", "bay-2", 1.1).Told("job-2", 1.2, Did.Applied);
        Assert.All(Mornings(shop.Take(new Message.CarLeft("job-2", TestShop.At(3)))), m => Assert.Empty(Jobs(m)));
    }

    private static MorningReport[] Mornings(TestShop shop) => [.. MorningReport.Of(shop.Until(24.2).Shop)];

    private static IEnumerable<string> Jobs(MorningReport morning) =>
        morning.Happened.Select(w => w.Subject.Job).Concat(morning.LookFirst.Select(h => h.Job)).OfType<string>().Distinct();
}
