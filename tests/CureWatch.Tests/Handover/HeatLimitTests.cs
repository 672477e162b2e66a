using CureWatch.Curing;
using CureWatch.Handover;
using CureWatch.Panels;
using CureWatch.Products;
using CureWatch.Tests.Bays;

namespace CureWatch.Tests.Handover;

/// <summary>The lowest limit on a surface rules; a sheet lifts the usual one only of what it is for. Common practice, no source.</summary>
public class HeatLimitTests
{
    [Theory]
    [InlineData(Material.Film, Material.Plastic, ProductKind.Film, 80.0, 60)] // it spoke for the plastic under it
    [InlineData(Material.Film, Material.Steel, ProductKind.Film, 80.0, 80)]
    [InlineData(Material.Film, null, ProductKind.Film, null, 60)]
    [InlineData(Material.Film, Material.Plastic, ProductKind.Film, 55.0, 55)]
    [InlineData(Material.Plastic, null, ProductKind.Trim, 75.0, 75)]
    [InlineData(Material.Plastic, null, ProductKind.Paint, 75.0, 60)]
    [InlineData(Material.Steel, null, ProductKind.Paint, 75.0, 75)]
    [InlineData(Material.Steel, null, ProductKind.Paint, null, double.PositiveInfinity)]
    public void Limit_IsTheLowestOnTheSurface(Material material, Material? over, ProductKind kind, double? statedC, double expectedC)
    {
        var surface = new Surface("one", material, over, Place.Outside, "paint", 1, 1, 1);
        Assert.Equal(expectedC, HeatLimit.OfC(surface, TestShop.Paint(heatMaxC: statedC) with { Kind = kind }));
    }
}
