using CureWatch.Panels;
using CureWatch.Psychrometrics;
using CureWatch.Units;

namespace CureWatch.Tests.Panels;

public class ColdSkinTests
{
    private static readonly DateTimeOffset Start = new(2026, 1, 5, 8, 0, 0, TimeSpan.Zero);

    // A steel skin on a body of 15 to 28 kJ/m²K that is as cold, −5 °C in air of 20 °C, minutes to the dew point + 3 K: integrated numerically for this
    // project's notes with 8.3 and 4.5 W/m²K.
    [Theory]
    [InlineData(40, 8, 8)]
    [InlineData(50, 20, 29)]
    [InlineData(60, 58, 100)]
    [InlineData(70, 114, 204)]
    public void Steel_OnAColdBody_TakesSeveralTimesAsLong(double humidityPct, double light, double heavy)
    {
        Assert.Equal(light, Minutes(Steel(TwoNode.LightBodyJm2K), humidityPct), 0.03 * light + 1);
        Assert.Equal(heavy, Minutes(Steel(TwoNode.HeavyBodyJm2K), humidityPct), 0.03 * heavy + 1);
    }

    // An Euler integration of the same two balances, in steps of a tenth of a second.
    [Fact]
    public void TwoNode_InAirThatRuns_IsTheIntegralOfItsBalances()
    {
        var node = new TwoNode(2952, 20_000);
        double skin = 268, body = 265;
        for (int i = 0; i < 18_000; i++)
        {
            double air = 285 + (i * 10.0 / 18_000);
            (skin, body) = (skin + (0.1 * ((8.29 * (air - skin)) + (4.5 * (body - skin))) / 2952), body + (0.1 * 4.5 * (skin - body) / 20_000));
        }

        (double Skin, double Body) exact = node.After((268, 265), 285, 295, TimeSpan.FromMinutes(30));
        Assert.Equal(skin, exact.Skin, 0.01);
        Assert.Equal(body, exact.Body, 0.01);
    }

    [Fact]
    public void Skin_ReadByHand_RunsThroughTheReading()
    {
        IReadOnlyList<ClimateSegment> air = Air(50, minutes: 4);
        var skin = new ColdSkin(new TwoNode(2952, 0), Start, Celsius.KelvinsAtZero - 5);
        (_, _, double now) = skin.Through(Start.AddMinutes(4), Celsius.KelvinsAtZero + 5, air).DryAt(air, 3);
        Assert.Equal(5, now - Celsius.KelvinsAtZero, 0.01);
        double dry = Minutes(skin.Through(Start.AddMinutes(4), Celsius.KelvinsAtZero + 5, air), 50);
        Assert.Equal(7.83 * 1.174, dry, 0.05); // its time constant is 7.83 min, and it takes 1.17 of them
    }

    [Fact]
    public void Skin_InAirTooMoist_IsNeverDryEnough() => Assert.Null(Steel(0).DryAt(Air(85, 1), 3).At);

    private static ColdSkin Steel(double bodyJm2K) => new(new TwoNode(2952, bodyJm2K), Start, Celsius.KelvinsAtZero - 5);

    private static double Minutes(ColdSkin skin, double humidityPct) => (skin.DryAt(Air(humidityPct, 4), 3).At!.Value - Start).TotalMinutes;

    private static IReadOnlyList<ClimateSegment> Air(double humidityPct, double minutes)
    {
        double kelvins = Celsius.KelvinsAtZero + 20;
        var held = new Exposure(kelvins, humidityPct / 100 * SaturationPressure.OverWaterPa(kelvins), kelvins);
        return [ClimateSegment.Plain(Start, Start.AddMinutes(minutes), held, held)];
    }
}
