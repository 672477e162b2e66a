using CureWatch.Curing;
using CureWatch.Handover;
using CureWatch.TimeWindows;

namespace CureWatch.Tests.Bays;

/// <summary>What would be told if a probe at fault were put right now, beside what is told then.</summary>
public class MendedTests
{
    [Fact]
    public void HumidityStuck_OfTheOnlyProbe_TellsWhatEndsIt_AndWhenItWouldBeOver_AsItIsThen()
    {
        TestShop shop = StuckUntil(7);
        Window held = shop.Window(WindowStage.KeepDry);
        Hold hold = Assert.Single(shop.Holds, h => h.Kind == HoldKind.KeepDry);
        Assert.Contains("A reading that moves again ends it", Assert.Single(held.Because, b => b.To is null).Ends?.ToString(), StringComparison.Ordinal);
        Assert.Contains("Put right now, it would be over", hold.Text.ToString(), StringComparison.Ordinal);
        Assert.True(held.IfMended!.Latest < held.ClosesAt!.Latest - TimeSpan.FromMinutes(30), $"{held.IfMended.Latest} {held.ClosesAt.Latest}");
        Assert.Equal(shop.Report.Ruling.IfMended, held.IfMended);

        TestShop mended = shop.Read(7 + (1 / 60.0), Airs(7).C, 55.5);
        Assert.Equal(held.IfMended.Latest!.Value, mended.Window(WindowStage.KeepDry).ClosesAt!.Latest!.Value, TimeSpan.FromMinutes(30));
        Assert.Null(mended.Window(WindowStage.KeepDry).IfMended);
        Assert.DoesNotContain(mended.Window(WindowStage.KeepDry).Because, b => b.Ends is not null);
    }

    [Fact]
    public void SilentProbe_HeardAgain_IsAsWasSaid()
    {
        TestShop shop = StuckUntil(3).Until(5);
        Window held = shop.Window(WindowStage.KeepDry);
        Assert.Contains("Its next reading ends it", Assert.Single(held.Because, b => b.To is null).Ends?.ToString(), StringComparison.Ordinal);
        TestShop heard = shop.Read(5.001, Airs(3).C, Airs(3).Pct).Until(5.002);
        Assert.Equal(held.IfMended!.Latest!.Value, heard.Window(WindowStage.KeepDry).ClosesAt!.Latest!.Value, TimeSpan.FromMinutes(2));
    }

    [Fact]
    public void SoundProbe_HasNothingToMend()
    {
        TestShop shop = StuckUntil(3);
        Assert.Null(shop.Window(WindowStage.KeepDry).IfMended);
        Assert.Null(shop.Report.Ruling.IfMended);
    }

    private static (double C, double Pct) Airs(double hour) => (Math.Round(20 + Math.Sin(hour), 1), Math.Round(55 + (2 * Math.Sin(2 * hour)), 1));

    private static TestShop StuckUntil(double lastHour)
    {
        TestShop shop = new();
        for (int minute = 0; minute <= lastHour * 60; minute++)
        {
            double hour = minute / 60.0;
            shop.Read(hour, Airs(hour).C, Airs(Math.Min(hour, 4)).Pct);
            shop = minute == 60 ? shop.Tap(1, Did.Applied) : minute == 63 ? shop.Tap(hour, Did.Levelled) : shop;
        }

        return shop.Until(lastHour);
    }
}
