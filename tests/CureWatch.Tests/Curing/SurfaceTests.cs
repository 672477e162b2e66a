using CureWatch.Curing;
using CureWatch.Panels;

namespace CureWatch.Tests.Curing;

public class SurfaceTests
{
    private static readonly Surface Bare = new("bonnet", Material.Steel, null, Place.Outside, "base", 1, 1, 3);

    [Theory]
    [InlineData("base 1")]
    [InlineData("base 9")]
    [InlineData("base 1, top 1")]
    [InlineData("base 2, top 3, glaze 1")]
    [InlineData("base 1, base 1, base 1")]
    public void Products_AreThoseOfTheSystemItWasGiven_AndEachLayerHasItsOwn(string system)
    {
        ProductLayers[] products =
            [.. system.Split(", ").Select((p, i) => new ProductLayers(p.Split(' ')[0], i + 1, int.Parse(p.Split(' ')[1])))];
        Surface surface = Bare.With(products);

        Assert.Equal(products, surface.Products());
        Assert.Equal(products.Sum(p => p.Layers), surface.Layers);
        IEnumerable<(string, int)> byLayer = products.SelectMany(p => Enumerable.Repeat((p.Product, p.Revision), p.Layers));
        Assert.Equal(byLayer, Enumerable.Range(1, surface.Layers).Select(surface.SheetOf));
        Assert.Equal((products[^1].Product, products[^1].Revision), surface.SheetOf(surface.Layers + 1));
    }

    [Fact]
    public void Surfaces_ThatSayTheSame_AreEqual() =>
        Assert.Equal(Bare.With([new("base", 1, 2), new("top", 4, 1)]), Bare.With([new("base", 1, 2), new("top", 4, 1)]));

    [Theory]
    [InlineData("left-door", Material.Steel, "left door", "left door")]
    [InlineData("screen", Material.Glass, "screen", "screen glass")]
    [InlineData("side-glass", Material.Glass, "side glass", "side glass")]
    public void Name_IsTheIdWithoutHyphens_AndInFullSaysGlassOnce(string id, Material material, string name, string fullName)
    {
        Surface surface = Bare with { Id = id, Material = material };
        Assert.Equal((name, fullName), (surface.Name, surface.FullName.ToString()));
    }
}
