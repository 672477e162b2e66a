using CureWatch.Products;

namespace CureWatch.Tests.Products;

public class CatalogueTests
{
    private readonly Catalogue _catalogue = new([Sheet("wax", 2), Sheet("wax", 10), Sheet("wax", 1), Sheet("tar", 7)]);

    [Fact]
    public void Newest_IsTheHighestRevision() => Assert.Equal(10, _catalogue.Newest("wax")?.Revision);

    [Fact]
    public void Find_GivesTheRevisionAskedFor() => Assert.Equal(2, _catalogue.Find("wax", 2)?.Revision);

    [Fact]
    public void Find_WithoutSuchASheet_IsNull()
    {
        Assert.Null(_catalogue.Find("wax", 3));
        Assert.Null(_catalogue.Find("soap", 1));
        Assert.Null(_catalogue.Newest("soap"));
    }

    [Fact]
    public void Sheets_AreInOrder() =>
        Assert.Equal(["tar 7", "wax 1", "wax 2", "wax 10"], _catalogue.Sheets.Select(s => $"{s.Product} {s.Revision}"));

    [Fact]
    public void SameRevisionTwice_IsRefused() => Assert.Throws<ArgumentException>(() => new Catalogue([Sheet("wax", 1), Sheet("wax", 1)]));

    private static ProductSheet Sheet(string product, int revision) => new(
        product, revision, ProductKind.Paint, Carrier.Solvent, product, "test", ReferenceClimate.Usual,
        new SheetLimits(null, null, null, null, SheetLimits.UsualSpreadMinK, null), [], [], AfterWetting.Restart, []);
}
