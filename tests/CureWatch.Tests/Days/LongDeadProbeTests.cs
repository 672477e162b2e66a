using CureWatch.Curing;
using CureWatch.Panels;
using CureWatch.Tests.Bays;
using CureWatch.TimeWindows;

namespace CureWatch.Tests.Days;

/// <summary>A probe that died before the weekend is known as well as one that died this morning. Common practice, no source.</summary>
public class LongDeadProbeTests
{
    private const double Dies = 9, Soon = 44, Later = Soon + (24 * 2);

    [Theory]
    [InlineData(-3.0, null)]
    [InlineData(3.0, null)]
    [InlineData(null, 0.1)]
    [InlineData(null, 4.0)]
    public void Probe_DeadForDays_LeavesTheSameDoubtAsOneDeadForHours(double? panelApartK, double? twinApartK)
    {
        TestShop first = Coated(Soon, panelApartK, twinApartK), later = Coated(Later, panelApartK, twinApartK);

        foreach (WindowStage stage in new[] { WindowStage.KeepDry, WindowStage.Recoat })
        {
            (TimeBounds soon, TimeBounds late) = (Of(first, stage), Of(later, stage));
            Assert.Equal(At(soon.Latest, Soon), At(late.Latest, Later), 0.03);
            Assert.Equal(At(soon.Earliest, Soon), At(late.Earliest, Later), 0.03);
        }
    }

    private static TimeBounds Of(TestShop shop, WindowStage stage) => shop.Window(stage).ClosesAt!;

    private static double At(DateTimeOffset? instant, double hour) => (instant!.Value - TestShop.At(hour)).TotalHours;

    private static TestShop Coated(double hour, double? panelApartK, double? twinApartK)
    {
        var shop = new TestShop(null, 1, 1, Place.Outside, null, TestShop.Air("air-1"), TestShop.Air("air-2"), TestShop.Panel("panel-1"));
        for (int minute = 0; minute <= (hour + 26) * 60; minute++)
        {
            double at = minute / 60.0, airC = 20 + Math.Sin(2 * Math.PI * at / 24);
            shop.Read(at, airC, 50);
            if (at < Dies && twinApartK is { } twinK)
            {
                shop.Read(at, airC + twinK, 50, "air-2");
            }

            if (at < Dies && panelApartK is { } panelK)
            {
                shop.ReadPanel(at, airC + panelK);
            }

            if (minute == hour * 60)
            {
                shop.Tap(hour, Did.Applied).Tap(hour + 0.05, Did.Levelled);
            }
        }

        return shop;
    }
}
