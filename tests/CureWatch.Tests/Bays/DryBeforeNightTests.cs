using CureWatch.Bays;
using CureWatch.Curing;
using CureWatch.Products;
using CureWatch.Warnings;

namespace CureWatch.Tests.Bays;

/// <summary>What is dry for good is warned of neither now nor ahead: of a night counts only as long as something has to stay dry.</summary>
public class DryBeforeNightTests
{
    // Dry by eight in the evening, water in the small hours: lock-up called it at risk and somebody to it, and the warning went away by itself.
    [Theory]
    [InlineData(3, TonightVerdict.Safe)]
    [InlineData(20, TonightVerdict.AtRisk)]
    public void LockUp_OfWhatIsDryBeforeTheWater_IsSafe(double keepDryHours, TonightVerdict verdict)
    {
        TestShop shop = Evening(keepDryHours);
        TonightReport tonight = TonightReport.Of(shop.Shop, "bay-1");
        Assert.Equal(verdict, tonight.Verdict);
        Assert.Equal(verdict == TonightVerdict.Safe, tonight.OnCall.ToString() == "On call: nobody has to come.");
        Assert.Equal(verdict == TonightVerdict.Safe, shop.Shop.Bays["bay-1"].Ahead!.Night.LeastSpreadAt < TestShop.At(18)); // twice as long as it takes: no day of the bay is known
        Assert.Equal(verdict == TonightVerdict.AtRisk, shop.Climate(10, 20, Falling).Warnings(WarningKind.CondensingAhead).Any());
    }

    // A hall that gets colder than was forecast cures slower: what is not dry yet is warned of after all.
    [Fact]
    public void KeepDry_ThatTakesLongerThanWasForecast_IsWarnedOf()
    {
        ProductSheet sheet = PromisedCar.Rows(keepDryHours: 6);
        TestShop shop = new TestShop(sheet).Climate(0, 7, Steady).Tap(6.95, Did.Applied).Tap(7, Did.Levelled).Climate(7, 10, Steady);
        Assert.Equal(TonightVerdict.Safe, TonightReport.Of(shop.Shop, "bay-1").Verdict);
        shop.Climate(10, 20, hour => (Math.Max(3, 20 - (4 * (hour - 10))), Math.Min(99, 60 + (10 * (hour - 10)))));
        Assert.NotEmpty(shop.Warnings(WarningKind.CondensingAhead).Concat(shop.Warnings(WarningKind.Condensing)));
    }

    private static (double C, double Pct) Steady(double hour) => (20, 60);

    /// <summary>Levelled at four in the afternoon; a hall that nothing heats loses half a kelvin an hour, in moist air.</summary>
    private static TestShop Evening(double keepDryHours)
    {
        ProductSheet paint = TestShop.Paint();
        ProductSheet dressing = paint with
        {
            Stages = [.. paint.Stages.Select(s => s.Stage == Stage.KeepDry ? TestShop.Row(Stage.KeepDry, Mechanism.Cure, keepDryHours) : s)],
        };
        return new TestShop(dressing).Climate(0, 8, Falling).Tap(7.95, Did.Applied).Tap(8, Did.Levelled).Climate(8, 10, Falling);
    }

    private static (double C, double Pct) Falling(double hour)
    {
        double airC = 20 - (0.5 * Math.Max(0, hour - 6)), pascals = 611.2 * Math.Exp(17.62 * 14 / (243.12 + 14));
        return (airC, Math.Min(99.9, 100 * pascals / (611.2 * Math.Exp(17.62 * airC / (243.12 + airC)))));
    }
}
