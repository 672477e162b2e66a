using System.Security.Cryptography;
using CureWatch.Service.Book;
using CureWatch.Service.Disk;
using CureWatch.Service.Journal;
using CureWatch.Service.Pump;
using CureWatch.Service.Settings;
using CureWatch.Service.Tests.Book;
using CureWatch.Service.Tests.Pump;

namespace CureWatch.Service.Tests.Commands;

public sealed class VerifyCommandTests : IDisposable
{
    private readonly Pumped _pumped = new();

    private string Folder => _pumped.Folder;

    private string BookPath => BookOpening.PathIn(DataFolder.BookOf(Folder));

    private IEnumerable<Step> Steps =>
        new Recovery(LocalDisk.Instance, DataFolder.JournalOf(Folder), new EntryCodec(new KeyStore(LocalDisk.Instance, DataFolder.KeysOf(Folder)))).Steps();

    public void Dispose() => _pumped.Dispose();

    [Fact]
    public async Task Folder_WithoutABook_IsWhole()
    {
        await FillAsync();
        AssertWhole($"{BookPath}: there is none; the next start writes it from the journal");
    }

    [Fact]
    public async Task Book_ThatIsLevel_SaysHowFarItIs()
    {
        await FillAsync();
        WriteBook(int.MaxValue);
        AssertWhole($"{BookPath}: at entry {_pumped.Register.Sequence}, no damage found");
    }

    [Fact]
    public async Task Book_ThatIsBehind_SaysHowFarItIs()
    {
        await FillAsync();
        WriteBook(2);
        AssertWhole($"{BookPath}: at entry 2 of {_pumped.Register.Sequence}; the next start reads on from there");
    }

    [Fact]
    public async Task Book_ThatWasNotClosed_IsReadWithItsLog_AndLeftAsItIs()
    {
        await FillAsync();
        using var file = Books.New(Made(DataFolder.BookOf(Folder)));
        using var book = new OpenBook(file);
        book.Take(Steps);
        Assert.True(new FileInfo(BookFile.LogOf(BookPath)).Length > 0);
        string copy = Path.Combine(Folder, "copy");
        Made(copy);
        File.Copy(BookPath, BookOpening.PathIn(copy));
        File.Copy(BookFile.LogOf(BookPath), BookFile.LogOf(BookOpening.PathIn(copy)));
        string before = Content(copy);

        (bool isDamage, string says, _) = BookCheck.Of(LocalDisk.Instance, copy, _pumped.Register.Sequence);
        Assert.Equal((false, $"{BookOpening.PathIn(copy)}: at entry {_pumped.Register.Sequence}, no damage found"), (isDamage, says));

        Assert.Equal(before, Content(copy));
    }

    [Theory]
    [InlineData(0)]
    [InlineData(20_000)]
    [InlineData(81_920)]
    public async Task Book_ThatIsDamaged_IsNamed_AndLeftAsItIs(int bytes)
    {
        await FillAsync();
        WriteBook(int.MaxValue);
        File.WriteAllBytes(BookPath, [.. File.ReadAllBytes(BookPath).Take(bytes / 2), .. new byte[bytes - (bytes / 2)]]);
        string before = Content(DataFolder.BookOf(Folder));

        Invocation run = Invocation.Of("verify", "--data", Folder);

        Assert.Equal(1, run.ExitCode);
        Assert.StartsWith($"{BookPath}: ", run.Output, StringComparison.Ordinal);
        Assert.EndsWith("; the next start moves it aside and writes another from the journal\n", run.Output, StringComparison.Ordinal);
        Assert.Equal(before, Content(DataFolder.BookOf(Folder)));
    }

    [Fact]
    public async Task Book_WithAnUnfinishedWriteInItsLog_IsLeftAsItIs()
    {
        await FillAsync();
        WriteBook(int.MaxValue);
        File.WriteAllBytes(BookFile.LogOf(BookPath), new byte[100]);
        AssertWhole($"{BookFile.LogOf(BookPath)}: an unfinished write at its end; the next start cuts it off");
        Assert.Equal(100, new FileInfo(BookFile.LogOf(BookPath)).Length);
    }

    [Fact]
    public async Task Book_AheadOfTheJournal_IsDamage()
    {
        await FillAsync();
        using (BookFile file = Books.New(Made(DataFolder.BookOf(Folder))))
        {
            file.Write(() => file.Positions.Upsert(StoredPosition.Of(new BookPosition(1000, Journal.Entries.At, 1000))));
        }

        Invocation run = Invocation.Of("verify", "--data", Folder);

        Assert.Equal(
            (1, $"{BookPath}: at entry 1000, and the journal ends with {_pumped.Register.Sequence}: it has lost its end\n"), (run.ExitCode, run.Output));
    }

    [Fact]
    public async Task Journal_AndBookThatAreDamaged_AreBothNamed()
    {
        await FillAsync();
        File.WriteAllText(Path.Combine(Made(DataFolder.BookOf(Folder)), "book.db"), "no book");
        string segment = Segment.In(LocalDisk.Instance, DataFolder.JournalOf(Folder))[0].Path;
        byte[] bytes = File.ReadAllBytes(segment);
        bytes[100] ^= 1;
        File.WriteAllBytes(segment, bytes);

        Invocation run = Invocation.Of("verify", "--data", Folder);

        Assert.Equal(1, run.ExitCode);
        Assert.Equal([segment, BookPath], run.Output.TrimEnd().Split('\n').Select(l => l[..l.IndexOf(':', StringComparison.Ordinal)]));
    }

    [Fact]
    public async Task Book_WhoseJournalIsGone_IsDamage()
    {
        await FillAsync();
        WriteBook(2);
        Segment.In(LocalDisk.Instance, DataFolder.JournalOf(Folder)).ToList().ForEach(s => File.Delete(s.Path));
        AssertDamaged($"{BookPath}: at entry 2, and the journal ends with 0: it has lost its end");
    }

    [Fact]
    public async Task Book_ThatSaysOtherThanTheJournal_IsNamedDocumentByDocument()
    {
        await FillAsync();
        WriteBook(int.MaxValue);
        using (BookFile file = Books.Found(DataFolder.BookOf(Folder)))
        {
            StoredJob job = file.Jobs.FindById("job-1");
            job.Bay = "bay-2";
            StoredBlock open = file.Open.FindById("bay-1/air-1");
            open.Samples[5] ^= 1;
            file.Write(() =>
            {
                file.Jobs.Update(job);
                file.Jobs.Insert(new StoredJob { Id = "job-2" });
                file.Open.Update(open);
            });
            file.Checkpoint();
        }

        string before = Content(DataFolder.BookOf(Folder));
        AssertDamaged(
            $"{BookPath}: jobs job-1: it is not what the journal says",
            $"{BookPath}: jobs job-2: the journal knows nothing of it",
            $"{BookPath}: open bay-1/air-1: it is not what the journal says");
        Assert.Equal(before, Content(DataFolder.BookOf(Folder)));
    }

    [Fact]
    public async Task Book_ThatLacksADocument_IsDamage()
    {
        await FillAsync();
        WriteBook(int.MaxValue);
        using (BookFile file = Books.Found(DataFolder.BookOf(Folder)))
        {
            file.Write(() => file.Jobs.Delete("job-1"));
            file.Checkpoint();
        }

        AssertDamaged($"{BookPath}: jobs job-1: it is not there");
    }

    [Fact]
    public async Task Book_OfWholeBlocks_EqualsTheJournal()
    {
        for (int minute = 0; minute < (2 * ReadingBlock.Capacity) + 5; minute++)
        {
            _pumped.Clock.Advance(TimeSpan.FromMinutes(1));
            await _pumped.Read(20 + (0.01 * (minute % 100)), 50);
        }

        await FillAsync();
        WriteBook(int.MaxValue);
        AssertWhole($"{BookPath}: at entry {_pumped.Register.Sequence}, no damage found");
        using (BookFile file = Books.Found(DataFolder.BookOf(Folder)))
        {
            StoredBlock block = file.Blocks.FindAll().First();
            block.Samples[7] ^= 1;
            file.Write(() => file.Blocks.Update(block));
            file.Checkpoint();
        }

        Assert.Equal(1, Invocation.Of("verify", "--data", Folder).ExitCode);
    }

    [Theory]
    [InlineData(31)]
    [InlineData(32)]
    public async Task Key_ThatDoesNotFit_IsNamed(int bytes)
    {
        await FillAsync();
        string key = Path.Combine(DataFolder.KeysOf(Folder), "job-job-1.key");
        File.WriteAllBytes(key, new byte[bytes]);
        AssertDamaged($"{key}: it is not the key that sealed what the journal holds.");
    }

    [Fact]
    public async Task Key_ThatIsGone_IsTold_AndNoDamage()
    {
        await FillAsync();
        File.Delete(Path.Combine(DataFolder.KeysOf(Folder), "job-job-1.key"));
        Invocation run = Invocation.Of("verify", "--data", Folder);
        Assert.Contains($"{DataFolder.KeysOf(Folder)}: no key of the job job-1: what it sealed was erased, or is lost\n", run.Output, StringComparison.Ordinal);
        Assert.Equal(0, run.ExitCode);
    }

    [Fact]
    public async Task Backup_ThatIsSound_IsFoundWhole_AndADamagedOneNamed()
    {
        await FillAsync();
        string file = Path.Combine(Folder, "backup.zip");
        Assert.Equal(0, Invocation.Of("backup", file, "--data", Folder).ExitCode);
        Invocation run = Invocation.Of("verify", "--backup", file);
        Assert.Equal((0, $"{file}: {_pumped.Register.Sequence} entries in 1 segments, no damage"), (run.ExitCode, run.Output.Split('\n')[0]));

        byte[] bytes = File.ReadAllBytes(file);
        bytes[200] ^= 1;
        File.WriteAllBytes(file, bytes);
        run = Invocation.Of("verify", "--backup", file);
        Assert.Equal(1, run.ExitCode);
        Assert.StartsWith($"{file}: entry journal/00000000000000000001.journal: ", run.Output, StringComparison.Ordinal);
        Invocation.Of("verify", "--backup", "nothing.zip").AssertRefused("--backup");
        Invocation.Of("verify", "--backup", file, "--data", Folder).AssertRefused("--data");
    }

    [Fact]
    public async Task Book_ThatAServiceHolds_IsNotLookedAt()
    {
        await FillAsync();
        using (DataFolder.Hold(LocalDisk.Instance, Folder, isDemo: false, new Faults())!)
        {
            File.WriteAllText(BookPath, "a page that is being written");
            AssertWhole($"{DataFolder.BookOf(Folder)}: not looked at, for a service may be writing it; its answers say how far it is");
        }

        Assert.Equal(1, Invocation.Of("verify", "--data", Folder).ExitCode);
    }

    private async Task FillAsync()
    {
        await _pumped.Read(20, 50);
        await _pumped.StartJob();
        _pumped.Stop();
    }

    private void WriteBook(int entries) => Books.Write(Books.New(Made(DataFolder.BookOf(Folder))), Steps.Take(entries));

    private void AssertWhole(string line)
    {
        Invocation run = Invocation.Of("verify", "--data", Folder);
        Assert.Equal((0, line), (run.ExitCode, run.Output.Split('\n')[1]));
    }

    private void AssertDamaged(params string[] lines)
    {
        Invocation run = Invocation.Of("verify", "--data", Folder);
        Assert.Equal((1, ""), (run.ExitCode, run.Error));
        Assert.Equal(lines, run.Output.TrimEnd().Split('\n'));
    }

    private static string Made(string folder) => Directory.CreateDirectory(folder).FullName;

    private static string Content(string folder) => string.Join(
        ' ', Directory.GetFiles(folder).Order(StringComparer.Ordinal).Select(f => Path.GetFileName(f) + Convert.ToHexString(SHA256.HashData(File.ReadAllBytes(f)))));
}
