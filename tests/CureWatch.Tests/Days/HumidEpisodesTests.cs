using CureWatch.Curing;
using CureWatch.Products;
using CureWatch.Tests.Bays;
using CureWatch.Warnings;

namespace CureWatch.Tests.Days;

/// <summary>A humid evening is one warning, told in time and over when it is over; noise and a single spike are none.</summary>
public class HumidEpisodesTests
{
    private const double LimitPct = 75;

    private static readonly ProductSheet Slow = TestShop.Paint() with
    {
        Stages = [.. TestShop.Paint().Stages.Select(s => s.Stage == Stage.KeepDry ? TestShop.Row(Stage.KeepDry, Mechanism.Cure, 36) : s)],
    };

    [Theory]
    [InlineData(1)]
    [InlineData(2)]
    [InlineData(3)]
    [InlineData(4)]
    [InlineData(5)]
    public void Episodes_WithNoiseOnTheThreshold_AreOneWarningEach(int seed)
    {
        // Rises from 62 to 82 % in an hour, stays, falls again; noise of ±1 % on every reading; three times.
        var noise = new Random(seed);
        TestShop coated = Coated(hour => Truth(hour) + (2 * noise.NextDouble()) - 1);
        Warning[] warnings = [.. coated.Warnings(WarningKind.HumidityHigh)];
        Assert.Equal(3, warnings.Length);
        Assert.All(warnings, w => Assert.Equal("bonnet", w.Surface));
        for (int episode = 0; episode < 3; episode++)
        {
            double rises = Begin(episode) + ((LimitPct - 62) / 20), falls = Begin(episode) + 3 + (7.0 / 20);
            Assert.InRange(warnings[episode].RaisedAt, TestShop.At(rises - 0.1), TestShop.At(rises + 0.5));
            Assert.InRange(warnings[episode].ClearedAt!.Value, TestShop.At(falls), TestShop.At(falls + 0.75));
        }
    }

    [Theory]
    [InlineData(1)]
    [InlineData(2)]
    [InlineData(3)]
    public void Plateau_RightAtTheThreshold_IsOneWarning(int seed)
    {
        var noise = new Random(seed);
        TestShop shop = Coated(hour => (hour is > 5 and < 15 ? LimitPct + 0.5 : 60) + (2 * noise.NextDouble()) - 1);
        Assert.Single(shop.Warnings(WarningKind.HumidityHigh));
    }

    [Fact]
    public void SingleSpike_IsNoWarning() => Assert.Empty(OfClimate(Coated(hour => Math.Abs(hour - 5) < 0.001 ? 95 : 60)));

    [Fact]
    public void QuietDay_IsNoWarning()
    {
        var noise = new Random(1);
        Assert.Empty(OfClimate(Coated(hour => 60 + (5 * Math.Sin(hour / 4)) + noise.NextDouble())));
    }

    [Fact]
    public void SparseReadings_StillWarnWithinHalfAnHour()
    {
        TestShop shop = new TestShop().Read(0, 20, 60).Tap(0.1, Did.Applied).Tap(0.15, Did.Levelled);
        for (int reading = 1; reading < 40; reading++)
        {
            shop.Read(reading * 0.25, 20, reading * 0.25 is >= 3 and < 6 ? 82 : 60);
        }

        Warning warning = Assert.Single(shop.Warnings(WarningKind.HumidityHigh));
        Assert.InRange(warning.RaisedAt, TestShop.At(3), TestShop.At(3.5));
        Assert.InRange(warning.ClearedAt!.Value, TestShop.At(6), TestShop.At(6.75));
    }

    [Fact]
    public void NothingOpen_IsNoWarning() => Assert.Empty(OfClimate(new TestShop().Climate(0, 30, hour => (20, Truth(hour)))));

    private static IEnumerable<Warning> OfClimate(TestShop shop) => shop.Shop.Warnings.Values.Where(w => w.Subject.Kind <= WarningKind.CureStalled);

    /// <summary>A coat that has to be kept dry for longer than all of it lasts.</summary>
    private static TestShop Coated(Func<double, double> humidityPct) => new TestShop(Slow)
        .Climate(0, 1, h => (20, humidityPct(h))).Tap(1, Did.Applied).Tap(1.05, Did.Levelled)
        .Climate(1.1, 30, h => (20, humidityPct(h)));

    private static double Begin(int episode) => 3 + (9 * episode);

    private static double Truth(double hour)
    {
        double into = (hour - 3) % 9;
        return hour < 3 ? 62 : into < 1 ? 62 + (20 * into) : into < 3 ? 82 : into < 4 ? 82 - (20 * (into - 3)) : 62;
    }
}
