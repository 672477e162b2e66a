using CureWatch.Bays;
using CureWatch.Curing;

namespace CureWatch.Tests.Bays;

public class OldCoatTests
{
    // A shop that was off for a year took a quarter of an hour to start: the coat was looked at every five minutes of it.
    [Fact]
    public void Coat_WhereNobodyMeasures_IsLookedAtEverMoreSeldom()
    {
        const int Hour = 400 * 24;
        TestShop shop = new TestShop().Steady(0, 0.2).Until(Hour).Tap(Hour, Did.Applied);
        Assert.InRange(LooksUntil(shop, Hour + 240), 240, 800);
        Assert.InRange(LooksUntil(shop, Hour + 480), 10, 100);
    }

    private static int LooksUntil(TestShop shop, double hour)
    {
        int before = shop.Happened.Count;
        shop.Until(hour);
        return shop.Happened.Skip(before).OfType<ShopEvent.CoatForeseen>().Count();
    }
}
