using CureWatch.Panels;
using static CureWatch.Tests.Panels.Sources;

namespace CureWatch.Tests.Panels;

public class SurroundingsTests
{
    // A panel takes 5.1 of 8.29 W/m²K by radiation (4·0.9·σ·(293 K)³; ASHRAE, from memory). In a hall that keeps its coldest inner surface where DIN 4108-2 asks for
    // (f = 0.7: 12.5 °C of 20 °C with −5 °C outdoors; from memory) that is 4.6 K below the air, and a clear sky adds 0.4 K.
    [Theory]
    [InlineData(-5, 5.0)]
    [InlineData(5, 3.2)]
    [InlineData(15, 1.3)]
    [InlineData(-30, 5.0)]
    [InlineData(30, 0)]
    public void Panel_InAHallOf20Degrees_MayBeAsColdAsItsSurfacesKeepIt(double outdoorsC, double colderK) =>
        Assert.Equal(colderK, new Surroundings([Steady(0, 60, outdoorsC + 273.15, 500)]).ColderK(293.15, At(60)), 0.05);

    [Fact]
    public void NobodyMeasuresOutdoors_CountsAsAColdDay() => Assert.Equal(2, new Surroundings([]).ColderK(293.15, At(60)));

    // Losing a probe never makes anything sooner: of a mild day no less than nobody measured, of a cold one what was known.
    [Theory]
    [InlineData(18, 2)]
    [InlineData(-5, 5.0)]
    public void OutdoorProbeSilent_LeavesTheLarger(double outdoorsC, double colderK) =>
        Assert.Equal(colderK, new Surroundings([Steady(0, 60, outdoorsC + 273.15, 500)]).ColderK(293.15, At(180)), 0.05);

    [Fact]
    public void TwoOutdoorProbes_TheColderCounts()
    {
        Surroundings two = new([Steady(0, 60, 288.15, 500), Steady(0, 60, 278.15, 500)]);
        Assert.Equal(new Surroundings([Steady(0, 60, 278.15, 500)]).ColderK(293.15, At(60)), two.ColderK(293.15, At(60)), 1e-9);
    }
}
