using CsCheck;
using CureWatch.Bays;
using CureWatch.Handover;
using CureWatch.Panels;
using CureWatch.Readings;

namespace CureWatch.Tests.Bays;

public class BayStatesTests
{
    /// <summary>Several rows, and more rows than a block has.</summary>
    private const int Bays = 1_100;

    private static readonly Shop Opening = Shop.Opening(
        new ShopPlan("many", OpeningHours.Always(TimeZoneInfo.Utc), TimeSpan.Zero, [.. Enumerable.Range(0, Bays).Select(i => Bay($"bay-{i}", 1 + (i % 3)))]),
        [TestShop.Paint()],
        TestShop.Start);

    // Beside a look at every bay.
    [Fact]
    public void WhatIsFiled_HoweverManyBaysAreHeard_IsFoundInOrder() => Gen.Select(Gen.Int[0, Bays - 1].Array[0, 40], Gen.Int[0, 12]).Sample((heard, minutes) =>
    {
        Shop shop = Opening;
        for (int i = 0; i < heard.Length; i++)
        {
            DateTimeOffset at = TestShop.Start.AddSeconds(15 * i);
            shop = ShopFold.Take(shop, new Message.ReadingCame(new RawReading($"bay-{heard[i]}", "air-1", at, at, 20, 50, null))).Shop;
        }

        DateTimeOffset by = TestShop.Start.AddMinutes(minutes);
        Assert.Equal(shop.Bays.Values.Min(b => b.FiledAt), shop.Bays.NextFiledAt);
        Assert.Equal(
            shop.Bays.Values.Where(b => b.FiledAt <= by).OrderBy(b => b.FiledAt).ThenBy(b => b.Plan.Bay, StringComparer.Ordinal).Select(b => b.Plan.Bay),
            shop.Bays.FiledBy(by).Select(b => b.Plan.Bay));
        Assert.Equal(shop.Bays.FiledBy(DateTimeOffset.MaxValue).FirstOrDefault(), shop.Bays.FirstFiled);
    });

    // It falls silent three minutes after its last reading; it is filed at every other one, not with each and not after it is due.
    [Fact]
    public void Bay_HeardEveryMinute_IsFiledAnewOnceWhereItStandsIsNearerThanHalfWay()
    {
        var shop = new TestShop();
        DateTimeOffset?[] filed = [.. Enumerable.Range(0, 5).Select(minute => shop.Read(minute / 60.0, 20, 50).Shop.Bays["bay-1"].FiledAt)];
        Assert.Equal([Minute(3), Minute(3), Minute(5), Minute(5), Minute(7)], filed);
        Assert.Equal(Minute(7), shop.Shop.Bays["bay-1"].DueAt);
    }

    private static DateTimeOffset Minute(int minute) => TestShop.Start.AddMinutes(minute);

    private static BayPlan Bay(string id, int everyMinutes)
    {
        var probe = new Probe("air-1", Measures.Air, 0, 0, 0.3, 2, TimeSpan.FromMinutes(everyMinutes));
        return new BayPlan(id, 1013.25, id, [], [new ProbeMount(probe, null, Place.Outside)]);
    }
}
