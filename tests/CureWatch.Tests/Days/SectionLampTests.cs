using CureWatch.Curing;
using CureWatch.Panels;
using CureWatch.Tests.Bays;
using CureWatch.TimeWindows;

namespace CureWatch.Tests.Days;

/// <summary>A lamp over a part of a surface cures that part; one that nobody read leaves no deadline later. Common practice, no source.</summary>
public class SectionLampTests
{
    [Theory]
    [InlineData(1)]
    [InlineData(3)]
    public void Lamp_OverOneSection_IsCreditedToThatOneOnly(int lit)
    {
        TestShop shop = Lamped(lit, _ => 60), unlit = Lamped(null, _ => 20);

        for (int section = 1; section <= 3; section++)
        {
            double savedHours = (KeepDry(unlit, section) - KeepDry(shop, section)).TotalHours;
            Assert.InRange(savedHours, section == lit ? 2.5 : -0.5, section == lit ? 4 : 0.01);
        }
    }

    [Fact]
    public void Lamp_OverAllOfIt_IsCreditedToEach()
    {
        TestShop shop = Lamped(0, _ => 60), unlit = Lamped(null, _ => 20);
        Assert.All([1, 2, 3], section => Assert.InRange((KeepDry(unlit, section) - KeepDry(shop, section)).TotalHours, 2.5, 4));
    }

    // 20 °C under the lamp as the model has it, 60 °C as it was: who reads nothing has no more time for the next layer.
    [Fact]
    public void Lamp_ThatNobodyRead_ClosesTheNextLayerNoLaterThanOneThatWasRead()
    {
        TestShop unlit = Lamped(null, _ => 20, layers: 2), read = Lamped(0, _ => 60, layers: 2), unread = Lamped(0, hour => hour < 1 ? 20 : null, layers: 2);
        Assert.True(Recoat(read) < Recoat(unlit) - TimeSpan.FromMinutes(20), $"{Recoat(read)}, without a lamp {Recoat(unlit)}");
        Assert.True(Recoat(unread) <= Recoat(read), $"{Recoat(unread)}, read {Recoat(read)}");
    }

    // The probe sits on section 1 and is still hot as the lamp goes on over section 2; a spot of section 1 says nothing of section 2 either.
    [Theory]
    [InlineData(false)]
    [InlineData(true)]
    public void Lamp_ThatWalksOn_EarnsTheNextSectionNothingByTheHeatOfTheLast(bool isOffToldBetween)
    {
        var shop = new TestShop(TestShop.Paint() with { Lamp = [LampDay.Band] }, 1, 2, Place.Outside, null, TestShop.Air("air-1"), TestShop.Panel("bonnet"));
        for (int minute = 0; minute <= 240; minute++)
        {
            double hour = minute / 60.0;
            shop.Read(hour, 20, 50).ReadPanel(hour, minute is >= 150 and <= 162 ? 60 - Math.Max(0, minute - 160) : 20, "bonnet");
            shop = minute switch
            {
                56 => shop.Tap(hour, Did.Applied),
                60 => shop.Tap(hour, Did.Levelled),
                150 => shop.Tap(hour, Did.LampOn, section: 1),
                159 when isOffToldBetween => shop.Tap(hour + 0.01, Did.LampOff, section: 1),
                160 => shop.Tap(hour, Did.LampOn, section: 2),
                161 or 162 or 163 => shop.Tap(hour, Did.Measured, section: 1, panelC: 60),
                170 => shop.Tap(hour, Did.LampOff),
                _ => shop,
            };
        }

        double Credited(int section) => shop.Report.Surfaces[0].Coats.Single(c => c.Coat.Section == section).Lamps.Sum(l => l.CreditedMinutes);
        Assert.InRange(Credited(1), 9, 10);
        Assert.Equal(0, Credited(2));
    }

    private static DateTimeOffset KeepDry(TestShop shop, int section) =>
        shop.Report.Surfaces[0].Coats.Single(c => c.Coat.Section == section).Windows.Single(w => w.Stage == WindowStage.KeepDry).ClosesAt!.Latest!.Value;

    private static DateTimeOffset Recoat(TestShop shop) => shop.Window(WindowStage.Recoat).ClosesAt!.Earliest!.Value;

    /// <summary>Levelled at one o'clock of the day, a lamp over it from 2:30 to 2:50; section 0 is all of them.</summary>
    private static TestShop Lamped(int? lit, Func<double, double?> panelC, int layers = 1)
    {
        var shop = new TestShop(TestShop.Paint() with { Lamp = [LampDay.Band] }, layers, 3, Place.Outside, null, TestShop.Air("air-1"), TestShop.Panel("bonnet"));
        for (int minute = 0; minute <= 240; minute++)
        {
            double hour = minute / 60.0;
            shop.Read(hour, 20, 50);
            if (panelC(hour) is { } celsius)
            {
                shop.ReadPanel(hour, hour is >= 2.5 and <= 2.84 ? celsius : 20, "bonnet");
            }

            shop = minute switch
            {
                56 => shop.Tap(hour, Did.Applied),
                60 => shop.Tap(hour, Did.Levelled),
                150 when lit is not null => shop.Tap(hour, Did.LampOn, section: lit == 0 ? null : lit),
                170 when lit is not null => shop.Tap(hour, Did.LampOff, section: lit == 0 ? null : lit),
                _ => shop,
            };
        }

        return shop;
    }
}
