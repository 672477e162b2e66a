using CureWatch.Service.Disk;
using LiteDB;

namespace CureWatch.Service.Book;

/// <summary>Looks a book over that nobody holds, and leaves every byte as it is.</summary>
/// <remarks>
/// LiteDB cuts a page that is only half there off the end of a file, read-only or not; so no file that ends in one is opened here, and none that
/// a service may be writing to, whose last page would seem so.
/// </remarks>
internal static class BookCheck
{
    private const string Mended = "the next start moves it aside and writes another from the journal";

    /// <param name="disk">The disk.</param>
    /// <param name="folder">The folder of the book.</param>
    /// <param name="journalLast">The number of the journal's last entry; null where it is not known.</param>
    /// <returns>What there is to say of it, whether that is damage, and how far it is where it can be held against the journal.</returns>
    public static (bool IsDamage, string Says, BookPosition? Position) Of(IDisk disk, string folder, long? journalLast)
    {
        string path = BookOpening.PathIn(folder);
        try
        {
            if (!disk.Exists(path))
            {
                return (false, $"{path}: there is none; the next start writes it from the journal", null);
            }

            using var book = new ClosedBook(disk, path);
            bool endsInAPage = book.Length == 0 || book.Pages.EndsInAPage;
            return endsInAPage && book.Log?.Length > 0 ? (false, $"{path}: an unfinished write at its end; the next start takes what it lacks from its log", null)
                : endsInAPage ? (true, $"{path}: byte {book.Length}: it ends before its page does; {Mended}", null)
                : book.Log?.IsTorn == true ? (false, $"{BookFile.LogOf(path)}: an unfinished write at its end; the next start cuts it off", null)
                : Judge(path, Read(book), journalLast);
        }
        catch (UnauthorizedAccessException e)
        {
            return (true, $"{path}: {e.Message}", null);
        }
#pragma warning disable CA1031 // a broken file makes the store throw whatever it stumbles over
        catch (Exception e)
#pragma warning restore CA1031
        {
            return (true, $"{path}: {e.Message.ReplaceLineEndings(" ")}; {Mended}", null);
        }
    }

    private static (bool IsDamage, string Says, BookPosition? Position) Judge(string path, BookPosition? found, long? journalLast) => found switch
    {
        null => (false, $"{path}: of another version; the next start writes it anew from the journal", null),
        _ when found.Sequence > journalLast => (true, $"{path}: at entry {found.Sequence}, and the journal ends with {journalLast}: it has lost its end", null),
        _ when found.Sequence < journalLast => (false, $"{path}: at entry {found.Sequence} of {journalLast}; the next start reads on from there", found),
        _ => (false, $"{path}: at entry {found.Sequence}, no damage found", found),
    };

    /// <summary>Reads everything in a book.</summary>
    /// <returns>How far it is; null where it is of another version.</returns>
    private static BookPosition? Read(ClosedBook book)
    {
        _ = book.Pages.Check(0, int.MaxValue);

        using LiteDatabase db = book.Open();
        if (db.UserVersion != BookFile.Version)
        {
            return null;
        }

        foreach (string name in db.GetCollectionNames().ToList())
        {
            foreach (BsonDocument document in db.GetCollection(name).FindAll())
            {
                _ = document.Count;   // of pages that hang together as they were not written, a checksum says nothing
            }
        }

        return db.GetCollection<StoredPosition>("positions").FindById(StoredPosition.OnlyId)?.Read()
            ?? throw new InvalidDataException("it does not say how far it is");
    }
}
