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
