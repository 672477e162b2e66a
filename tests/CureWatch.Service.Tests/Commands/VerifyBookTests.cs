using CureWatch.Service.Book;
using CureWatch.Service.Disk;
using CureWatch.Service.Journal;
using CureWatch.Service.Settings;
using CureWatch.Service.Tests.Book;

namespace CureWatch.Service.Tests.Commands;

/// <summary>What `verify` finds in the book, beside the journal.</summary>
public sealed class VerifyBookTests : IDisposable
{
    private readonly VerifiedFolder _folder = new();

    public void Dispose() => _folder.Dispose();

    [Fact]
    public async Task Book_ThatIsLevel_SaysHowFarItIs()
    {
        await _folder.FillAsync();
        _folder.WriteBook(int.MaxValue);
        _folder.AssertWhole($"{_folder.BookPath}: at entry {_folder.Pumped.Register.Sequence}, no damage found");
    }

    [Fact]
    public async Task Book_ThatIsBehind_SaysHowFarItIs()
    {
        await _folder.FillAsync();
        _folder.WriteBook(2);
        _folder.AssertWhole($"{_folder.BookPath}: at entry 2 of {_folder.Pumped.Register.Sequence}; the next start reads on from there");
    }

    [Fact]
    public async Task Book_ThatWasNotClosed_IsReadWithItsLog_AndLeftAsItIs()
    {
        await _folder.FillAsync();
        using var file = Books.New(VerifiedFolder.Made(DataFolder.BookOf(_folder.Path)));
        using var book = new OpenBook(file);
        book.Take(_folder.Steps);
        Assert.True(new FileInfo(BookFile.LogOf(_folder.BookPath)).Length > 0);
        string copy = Path.Combine(_folder.Path, "copy");
        VerifiedFolder.Made(copy);
        File.Copy(_folder.BookPath, BookOpening.PathIn(copy));
        File.Copy(BookFile.LogOf(_folder.BookPath), BookFile.LogOf(BookOpening.PathIn(copy)));
        string before = VerifiedFolder.Content(copy);

        (bool isDamage, string says, _) = BookCheck.Of(LocalDisk.Instance, copy, _folder.Pumped.Register.Sequence);
        Assert.Equal((false, $"{BookOpening.PathIn(copy)}: at entry {_folder.Pumped.Register.Sequence}, no damage found"), (isDamage, says));

        Assert.Equal(before, VerifiedFolder.Content(copy));
    }

    [Theory]
    [InlineData(0)]
    [InlineData(20_000)]
    [InlineData(81_920)]
    public async Task Book_ThatIsDamaged_IsNamed_AndLeftAsItIs(int bytes)
    {
        await _folder.FillAsync();
        _folder.WriteBook(int.MaxValue);
        File.WriteAllBytes(_folder.BookPath, [.. File.ReadAllBytes(_folder.BookPath).Take(bytes / 2), .. new byte[bytes - (bytes / 2)]]);
        string before = VerifiedFolder.Content(DataFolder.BookOf(_folder.Path));

        Invocation run = Invocation.Of("verify", "--data", _folder.Path);

        Assert.Equal(1, run.ExitCode);
        Assert.StartsWith($"{_folder.BookPath}: ", run.Output, StringComparison.Ordinal);
        Assert.EndsWith("; the next start moves it aside and writes another from the journal\n", run.Output, StringComparison.Ordinal);
        Assert.Equal(before, VerifiedFolder.Content(DataFolder.BookOf(_folder.Path)));
    }

    [Fact]
    public async Task Book_ThatCannotBeOpened_IsNamed()
    {
        await _folder.FillAsync();
        Directory.CreateDirectory(_folder.BookPath);
        Invocation run = Invocation.Of("verify", "--data", _folder.Path);
        Assert.Equal(1, run.ExitCode);
        Assert.StartsWith($"{_folder.BookPath}: ", run.Output, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Book_WithAnUnfinishedWriteInItsLog_IsLeftAsItIs()
    {
        await _folder.FillAsync();
        _folder.WriteBook(int.MaxValue);
        File.WriteAllBytes(BookFile.LogOf(_folder.BookPath), new byte[100]);
        _folder.AssertWhole($"{BookFile.LogOf(_folder.BookPath)}: an unfinished write at its end; the next start cuts it off");
        Assert.Equal(100, new FileInfo(BookFile.LogOf(_folder.BookPath)).Length);
    }

    [Fact]
    public async Task Book_AheadOfTheJournal_IsDamage()
    {
        await _folder.FillAsync();
        using (BookFile file = Books.New(VerifiedFolder.Made(DataFolder.BookOf(_folder.Path))))
        {
            file.Write(() => file.Positions.Upsert(StoredPosition.Of(new BookPosition(1000, Journal.Entries.At, 1000))));
        }

        Invocation run = Invocation.Of("verify", "--data", _folder.Path);

        Assert.Equal(
            (1, $"{_folder.BookPath}: at entry 1000, and the journal ends with {_folder.Pumped.Register.Sequence}: it has lost its end\n"), (run.ExitCode, run.Output));
    }

    [Fact]
    public async Task Book_WhoseJournalIsGone_IsDamage()
    {
        await _folder.FillAsync();
        _folder.WriteBook(2);
        Segment.In(LocalDisk.Instance, DataFolder.JournalOf(_folder.Path)).ToList().ForEach(s => File.Delete(s.Path));
        _folder.AssertDamaged($"{_folder.BookPath}: at entry 2, and the journal ends with 0: it has lost its end");
    }

    [Fact]
    public async Task Book_ThatSaysOtherThanTheJournal_IsNamedDocumentByDocument()
    {
        await _folder.FillAsync();
        _folder.WriteBook(int.MaxValue);
        using (BookFile file = Books.Found(DataFolder.BookOf(_folder.Path)))
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

        string before = VerifiedFolder.Content(DataFolder.BookOf(_folder.Path));
        _folder.AssertDamaged(
            $"{_folder.BookPath}: jobs job-1: it is not what the journal says",
            $"{_folder.BookPath}: jobs job-2: the journal knows nothing of it",
            $"{_folder.BookPath}: open bay-1/air-1: it is not what the journal says");
        Assert.Equal(before, VerifiedFolder.Content(DataFolder.BookOf(_folder.Path)));
    }

    [Fact]
    public async Task Book_ThatLacksADocument_IsDamage()
    {
        await _folder.FillAsync();
        _folder.WriteBook(int.MaxValue);
        using (BookFile file = Books.Found(DataFolder.BookOf(_folder.Path)))
        {
            file.Write(() => file.Jobs.Delete("job-1"));
            file.Checkpoint();
        }

        _folder.AssertDamaged($"{_folder.BookPath}: jobs job-1: it is not there");
    }

    [Fact]
    public async Task Book_OfWholeBlocks_EqualsTheJournal()
    {
        for (int minute = 0; minute < (2 * ReadingBlock.Capacity) + 5; minute++)
        {
            _folder.Pumped.Clock.Advance(TimeSpan.FromMinutes(1));
            await _folder.Pumped.Read(20 + (0.01 * (minute % 100)), 50);
        }

        await _folder.FillAsync();
        _folder.WriteBook(int.MaxValue);
        _folder.AssertWhole($"{_folder.BookPath}: at entry {_folder.Pumped.Register.Sequence}, no damage found");
        using (BookFile file = Books.Found(DataFolder.BookOf(_folder.Path)))
        {
            StoredBlock block = file.Blocks.FindAll().First();
            block.Samples[7] ^= 1;
            file.Write(() => file.Blocks.Update(block));
            file.Checkpoint();
        }

        Assert.Equal(1, Invocation.Of("verify", "--data", _folder.Path).ExitCode);
    }

    [Fact]
    public async Task Book_ThatAServiceHolds_IsNotLookedAt()
    {
        await _folder.FillAsync();
        using (DataFolder.Hold(LocalDisk.Instance, _folder.Path, isDemo: false, new Faults())!)
        {
            File.WriteAllText(_folder.BookPath, "a page that is being written");
            _folder.AssertWhole($"{DataFolder.BookOf(_folder.Path)}: not looked at, for a service may be writing it; its answers say how far it is");
        }

        Assert.Equal(1, Invocation.Of("verify", "--data", _folder.Path).ExitCode);
    }
}
