using CureWatch.Service.Book;
using CureWatch.Service.Disk;
using CureWatch.Service.Pump;
using LiteDB;

namespace CureWatch.Benchmarks.Kills;

/// <summary>What is in a book, to be held against another.</summary>
internal static class BookContent
{
    /// <summary>Everything in a book that is closed, a line each.</summary>
    public static IReadOnlyList<string> In(IDisk disk, string folder)
    {
        using var book = new ClosedBook(disk, BookOpening.PathIn(folder));
        _ = book.Pages.Check(0, int.MaxValue);
        using LiteDatabase db = book.Open();
        return
        [
            .. from name in db.GetCollectionNames().Order(StringComparer.Ordinal).ToList()
               from document in db.GetCollection(name).FindAll().ToList()
               let line = $"{name} {JsonSerializer.Serialize(document)}"
               orderby line
               select line,
        ];
    }

    /// <summary>Writes a book anew from a journal, as far as another book has followed it.</summary>
    /// <returns>What is in it.</returns>
    public static IReadOnlyList<string> Rebuilt(IDisk disk, string folder, Recovery journal, long through)
    {
        disk.MakeFolder(folder);
        using (var book = new OpenBook(((BookOpening.Anew)BookOpening.Of(disk, folder, through)).File))
        {
            book.Take(journal.Steps().TakeWhile(s => s.Sequence <= through));
            book.Save();
            book.Checkpoint();
        }

        return In(disk, folder);
    }

    /// <returns>How far a book that is closed has followed the journal.</returns>
    public static BookPosition Position(IDisk disk, string folder)
    {
        using BookFile file = ((BookOpening.Found)BookOpening.Of(disk, folder, long.MaxValue)).File;
        return file.Position()!;
    }
}
