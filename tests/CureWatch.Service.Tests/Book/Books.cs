using CureWatch.Service.Book;
using CureWatch.Service.Pump;
using LiteDB;

namespace CureWatch.Service.Tests.Book;

/// <summary>Opens, fills and compares books.</summary>
internal static class Books
{
    public static BookFile New(string folder) => Assert.IsType<BookOpening.Anew>(BookOpening.Of(folder, 0)).File;

    public static BookFile Found(string folder, long journalLast = long.MaxValue) =>
        Assert.IsType<BookOpening.Found>(BookOpening.Of(folder, journalLast)).File;

    /// <summary>Writes a book in one go and leaves it as a stop would.</summary>
    public static void Write(BookFile file, IEnumerable<Step> steps)
    {
        using var book = new OpenBook(file);
        book.Take(steps);
        book.Save();
        book.Checkpoint();
    }

    /// <summary>Everything in a book that is closed, a line each.</summary>
    public static IReadOnlyList<string> Content(string folder)
    {
        using var db = new LiteDatabase(
            new ConnectionString { Filename = BookOpening.PathIn(folder), Collation = Collation.Binary, ReadOnly = true });
        return
        [
            .. from name in db.GetCollectionNames().Order(StringComparer.Ordinal).ToList()
               from document in db.GetCollection(name).FindAll().ToList()
               let line = $"{name} {JsonSerializer.Serialize(document)}"
               orderby line
               select line,
        ];
    }
}
