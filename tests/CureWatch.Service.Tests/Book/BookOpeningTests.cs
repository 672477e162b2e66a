using CureWatch.Service.Book;
using CureWatch.Service.Disk;
using CureWatch.Service.Settings;
using CureWatch.Service.Tests.Settings;
using LiteDB;
using LiteDB.Engine;

namespace CureWatch.Service.Tests.Book;

public sealed class BookOpeningTests : IDisposable
{
    private static readonly DateTimeOffset At = new(2026, 5, 4, 8, 0, 0, TimeSpan.Zero);

    private readonly Written _written = new();

    private string Folder => _written.Folder;

    private string FilePath => BookOpening.PathIn(Folder);

    public void Dispose() => _written.Dispose();

    [Fact]
    public void Book_ThatIsMissing_IsBegun()
    {
        var anew = Assert.IsType<BookOpening.Anew>(BookOpening.Of(LocalDisk.Instance, Folder, 7));
        using BookFile file = anew.File;

        Assert.Equal((null, null), (anew.Doubt, anew.MovedTo));
        Assert.Equal(BookPosition.Start, file.Position());
    }

    [Fact]
    public void Book_ThatIsThere_IsGoneOnWith()
    {
        var position = new BookPosition(7, At, 5);
        Leave(position);

        var found = Assert.IsType<BookOpening.Found>(BookOpening.Of(LocalDisk.Instance, Folder, 7));

        found.File.Dispose();
        Assert.Equal(position, found.Position);
    }

    [Fact]
    public void Book_ThatWasNotClosed_IsReadFromItsLog()
    {
        using (BookFile file = Books.New(Folder))
        {
            file.Write(() => file.Positions.Upsert(StoredPosition.Of(new BookPosition(7, At, 5))));
            Assert.True(new FileInfo(BookFile.LogOf(FilePath)).Length > 0);
            _written.File("copy/book.db", "");
            File.Copy(FilePath, BookOpening.PathIn(Copy), overwrite: true);
            File.Copy(BookFile.LogOf(FilePath), BookFile.LogOf(BookOpening.PathIn(Copy)));
        }

        var found = Assert.IsType<BookOpening.Found>(BookOpening.Of(LocalDisk.Instance, Copy, 7));

        found.File.Dispose();
        Assert.Equal(7, found.Position.Sequence);
    }

    [Theory]
    [InlineData(0)]
    [InlineData(100)]
    [InlineData(8192)]
    [InlineData(81_920)]
    public void Book_OfZeros_IsMovedAside(int bytes)
    {
        File.WriteAllBytes(FilePath, new byte[bytes]);

        AssertMovedAside(1);
    }

    [Fact]
    public void Book_OfSomethingElse_IsMovedAside()
    {
        File.WriteAllText(FilePath, string.Join('\n', Enumerable.Repeat("no book", 5000)));

        AssertMovedAside(1);
    }

    [Fact]
    public void Book_CutShort_IsMovedAside()
    {
        Leave(new BookPosition(7, At, 5));
        File.WriteAllBytes(FilePath, File.ReadAllBytes(FilePath)[..8192]);

        AssertMovedAside(1);
    }

    [Fact]
    public void Book_OfAnotherVersion_IsMovedAside()
    {
        Leave(new BookPosition(7, At, 5));
        using (IDiskFile file = LocalDisk.Instance.Open(FilePath, FileUse.Write))
        using (var db = new LiteDatabase(new LiteEngine(new EngineSettings
        {
            DataStream = new PageFile(file, log: null), LogStream = new MemoryStream(), Collation = Collation.Binary,
        })))
        {
            db.UserVersion = BookFile.Version + 1;
            db.Checkpoint();
        }

        AssertMovedAside(1);
    }

    [Fact]
    public void Books_MovedAside_AreKept_TheNewestThree()
    {
        File.WriteAllText(FilePath + ".doubtful-1", "the first");
        File.WriteAllText(BookFile.LogOf(FilePath) + ".doubtful-2", "a log of the second");
        File.WriteAllText(FilePath + ".doubtful-by-hand", "somebody's own");
        File.WriteAllText(FilePath, "no book");
        AssertMovedAside(3);
        Assert.Equal("the first", File.ReadAllText(FilePath + ".doubtful-1"));

        File.WriteAllText(FilePath, "no book either");
        AssertMovedAside(4);
        Assert.Equal(
            ["book.db.doubtful-3", "book.db.doubtful-4", "book.db.doubtful-by-hand"],
            Directory.GetFiles(Folder, Path.GetFileName(FilePath) + ".doubtful-*").Select(Path.GetFileName).Order(StringComparer.Ordinal));
        Assert.True(File.Exists(BookFile.LogOf(FilePath) + ".doubtful-2"));
    }

    [Fact]
    public void Log_OfAFileThatIsGone_IsNotTakenForTheNewOnes()
    {
        Leave(new BookPosition(7, At, 5));
        File.WriteAllBytes(BookFile.LogOf(FilePath), File.ReadAllBytes(FilePath));
        File.Delete(FilePath);

        var anew = Assert.IsType<BookOpening.Anew>(BookOpening.Of(LocalDisk.Instance, Folder, 7));

        using BookFile file = anew.File;
        Assert.Equal(BookPosition.Start, file.Position());
    }

    [Fact]
    public void Journal_ShorterThanTheBook_IsRefusedInOneLine()
    {
        Leave(new BookPosition(8, At, 5));

        Fault fault = Assert.IsType<BookOpening.Refused>(BookOpening.Of(LocalDisk.Instance, Folder, 7)).Fault;

        Assert.Equal((FilePath, "position", "entry 8"), (fault.File, fault.Place, fault.Seen));
        Assert.StartsWith("at most 7, ", fault.Allowed, StringComparison.Ordinal);
        Books.Found(Folder, 8).Dispose();
    }

    [Fact]
    public void Book_ThatCannotBeOpened_IsRefusedAndLeftWhereItIs()
    {
        Directory.CreateDirectory(FilePath);
        File.WriteAllText(Path.Combine(FilePath, "x"), "");

        Fault fault = Assert.IsType<BookOpening.Refused>(BookOpening.Of(LocalDisk.Instance, Folder, 7)).Fault;

        Assert.Equal((FilePath, "file"), (fault.File, fault.Place));
        Assert.True(File.Exists(Path.Combine(FilePath, "x")));
    }

    private string Copy => Path.Combine(Folder, "copy");

    private void Leave(BookPosition position)
    {
        using BookFile file = Books.New(Folder);
        file.Write(() => file.Positions.Upsert(StoredPosition.Of(position)));
        file.Checkpoint();
    }

    private void AssertMovedAside(int number)
    {
        var anew = Assert.IsType<BookOpening.Anew>(BookOpening.Of(LocalDisk.Instance, Folder, 7));

        using BookFile file = anew.File;
        Assert.Equal($"{FilePath}.doubtful-{number}", anew.MovedTo);
        Assert.NotNull(anew.Doubt);
        Assert.True(File.Exists(anew.MovedTo));
        Assert.Equal(BookPosition.Start, file.Position());
    }
}
