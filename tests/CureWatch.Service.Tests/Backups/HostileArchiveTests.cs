using System.Text;
using System.Text.Json.Nodes;
using CureWatch.Service.Backups;
using CureWatch.Service.Disk;
using CureWatch.Service.Journal;
using CureWatch.Service.Settings;
using CureWatch.Service.Tests.Commands;

namespace CureWatch.Service.Tests.Backups;

/// <summary>Whatever is wrong with an archive, it is refused by name and place, and nothing of it stays.</summary>
public sealed class HostileArchiveTests : RestoredArchive
{
    private const int Link = 0xA1FF << 16;

    [Fact]
    public void Forger_WhoChangesNothing_IsBelieved()
    {
        File.WriteAllBytes(Source, Forge(_ => { }));
        Assert.NotNull(Restore.Of(LocalDisk.Instance, Source, Target, new Faults()));
    }

    [Theory]
    [InlineData("../escaped")]
    [InlineData("keys/../../escaped")]
    [InlineData("/tmp/escaped")]
    [InlineData("C:\\escaped")]
    [InlineData("keys\\job-1.key")]
    [InlineData("keys/")]
    [InlineData("journal/00000000000000000001.JOURNAL")]
    [InlineData("Keys/job-1.key")]
    [InlineData("MANIFEST.json")]
    [InlineData("Demo")]
    [InlineData("demo/demo")]
    [InlineData("lock")]
    [InlineData("owner")]
    [InlineData("book/book.db")]
    [InlineData("keys/job-..key")]
    [InlineData("keys/job-\u0430.key")]
    [InlineData("journal/00000000000000000001.journal\n")]
    [InlineData("restoring/x")]
    public void Name_ThatNoBackupHolds_IsRefused(string name) => AssertRefused(
        Forge(f => f.Add(name, [1, 2, 3])), $"{Source}: entry {OneLine.Of(name)}", "saw this name");

    [Theory]
    [InlineData("keys/job-job-1.key", "the same name again")]
    [InlineData("keys/job-JOB-1.key", "this name")]
    [InlineData("manifest.json", "the same name again")]
    public void Name_ThatIsThereTwice_IsRefused(string name, string seen) => AssertRefused(
        Forge(f => f.Entries.Add((name, [1], 0))), $"{Source}: entry {name}", $"saw {seen}");

    [Theory]
    [InlineData(Link)]
    [InlineData(0x41FF << 16)]
    [InlineData(0x2180 << 16)]
    public void Entry_ThatIsNoFile_IsRefused(int attributes) => AssertRefused(
        Forge(f => f.Add("keys/job-2.key", Encoding.UTF8.GetBytes("/etc/passwd"), attributes)),
        $"{Source}: entry keys/job-2.key", "saw a link, a folder or a device");

    [Theory]
    [InlineData("keys/job-2.key", 4097)]
    [InlineData("demo", 5000)]
    public void File_LongerThanAnyOfItsKind_IsRefused(string name, int bytes) => AssertRefused(
        Forge(f => f.Add(name, new byte[bytes])), $"{Source}: entry {name}", $"saw {bytes} bytes; allowed: at most 4096");

    [Fact]
    public void Demo_ThatSaysItIsAShop_IsRefused() => AssertRefused(
        Forge(f => f.Add("demo", [])), $"{Source}: entry demo", "saw a demo's mark; allowed: as the manifest says: \"demo\": false");

    [Fact]
    public void Shop_ThatSaysItIsADemo_IsRefused() => AssertRefused(
        Forge(f => f.Manifest["demo"] = true), $"{Source}: entry demo", "saw nothing; allowed: as the manifest says: \"demo\": true");

    [Fact]
    public void Bomb_IsRefusedBeforeItGoesOff() => AssertRefused(
        Forge(f => f.Add("journal/00000000000000001000.journal", new byte[150 << 20])),
        $"{Source}: entry journal/00000000000000001000.journal", "bytes up to here; allowed: at most");

    [Fact]
    public void Bomb_OfManyEntries_IsRefused() => AssertRefused(
        Forge(f => Enumerable.Range(1000, 20).ToList().ForEach(i => f.Add($"journal/0000000000000000{i}.journal", new byte[8 << 20]))),
        $"{Source}: entry journal/0000000000000000", "bytes up to here; allowed: at most");

    [Fact]
    public void Bomb_ThatHidesItsSize_IsRefused()
    {
        byte[] bomb = Forge(f => f.Add("snapshots/00000000000000000001.snapshot", new byte[30 << 20]));
        byte[] name = Encoding.ASCII.GetBytes("snapshots/00000000000000000001.snapshot");
        int inDirectory = bomb.AsSpan().LastIndexOf(name) - 46;
        BitConverter.GetBytes(32).CopyTo(bomb, inDirectory + 24);   // the length in the list of entries
        AssertRefused(Forged.Sealed(bomb), $"{Source}: entry snapshots/", "saw 32 bytes; allowed: 31457280 bytes, says the manifest");
    }

    [Fact]
    public void Manifest_ThatIsMissing_IsRefused() =>
        AssertRefused(Forge(f => f.Text = _ => null), $"{Source}: entry manifest.json", "saw nothing");

    [Theory]
    [InlineData("""{"form":2,"new":"things"}""", "/form: saw 2; allowed: a whole number 1 to 1")]
    [InlineData("[]", "/form: saw nothing")]
    [InlineData("""{"form":1}""", "/program: saw nothing")]
    [InlineData("no json", "line 1")]
    public void Manifest_OfAnotherForm_IsRefused(string text, string said) =>
        AssertRefused(Forge(f => f.Text = _ => text), $"{Source}: manifest.json: ", said);

    [Fact]
    public void Manifest_ThatTellsMoreThanThereIs_IsRefused() => AssertRefused(
        Forge(f =>
        {
            f.Add("keys/job-2.key", new byte[32]);
            f.Entries.RemoveAt(f.Entries.Count - 1);
        }),
        $"{Source}: entry keys/job-2.key", "saw nothing; allowed: 32 bytes, says the manifest");

    [Fact]
    public void Manifest_ThatTellsLessThanThereIs_IsRefused() => AssertRefused(
        Forge(f => f.Entries.Add(("keys/job-2.key", new byte[32], 0))), $"{Source}: entry keys/job-2.key", "saw an entry the manifest does not tell");

    [Fact]
    public void Manifest_ThatTellsAFileTwice_IsRefused() => AssertRefused(
        Forge(f => f.Manifest["files"]!.AsArray().Add(f.Manifest["files"]![0]!.DeepClone())), $"{Source}: entry journal/", "told twice");

    [Fact]
    public void Content_ThatIsNotTheManifests_IsRefused() => AssertRefused(
        Forge(f => f.Entries[^1].Content[0] ^= 1), $"{Source}: entry keys/job-job-1.key", "saw SHA-256");

    [Fact]
    public void Journal_ThatWasNeverWrittenByThisProgram_IsRefused() => AssertRefused(
        Forge(f =>
        {
            byte[] content = [.. f.Entries[1].Content];
            content[60] ^= 1;
            f.Change(1, content);
        }),
        $"{Source}: entry journal/", "byte 40: ");

    [Fact]
    public void Journal_WithASegmentLeftOut_IsRefused() => AssertRefused(
        Forge(f =>
        {
            f.Entries.RemoveAt(1);
            f.Manifest["files"]!.AsArray().RemoveAt(1);
        }),
        $"{Source}: entry journal/", "but the frame before is");

    [Theory]
    [InlineData("last", "1000000", "saw its end at entry")]
    [InlineData("id", "\"00000000000000000000000000000000\"", "says the manifest")]
    public void Journal_ThatIsNotTheManifests_IsRefused(string key, string value, string said) =>
        AssertRefused(Forge(f => f.Manifest["journal"]![key] = JsonNode.Parse(value)), $"{Source}: journal", said);

    [Fact]
    public void Source_ThatIsNotThere_IsRefused() => Invocation.Of("restore", Source, "--data", Target).AssertRefused($"{Source}: file");

    [Fact]
    public void Folder_WithAnythingInIt_IsRefused_AndNamesIt()
    {
        Directory.CreateDirectory(Target);
        File.WriteAllText(Path.Combine(Target, "holiday.txt"), "");
        File.WriteAllBytes(Source, Genuine);
        Invocation run = Invocation.Of("restore", Source, "--data", Target);
        run.AssertRefused($"{Target}: data folder");
        Assert.Contains("saw holiday.txt in it", run.Error, StringComparison.Ordinal);
        Assert.Equal(["holiday.txt"], Directory.GetFileSystemEntries(Target).Select(Path.GetFileName));
    }

    [Fact]
    public void Folder_ThatIsAFreshDisk_IsRestoredInto()
    {
        string mark = Directory.CreateDirectory(Path.Combine(Target, "lost+found")).FullName;
        File.WriteAllBytes(Source, Genuine);
        Assert.Equal(0, Invocation.Of("restore", Source, "--data", Target).ExitCode);
        Assert.True(Directory.Exists(mark));
        Assert.Equal(0, Invocation.Of("verify", "--data", Target).ExitCode);
    }

    [Fact]
    public void Folder_InUse_IsRefused()
    {
        using (DataFolder.Hold(LocalDisk.Instance, Target, isDemo: false, new Faults())!)
        {
            File.WriteAllBytes(Source, Genuine);
            Invocation run = Invocation.Of("restore", Source, "--data", Target);
            run.AssertRefused($"{Target}: data folder");
            Assert.Contains("a data folder in use", run.Error, StringComparison.Ordinal);
        }
    }

    [Fact]
    public void Folder_ThatIsEmpty_IsTaken_AndLeftEmptyWhenRefused()
    {
        Directory.CreateDirectory(Target);
        File.WriteAllBytes(Source, Forge(f => f.Entries[^1].Content[0] ^= 1));
        Assert.Null(Restore.Of(LocalDisk.Instance, Source, Target, new Faults()));
        Assert.Empty(Directory.GetFileSystemEntries(Target));
        File.WriteAllBytes(Source, Genuine);
        Assert.NotNull(Restore.Of(LocalDisk.Instance, Source, Target, new Faults()));
    }
}
