using CureWatch.Bays;
using CureWatch.Reports;

namespace CureWatch.Tests.Bays;

/// <summary>A bay nobody measured yet: that nothing is known is not that nothing can be done.</summary>
public class UnmeasuredPromiseTests
{
    [Theory]
    [InlineData(false)]
    [InlineData(true)]
    public void Chance_InABayThatWasNeverMeasured_IsNotKnown_AndSaysSo(bool isBegun)
    {
        PromisedCar car = new PromisedCar(40, [Equipment.FixedHeating], PromisedCar.Rows()).Take(new Message.ClockReached(PromisedCar.At(1)));
        PromiseReport promise = (isBegun ? car.Coated(1.2) : car).Promise;
        Assert.True(promise.Outlook.IsUnknown);
        Assert.Null(promise.Outlook.Chance);
        Assert.Contains("Nobody measures the air around bonnet", promise.Text.ToString(), StringComparison.Ordinal);
        Assert.DoesNotContain("0 %", promise.Text.ToString(), StringComparison.Ordinal);
        Assert.Contains("not known before its air is measured", promise.Advice.Value!.Text.ToString(), StringComparison.Ordinal);
        Assert.True(car.Steady(2, 3).Promise.Outlook.Chance > 0);
    }

    [Fact]
    public void Ranking_PutsWhatIsNotKnown_BeforeWhatIsSafe()
    {
        TestShop shop = SharedAir.Hall().Car("job-2", "bay-2", 0.5, promisedAt: TestShop.At(60)).Car("job-3", "bay-1", 0.6, promisedAt: TestShop.At(120));
        for (int minute = 60; minute < 120; minute++)
        {
            shop.Read(minute / 60.0, 20, 50);
        }

        Assert.Equal("job-2", PromiseRanking.Of(PromiseReport.OfAll(shop.Shop))[0].Job);
    }
}
