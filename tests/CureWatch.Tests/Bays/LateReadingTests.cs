using CureWatch.Bays;
using CureWatch.Curing;
using CureWatch.Readings;
using CureWatch.TimeWindows;

namespace CureWatch.Tests.Bays;

public class LateReadingTests
{
    // One air probe tells every minute. The other tells every sixth minute, and what it tells, a swing of 8 K, comes at once or late.
    [Theory]
    [InlineData(3)]
    [InlineData(10)]
    [InlineData(15)]
    public void LateReadingsBesideAnotherProbe_GiveTheSameAsReadingsInOrder(int minutesLate)
    {
        Window inOrder = KeepDry(0), late = KeepDry(minutesLate);
        Assert.Equal(inOrder.ClosesAt!.Likely!.Value, late.ClosesAt!.Likely!.Value, TimeSpan.FromMilliseconds(1));
        Assert.Equal(inOrder.ClosesAt.Latest!.Value, late.ClosesAt.Latest!.Value, TimeSpan.FromMilliseconds(1));
    }

    // What it stored for ten minutes beside a probe that goes on comes within two seconds.
    [Theory]
    [InlineData(true)]
    [InlineData(false)]
    public void BacklogInAnyOrder_IsFollowedOnceASecond_AndGivesTheSameAsReadingsInOrder(bool isNewestFirst)
    {
        TestShop inOrder = Coated(), late = Coated();
        int[] seconds = [.. Enumerable.Range(0, 600)];
        foreach (int second in seconds)
        {
            inOrder.Take(Swinging(second, second));
            Steady(inOrder, second);
            Steady(late, second);
        }

        int before = late.Happened.Count;
        foreach ((int i, int second) in (isNewestFirst ? seconds.Reverse() : seconds).Index())
        {
            late.Take(Swinging(second, 600 + (i / 300.0)));
        }

        Assert.Equal(isNewestFirst ? 1 : 0, late.Happened.Skip(before).Count(e => e is ShopEvent.BacklogFollowed)); // oldest first, what follows is waited for
        foreach (TestShop shop in new[] { inOrder, late })
        {
            shop.Take(Swinging(603, 603));
            Steady(shop, 603);
            shop.Take(new Message.ClockReached(TestShop.At(1.05) + TimeSpan.FromSeconds(604)));
        }

        Assert.Empty(late.Shop.Tally.Rejected);
        Assert.Empty(late.Shop.Behind);
        Window expected = inOrder.Window(WindowStage.KeepDry), got = late.Window(WindowStage.KeepDry);
        Assert.Equal(expected.ClosesAt!.Likely!.Value, got.ClosesAt!.Likely!.Value, TimeSpan.FromMilliseconds(1));
        Assert.Equal(expected.ClosesAt.Latest!.Value, got.ClosesAt.Latest!.Value, TimeSpan.FromMilliseconds(1));
    }

    [Fact]
    public void Tap_AndASecondThatIsOver_FindEverythingLateFollowed_AndNoTickOfTheClockDoes()
    {
        TestShop shop = Coated();
        shop.Take(Swinging(59, 59));
        Steady(shop, 60);
        shop.Take(Swinging(30, 60));
        Assert.Equal(["bay-1"], shop.Shop.Behind);
        Steady(shop, 60.5);
        Assert.Equal(["bay-1"], shop.Shop.Behind);
        shop.Take(new Message.ClockReached(TestShop.At(1.05) + TimeSpan.FromSeconds(60.6)));
        Assert.Equal(["bay-1"], shop.Shop.Behind);
        shop.Take(new Message.ClockReached(TestShop.At(1.05) + TimeSpan.FromSeconds(70)));
        Assert.Empty(shop.Shop.Behind);
        ShopEvent[] followed = [.. shop.Happened.SkipWhile(e => e is not ShopEvent.BacklogFollowed { Bay: "bay-1" })];
        Assert.Equal(TestShop.At(1.05) + TimeSpan.FromSeconds(61), Assert.IsType<ShopEvent.CoatForeseen>(followed[1]).FollowedFrom); // at its own instant
        Assert.Equal(shop.Shop.Now, TestShop.At(1.05) + TimeSpan.FromSeconds(70));
        shop.Take(Swinging(69, 70));
        shop.Take(Swinging(50, 70));
        Assert.Equal(["bay-1"], shop.Shop.Behind);
        shop.Tap(1.05 + (70.2 / 3600), Did.Inspected);
        Assert.Empty(shop.Shop.Behind);
    }

    private static TestShop Coated()
    {
        TestShop shop = new(probes: [TestShop.Air("air-1") with { Every = TimeSpan.FromSeconds(1) }, TestShop.Air("air-2") with { Every = TimeSpan.FromSeconds(1) }]);
        shop.Read(0.98, 18, 55).Read(0.99, 18, 55, "air-2");
        return shop.Tap(1, Did.Applied).Tap(1.05, Did.Levelled, reportedHour: 1.05);
    }

    private static void Steady(TestShop shop, double second)
    {
        DateTimeOffset at = TestShop.At(1.05) + TimeSpan.FromSeconds(second);
        shop.Take(new Message.ReadingCame(new RawReading("bay-1", "air-1", at, at, 18, 55, null)));
    }

    private static Message.ReadingCame Swinging(double second, double arrived)
    {
        DateTimeOffset tapped = TestShop.At(1.05);
        return new(new RawReading(
            "bay-1", "air-2", tapped + TimeSpan.FromSeconds(second), tapped + TimeSpan.FromSeconds(arrived), 18 + Math.Sin(second / 60), 55, null));
    }

    private static Window KeepDry(int minutesLate)
    {
        TestShop shop = new(probes: [TestShop.Air("air-1"), TestShop.Air("air-2") with { Every = TimeSpan.FromMinutes(6) }]);
        for (int minute = 0; minute <= 24 * 60; minute++)
        {
            shop.Read(minute / 60.0, 18, 55);
            if (minute == 60)
            {
                shop.Tap(1, Did.Applied).Tap(1.05, Did.Levelled, reportedHour: 1.05);
            }

            bool isLate = (minute - minutesLate) % 12 == 0;
            int measured = isLate ? minute - minutesLate : minute;
            if (measured >= 0 && measured % 6 == 0 && (isLate || measured % 12 != 0))
            {
                double c = 18 + (4 * Math.Sin(measured / 7.0));
                shop.Take(new Message.ReadingCame(new RawReading("bay-1", "air-2", TestShop.At(measured / 60.0), TestShop.At(minute / 60.0), c, 55, null)));
            }
        }

        Assert.Empty(shop.Shop.Tally.Rejected);
        return shop.Window(WindowStage.KeepDry);
    }
}
