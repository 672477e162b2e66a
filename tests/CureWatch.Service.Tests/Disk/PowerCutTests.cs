using CureWatch.Benchmarks.Power;

namespace CureWatch.Service.Tests.Disk;

/// <summary>The power goes under load, and nothing acknowledged is lost. <c>power-cuts</c> of the benchmarks does the same with brokers, two hundred times.</summary>
public sealed class PowerCutTests
{
    /// <summary>One in a few finds out a log whose flush does nothing.</summary>
    private const int MostCuts = 100;

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
        for (int i = 0; i < MostCuts && shop.BookLosses == 0; i++)
        {
            await shop.CutAsync(disk); // how far the book is when the power goes is a matter of threads
        }

        Assert.NotEqual(0, shop.BookLosses);
    }

    private static async Task CutAsync(PoweredShop shop, PowerCutDisk disk)
    {
        for (int i = 0; i < 8; i++)
        {
            await shop.CutAsync(disk);
        }
    }
}
