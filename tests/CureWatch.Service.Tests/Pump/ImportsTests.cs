using System.Collections.Immutable;
using System.Text;
using CureWatch.Service.Journal;
using CureWatch.Service.Pump;
using CureWatch.Service.Settings;
using CureWatch.Service.Tests.Commands;
using CureWatch.Service.Tests.Settings;

namespace CureWatch.Service.Tests.Pump;

public sealed class ImportsTests : IDisposable
{
    private readonly Written _written = new();
    private Register _register = Register.Blank;

    public ImportsTests()
    {
        _written.File("shop.json", RecordedDay.Shop);
        _written.File("products/paint.json", RecordedDay.Sheet);
    }

    public void Dispose() => _written.Dispose();

    [Fact]
    public void Import_AtTheFirstStart_IsWhole_AndThenNothing()
    {
        Assert.Equal(["shop test-shop 0", "product paint 1"], Import());
        Assert.Empty(Import());
    }

    [Fact]
    public void Shop_Changed_IsImportedOnce()
    {
        Import();
        _written.File("shop.json", RecordedDay.Shop.Replace("01:15:00", "00:45:00", StringComparison.Ordinal));
        Assert.Equal(["shop test-shop 0"], Import());
        Assert.Empty(Import());
        Assert.Equal(TimeSpan.FromMinutes(45), _register.Shop!.Plan.Finishing);
    }

    [Fact]
    public void Shop_ChangedOnTheBoardToo_StopsTheStartAndNamesBoth()
    {
        Import();
        string onBoard = RecordedDay.Shop.Replace("01:15:00", "00:30:00", StringComparison.Ordinal);
        Take(new Entry.SettingsChanged(new SettingsItem(SettingsItem.Shop, "test-shop", 0), "other", onBoard, SettingsOrigin.Board));
        Assert.Empty(Import()); // the file is what was last imported: the board's word stands
        _written.File("shop.json", RecordedDay.Shop.Replace("01:15:00", "00:45:00", StringComparison.Ordinal));
        var faults = new Faults();
        Decide(isForced: false, faults);
        Fault fault = Assert.Single(faults.All);
        Assert.EndsWith("shop.json", fault.File, StringComparison.Ordinal);
        Assert.Contains("the board has changed shop test-shop", fault.Allowed, StringComparison.Ordinal);
        Assert.Equal(["shop test-shop 0"], Import(isForced: true));
        Assert.Equal(TimeSpan.FromMinutes(45), _register.Shop!.Plan.Finishing);
    }

    // Rules are of files: what was taken once is in the journal for good, and must not keep a later program, or another machine, from starting.
    [Theory]
    [InlineData("\"Europe/Dublin\"", "\"Europe/Atlantis\"")]
    [InlineData("\"finishing\":\"01:15:00\"", "\"finishing\":\"200.00:00:00\"")]
    public void ShopOfTheJournal_ThatTodaysRulesRefuse_IsTakenAsItWas_AndAFileReplacesIt(string word, string other)
    {
        Assert.Contains(word, RecordedDay.Shop, StringComparison.Ordinal);
        string old = RecordedDay.Shop.Replace(word, other, StringComparison.Ordinal);
        Assert.Null(ShopFile.Parse("shop.json", Encoding.UTF8.GetBytes(old), new Faults()));
        Take(new Entry.SettingsChanged(new SettingsItem(SettingsItem.Shop, "test-shop", 0), "old", old, SettingsOrigin.File));
        Assert.Equal("test-shop", _register.Shop!.Plan.Shop);
        Assert.Equal(["shop test-shop 0", "product paint 1"], Import());
        Assert.Equal(TimeSpan.FromMinutes(75), _register.Shop!.Plan.Finishing);
    }

    [Fact]
    public void Product_WrittenOtherwise_IsTheSame_ButOtherContentIsRefused()
    {
        Import();
        _written.File("products/paint.json", RecordedDay.Sheet.Replace(":1,", ": 1 ,", StringComparison.Ordinal));
        Assert.Empty(Import());
        _written.File("products/paint.json", RecordedDay.Sheet.Replace("12:00:00", "13:00:00", StringComparison.Ordinal));
        var faults = new Faults();
        Decide(isForced: true, faults);
        Assert.Equal("/revision", Assert.Single(faults.All).Place);
        _written.File("products/paint.json", RecordedDay.Sheet.Replace("\"revision\":1", "\"revision\":2", StringComparison.Ordinal));
        Assert.Equal(["product paint 2"], Import());
        Assert.Equal([1, 2], _register.Settings.Catalogue.Sheets.Select(s => s.Revision));
    }

    [Fact]
    public void Shop_OfAnotherName_IsAForeignFolder()
    {
        Import();
        _written.File("shop.json", RecordedDay.Shop.Replace("test-shop", "other-shop", StringComparison.Ordinal));
        var faults = new Faults();
        Decide(isForced: true, faults);
        Fault fault = Assert.Single(faults.All);
        Assert.Equal("/shop", fault.Place);
        Assert.EndsWith(", or another data folder (--data)", fault.Allowed, StringComparison.Ordinal);
    }

    [Fact]
    public void Bay_WithACarInIt_CannotBeTakenAway()
    {
        Import();
        Take(new Entry.JobStarted(JobFile.Parse("job", Encoding.UTF8.GetBytes(RecordedDay.Job), Configured(), new Faults())!.Job, []));
        _written.File("shop.json", RecordedDay.Shop.Replace("\"bay-1\"", "\"bay-2\"", StringComparison.Ordinal));
        var faults = new Faults();
        Decide(isForced: true, faults);
        Assert.Contains("job-1", Assert.Single(faults.All).Allowed, StringComparison.Ordinal);
        Take(new Entry.HandedOver("job-1", null, "gone"));
        Assert.Equal(["shop test-shop 0"], Import());
    }

    private Configuration Configured() => Configuration.Read(_written.Folder, new Faults())!;

    private ImmutableArray<Entry> Decide(bool isForced, Faults faults) =>
        Imports.Decide(_register, ConfigurationFolder.Find(_written.Folder, faults)!, Configured(), isForced, faults);

    private IReadOnlyList<string> Import(bool isForced = false)
    {
        var faults = new Faults();
        ImmutableArray<Entry> entries = Decide(isForced, faults);
        Assert.Empty(faults.All);
        foreach (Entry entry in entries)
        {
            Take(entry);
        }

        return [.. entries.OfType<Entry.SettingsChanged>().Select(e => $"{e.Item.Kind} {e.Item.Id} {e.Item.Revision}")];
    }

    private void Take(Entry entry) =>
        _register = RegisterFold.Take(_register, _register.Sequence + 1, Journal.Entries.At.AddMinutes(_register.Sequence), entry).After;
}
