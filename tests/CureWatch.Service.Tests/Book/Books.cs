using CureWatch.Benchmarks.Kills;
using CureWatch.Service.Book;
using CureWatch.Service.Disk;
using CureWatch.Service.Pump;

namespace CureWatch.Service.Tests.Book;

/// <summary>Opens, fills and compares books.</summary>
internal static class Books
{
    public static BookFile New(string folder) => Assert.IsType<BookOpening.Anew>(BookOpening.Of(LocalDisk.Instance, folder, 0)).File;

    public static BookFile Found(string folder, long journalLast = long.MaxValue) =>
        Assert.IsType<BookOpening.Found>(BookOpening.Of(LocalDisk.Instance, folder, journalLast)).File;

    /// <summary>Writes a book in one go and leaves it as a stop would.</summary>
    public static void Write(BookFile file, IEnumerable<Step> steps)
    {
        using var book = new OpenBook(file);
        book.Take(steps);
        book.Save();
        book.Checkpoint();
    }

    /// <inheritdoc cref="BookContent.In"/>
    public static IReadOnlyList<string> Content(string folder) => BookContent.In(LocalDisk.Instance, folder);
}
