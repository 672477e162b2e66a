using CureWatch.Panels;
using CureWatch.Planning;
using static CureWatch.Tests.Planning.StartCase;

namespace CureWatch.Tests.Planning;

/// <summary>How long a panel takes to a temperature by itself.</summary>
public class WarmingTests
{
    /// <summary>
    /// A panel of -5 °C in air of 20 °C: bare steel of 0.8 mm is at 12.27 °C, dew point at 50 % and 3 K, after 1.17 time constants of 5.9 min; with a cold
    /// body behind it after 20 to 29 min. Own derivation, lumped heat balance of one and of two nodes; a glass pane takes 3.6 times as long as bare steel.
    /// </summary>
    [Fact]
    public void Panel_InWarmerAir_IsThere_BetweenTheBareSkinAndTheHeaviestBody()
    {
        TimeSpan[] steel = Bounds(Material.Steel, hasBody: true), glass = Bounds(Material.Glass, hasBody: true), wheel = Bounds(Material.Casting, hasBody: false);
        Assert.Equal(7.0, steel[0].TotalMinutes, 0.15);
        Assert.InRange(steel[1].TotalMinutes, 20, 29);
        Assert.Equal(29, steel[2].TotalMinutes, 1.5);
        Assert.Equal(25, glass[0].TotalMinutes, 0.5);
        Assert.All(new[] { steel, glass, wheel }, b => Assert.Equal(b.Order(), b));
        Assert.True(wheel[0] > glass[0] && glass[0] > steel[0]);
    }

    [Theory]
    [InlineData(19.99, true)]
    [InlineData(20, false)]
    [InlineData(25, false)]
    public void Panel_GetsNoWarmerThanTheAir(double targetC, bool expected) => Assert.Equal(
        expected, new Warming(PanelHeat.Of(Material.Steel, null), HasBody: false).ReachedAt(Now, 10, 20, targetC) is not null);

    private static TimeSpan[] Bounds(Material material, bool hasBody)
    {
        var at = new Warming(PanelHeat.Of(material, null), hasBody).ReachedAt(Now, -5, 20, 12.27)!;
        return [at.Earliest!.Value - Now, at.Likely!.Value - Now, at.Latest!.Value - Now];
    }
}
