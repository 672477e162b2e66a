using CureWatch.Service.Settings;

namespace CureWatch.Service.Tests.Settings;

public sealed class ConfigurationTests : IDisposable
{
    private readonly Written _written = new();
    private readonly Faults _faults = new();

    public ConfigurationTests()
    {
        _written.File("shop.json", ShopVariants.Least);
        _written.File("products/x-r1.json", SheetVariants.Least);
    }

    public void Dispose() => _written.Dispose();

    [Fact]
    public void Folder_WithShopAndSheets_IsRead()
    {
        Configuration configuration = Read()!;

        Assert.Empty(_faults.All);
        Assert.Equal("s", configuration.Shop.Plan.Shop);
        Assert.Equal(1, configuration.Catalogue.Newest("x")?.Revision);
    }

    [Fact]
    public void FilesBesideTheSheets_AreIgnored()
    {
        _written.File("products/notes.txt", "no sheet");
        _written.File("products/old/x-r0.json", "no sheet");
        _written.File("example/job.json", "not looked at");

        Assert.NotNull(Read());
    }

    [Fact]
    public void Sheet_WhoseEndingIsInCapitals_IsReadToo()
    {
        _written.File("products/Y-R2.JSON", Edited.At(SheetVariants.Least, "/revision", "2"));

        Assert.Equal(2, Read()!.Catalogue.Newest("x")?.Revision);
    }

    [Fact]
    public void Folder_WithoutSheets_IsAShopThatOnlyWatches()
    {
        Directory.Delete(Path.Combine(_written.Folder, "products"), recursive: true);

        Assert.Empty(Read()!.Catalogue.Sheets);
    }

    [Fact]
    public void SameRevision_InTwoFiles_IsRefusedNamingBoth()
    {
        string second = _written.File("products/y.json", SheetVariants.Least);

        Assert.Null(Read());
        Fault fault = Assert.Single(_faults.All);
        Assert.Equal((second, "/revision", "x revision 1"), (fault.File, fault.Place, fault.Seen));
        Assert.Contains(Path.Combine(_written.Folder, "products", "x-r1.json"), fault.Allowed, StringComparison.Ordinal);
    }

    [Fact]
    public void Faults_OfEveryFile_AreNamed()
    {
        _written.File("shop.json", "{");
        _written.File("products/a.json", "{}");
        _written.File("products/b.json", Edited.At(SheetVariants.Least, "/kind", "7"));

        Assert.Null(Read());
        Assert.Equal(
            ["a.json", "b.json", "shop.json"], _faults.All.Select(f => Path.GetFileName(f.File)).Distinct().Order());
    }

    [Fact]
    public void Shop_ThatIsMissing_IsAFaultOfItsFile()
    {
        File.Delete(Path.Combine(_written.Folder, "shop.json"));

        Assert.Null(Read());
        Assert.Equal((Path.Combine(_written.Folder, "shop.json"), "no such file"), _faults.All.Select(f => (f.File, f.Seen)).Single());
    }

    [Fact]
    public void Folder_ThatIsMissing_IsNone()
    {
        Assert.Null(ConfigurationFolder.Find(Path.Combine(_written.Folder, "nowhere"), _faults));
        Assert.Equal("no such directory", Assert.Single(_faults.All).Seen);
    }

    [Fact]
    public void HowTheServiceRuns_IsNoPartOfIt()
    {
        _written.File("curewatch.json", "{");

        Assert.NotNull(Read());
    }

    private Configuration? Read() => Configuration.Read(_written.Folder, _faults);
}
