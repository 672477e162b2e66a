using CureWatch.Benchmarks.Power;

namespace CureWatch.Service.Tests.Disk;

/// <summary>The power goes under load, and nothing acknowledged is lost. <c>power-cuts</c> of the benchmarks does the same with brokers, two hundred times.</summary>
public sealed class PowerCutTests
{
    [Theory]
    [InlineData(1)]
    [InlineData(2)]
    [InlineData(3)]
    [InlineData(4)]
    public async Task Power_ThatGoesUnderLoad_TakesNothingAcknowledged_AndLeavesNothingTwice(int seed)
    {
        var disk = new PowerCutDisk(seed);
        using var shop = new PoweredShop(seed, disk);
        await CutAsync(shop, disk);
        Assert.Empty(await shop.SettleAsync());
        Assert.Equal(0, shop.BookLosses);
        Assert.All(new[] { "reading", "tap", "job" }, kind => Assert.NotEqual(0, shop.Acknowledged(kind)));
    }

    [Fact]
    public async Task Journal_WhoseFlushDoesNothing_IsFoundToLoseWhatWasAcknowledged()
    {
        var disk = new PowerCutDisk(1, lies: path => path.StartsWith(Life.Journal, StringComparison.Ordinal));
        using var shop = new PoweredShop(1, disk);
        await CutAsync(shop, disk);
        Assert.NotEmpty(await shop.SettleAsync());
    }

    [Fact]
    public async Task Log_OfTheBook_WhoseFlushDoesNothing_IsFoundToLoseWhatTheBookSaid()
    {
        var disk = new PowerCutDisk(1, lies: path => path.EndsWith("-log", StringComparison.Ordinal));
        using var shop = new PoweredShop(1, disk);
        for (int i = 0; i < 4; i++)
        {
            await shop.CutBookedAsync(disk);
        }

        shop.Start().Dispose();
        Assert.NotEqual(0, shop.BookLosses);
    }

    [Fact]
    public async Task Book_ThatHadEverything_HasItAfterTheCut()
    {
        var disk = new PowerCutDisk(1);
        using var shop = new PoweredShop(1, disk);
        for (int i = 0; i < 4; i++)
        {
            await shop.CutBookedAsync(disk);
        }

        shop.Start().Dispose();
        Assert.Equal(0, shop.BookLosses);
    }

    private static async Task CutAsync(PoweredShop shop, PowerCutDisk disk)
    {
        for (int i = 0; i < 8; i++)
        {
            await shop.CutAsync(disk);
        }
    }
}
