using System.Collections.Immutable;
using CureWatch.Bays;
using CureWatch.Curing;
using CureWatch.Handover;
using CureWatch.Panels;
using CureWatch.Planning;
using CureWatch.Products;
using CureWatch.Tests.Bays;

namespace CureWatch.Tests.Planning;

/// <summary>Two coats that flash at once, of products that open and close otherwise: which one a person is sent to.</summary>
public class WalkOrderTests
{
    // By the deadline alone a person stood before what could not be looked at yet, while the other one was open. Levelling takes 45 s.
    [Theory]
    [InlineData(4, 6, 2, "slow, quick")] // the quick one closes first, and is not open yet
    [InlineData(4, 6, 4, "quick, slow")] // both are open: the one that closes first
    [InlineData(0.5, 6, 2, "quick, slow")]
    public void Flashing_TheOneThatIsOpenGoesFirst(double opens, double closes, double atMinutes, string expected) =>
        Assert.Equal(expected, string.Join(", ", ActsAt(TestShop.Paint(), Quick(opens, closes), atMinutes).Where(a => a.Kind == ActKind.Level).Select(a => a.Surface.Id)));

    /// <summary>Whatever opens and closes when: no other order would have saved more, and nobody waits where nothing is saved by it.</summary>
    [Fact]
    public void Flashing_AnyTwo_AreToldInTheOrderThatSavesMost_WithoutWaitingForNothing()
    {
        int isByWaiting = 0;
        foreach ((double opens, double closes) in new[] { (0.5, 3.0), (0.9, 2.3), (1, 2.4), (1.2, 2.6), (2, 4), (4, 5), (4, 6), (5, 7), (6, 7), (6, 9) })
        {
            foreach (double atMinutes in Enumerable.Range(0, 40).Select(i => 0.3 + (i / 8.0)))
            {
                DateTimeOffset at = TestShop.At(1) + TimeSpan.FromMinutes(atMinutes);
                NextAct[] told = [.. ActsAt(Sheet("slow", 0.3, 8), Quick(opens, closes), atMinutes).Where(a => a.Kind is ActKind.Level or ActKind.ReWet)], other = [.. told.Reverse()];
                Assert.True(Missed(told, at) <= Missed(other, at), $"{opens} to {closes} min at {atMinutes}: {told[0]}");
                bool isWaiting = told[0].From > at && !(told[1].From > at);
                Assert.True(!isWaiting || Missed(told, at) < Missed(other, at), $"{opens} to {closes} min at {atMinutes}: waits for {told[0]}");
                isByWaiting += isWaiting ? 1 : 0;
            }
        }

        Assert.True(isByWaiting > 0, "No case in which waiting saves one.");
    }

    /// <summary>How many are levelled too late when they are worked in this order, each once it may be looked at.</summary>
    private static int Missed(IEnumerable<NextAct> order, DateTimeOffset at)
    {
        int missed = 0;
        foreach (NextAct act in order)
        {
            at = (act.From > at ? act.From.Value : at) + SectionPace.Usual.Level;
            missed += at > act.By ? 1 : 0;
        }

        return missed;
    }

    private static ProductSheet Quick(double opens, double closes) => Sheet("quick", opens, closes);

    private static ProductSheet Sheet(string product, double opens, double closes) => TestShop.Paint() with
    {
        Product = product,
        Stages =
        [
            TestShop.Row(Stage.Flash, Mechanism.Evaporation, opens / 60, (opens + 0.2) / 60),
            TestShop.Row(Stage.LevelBy, Mechanism.Evaporation, closes / 60),
            .. TestShop.Paint().Stages.Skip(2),
        ],
    };

    [Theory]
    [InlineData(1)]
    [InlineData(2.5)]
    [InlineData(5)]
    public void Flashing_OneProduct_GoesInTheOrderItWasApplied(double atMinutes) =>
        Assert.Equal(["slow", "quick"], ActsAt(TestShop.Paint(), TestShop.Paint(), atMinutes).Where(a => a.Kind == ActKind.Level).Select(a => a.Surface.Id));

    private static ImmutableArray<NextAct> ActsAt(ProductSheet slow, ProductSheet quick, double minutes)
    {
        var plan = new ShopPlan(
            "shop", OpeningHours.Always(TimeZoneInfo.Utc), TimeSpan.Zero, [new BayPlan("bay-1", 1013.25, "bay-1", [], [new ProbeMount(TestShop.Air("air"), null, Place.Outside)])]);
        Shop shop = Shop.Opening(plan, slow.Product == quick.Product ? [slow] : [slow, quick], TestShop.Start);
        ImmutableArray<Surface> surfaces =
        [
            new Surface("quick", Material.Steel, null, Place.Outside, quick.Product, 1, 1, 1), new Surface("slow", Material.Steel, null, Place.Outside, slow.Product, 1, 1, 1),
        ];
        shop = Take(shop, new Message.JobStarted(new Job("job-1", "bay-1", null, null, surfaces), TestShop.Start));
        for (int minute = 0; minute <= 60; minute++)
        {
            shop = Take(shop, new Message.ReadingCame(new("bay-1", "air", TestShop.At(minute / 60.0), TestShop.At(minute / 60.0), 20, 50, null)));
        }

        DateTimeOffset wiped = TestShop.At(1), at = wiped + TimeSpan.FromMinutes(minutes);
        shop = Take(shop, new Message.Tapped("job-1", new Tap("s", wiped, wiped, "slow", Did.Applied)));
        shop = Take(shop, new Message.Tapped("job-1", new Tap("q", wiped.AddSeconds(1), wiped.AddSeconds(1), "quick", Did.Applied)));
        shop = Take(shop, new Message.ClockReached(at));
        return NextActs.Of(shop, shop.Find("job-1")!, at);
    }

    private static Shop Take(Shop shop, Message message) => ShopFold.Take(shop, message).Shop;
}
