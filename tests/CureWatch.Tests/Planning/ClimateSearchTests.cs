using CureWatch.Planning;

namespace CureWatch.Tests.Planning;

/// <summary>The least that makes a promise is never what a sheet does not allow, however far from it the bay is now.</summary>
public class ClimateSearchTests
{
    private static readonly DateTimeOffset Now = new(2026, 6, 11, 15, 0, 0, TimeSpan.Zero);

    [Theory]
    [InlineData(34, 8)] // a desert afternoon
    [InlineData(4, 90)] // an unheated bay in winter
    [InlineData(20, 50)]
    [InlineData(18, 29.5)]
    public void Way_IsWithinTheSheets(double airC, double pct)
    {
        var reach = new ClimateReach(airC, pct / 100 * Pascals(airC), 35, 30, 75, $"heat", null, $"water", $"a dehumidifier") { ColdestC = 12 };
        WayBack[] ways = [.. new ClimateSearch(reach, 0.9, Now, _ => new Prospect(0.95, Now)).Ways()];
        Assert.NotEmpty(ways);
        Assert.All(ways.Where(w => w.Kind is not WayKind.Air), w => Assert.InRange(w.HumidityPct!.Value, 30, 75));
        Assert.All(ways.Where(w => w.AirC is not null), w => Assert.InRange(w.AirC!.Value, 12, 35));
    }

    [Fact]
    public void Step_IsTheFirstBeyondTheAir_WhereThatIsWithinTheSheets()
    {
        var reach = new ClimateReach(20.2, 0.5 * Pascals(20.2), 30, 30, 75, $"heat", null, $"water", null) { ColdestC = 10 };
        WayBack[] ways = [.. new ClimateSearch(reach, 0.9, Now, held => new Prospect(held.LeastAirKelvins is null ? 0.9 : 0.95, Now)).Ways()];
        Assert.Equal(20.5, ways.Single(w => w.Kind == WayKind.Heat).AirC);
        Assert.InRange(ways.Single(w => w.Kind == WayKind.Moisten).HumidityPct!.Value, 51, 52);
    }

    private static double Pascals(double celsius) => 611.2 * Math.Exp(17.62 * celsius / (243.12 + celsius));
}
