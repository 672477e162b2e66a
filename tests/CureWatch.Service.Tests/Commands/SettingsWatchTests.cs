using CureWatch.Service.Commands;
using CureWatch.Service.Journal;
using CureWatch.Service.Pump;
using CureWatch.Service.Settings;
using CureWatch.Service.Tests.Settings;
using CureWatch.Warnings;

namespace CureWatch.Service.Tests.Commands;

/// <summary>A file that the next start would refuse is told of while the service still runs.</summary>
public sealed class SettingsWatchTests : IDisposable
{
    private static readonly DateTimeOffset Now = new(2026, 5, 4, 8, 0, 0, TimeSpan.Zero);

    private readonly Written _files = new();
    private readonly Troubles _troubles = new(TimeProvider.System);
    private readonly Latest _latest = new();

    public SettingsWatchTests()
    {
        _files.File("config/shop.json", ShopVariants.Least);
        _files.File("config/products/paint.json", Sheet("keep dry"));
        Import();
    }

    private string Config => Path.Combine(_files.Folder, "config");

    public void Dispose() => _files.Dispose();

    [Fact]
    public void SoundFiles_AreNoTrouble() => Assert.Null(Trouble());

    [Theory]
    [InlineData("config/shop.json", "{", "shop.json")]
    [InlineData("config/curewatch.json", """{"board":{"port":"many"}}""", "curewatch.json: /board/port")]
    [InlineData("config/shop.json", """{"shop":"another","timeZone":"UTC","bays":[{"bay":"b","probes":[]}]}""", "shop.json: /shop")]
    public void FileWithAFault_IsToldOf_UntilItIsPutRight(string file, string text, string told)
    {
        string before = File.Exists(Path.Combine(_files.Folder, file)) ? File.ReadAllText(Path.Combine(_files.Folder, file)) : "{}";
        _files.File(file, text);
        Assert.Contains(told, Trouble()!.Why, StringComparison.Ordinal);

        _files.File(file, before);
        Assert.Null(Trouble());
    }

    [Fact]
    public void SheetChangedUnderItsRevision_IsToldOf()
    {
        _files.File("config/products/paint.json", Sheet("keep dry and cool"));
        Assert.Contains("paint.json: /revision", Trouble()!.Why, StringComparison.Ordinal);
    }

    private Trouble? Trouble()
    {
        using var watch = new SettingsWatch(Config, _latest, _troubles, TimeProvider.System);
        watch.Look();
        return _troubles.Of(WarningKind.SettingsTrouble);
    }

    private void Import()
    {
        var faults = new Faults();
        ConfigurationFolder folder = ConfigurationFolder.Find(Config, faults)!;
        long sequence = 0;
        foreach (Entry entry in Imports.Decide(_latest.Register, folder, Configuration.Read(folder, faults)!, isForced: false, faults))
        {
            _latest.Register = RegisterFold.Take(_latest.Register, ++sequence, Now, entry).After;
        }

        Assert.Empty(faults.All);
    }

    private static string Sheet(string caution) => File.ReadAllText(Path.Combine(AppContext.BaseDirectory, "config", "products", "paint-oxide-demo-r1.json"))
        .Replace("\"cautions\": [", $"\"cautions\": [\"{caution}\", ", StringComparison.Ordinal);
}
