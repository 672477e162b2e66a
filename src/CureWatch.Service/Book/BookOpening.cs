using System.Globalization;
using CureWatch.Service.Disk;
using CureWatch.Service.Settings;

namespace CureWatch.Service.Book;

/// <summary>How the book was found when it was opened.</summary>
internal abstract record BookOpening
{
    private const string FileName = "book.db";
    private const string Mark = ".doubtful-";

    /// <summary>How many books moved aside are kept. Source (choice): enough to look into, and a disk that goes bad is not filled with copies of what the journal holds.</summary>
    private const int KeptAside = 3;

    private BookOpening()
    {
    }

    /// <summary>It is as it was left, or as far as the disk kept it.</summary>
    internal sealed record Found(BookFile File, BookPosition Position) : BookOpening;

    /// <summary>There is a new one, to be filled from the journal.</summary>
    /// <param name="File">The new book.</param>
    /// <param name="Doubt">What was wrong with the old one; null where there was none.</param>
    /// <param name="MovedTo">Where the old one is now; null where there was none.</param>
    internal sealed record Anew(BookFile File, string? Doubt, string? MovedTo) : BookOpening;

    /// <summary>The start must not go on.</summary>
    internal sealed record Refused(Fault Fault) : BookOpening;

    /// <summary>Opens the book of a data folder.</summary>
    /// <param name="disk">The disk.</param>
    /// <param name="folder">The folder of the book.</param>
    /// <param name="journalLast">The number of the journal's last entry.</param>
    public static BookOpening Of(IDisk disk, string folder, long journalLast)
    {
        string path = PathIn(folder);
        try
        {
            if (!disk.Exists(path))
            {
                return new Anew(New(disk, path), null, null);
            }

            using (disk.Open(path, FileUse.Write))
            {
                // Whoever may not write it learns that here; what the store stumbles over afterwards is the content.
            }

            (BookFile? file, BookPosition? position, string? doubt) = Existing(disk, path);
            if (position?.Sequence > journalLast)
            {
                file?.Dispose();
                return new Refused(new Fault(
                    path,
                    "position",
                    $"entry {position.Sequence}",
                    $"at most {journalLast}, the last entry of the journal, which has lost its end: restore a backup of the data folder"));
            }

            return file is not null && position is not null ? new Found(file, position) : Aside(disk, folder, doubt!);
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            return new Refused(new Fault(path, "file", e.Message, "a file this program may read and write"));
        }
    }

    /// <summary>Moves a book that cannot be relied on aside, and begins another.</summary>
    /// <exception cref="IOException">It cannot be moved.</exception>
    public static Anew Aside(IDisk disk, string folder, string doubt)
    {
        string path = PathIn(folder);
        int[] before = [.. NumbersAside(disk, path)];
        int number = before.Append(0).Max() + 1;
        foreach (string name in before.Where(n => n <= number - KeptAside).SelectMany(n => Names(path).Select(name => Doubtful(name, n))))
        {
            disk.Delete(name);
        }

        string[] old = [.. Names(path).Where(disk.Exists)];
        foreach (string name in old)
        {
            disk.Move(name, Doubtful(name, number));
            disk.FlushFolder(folder); // the file first: without its log it might pass for a sound one
        }

        return new Anew(New(disk, path), doubt, old.Length > 0 ? Doubtful(path, number) : null);
    }

    public static string PathIn(string folder) => Path.Combine(folder, FileName);

    private static string[] Names(string path) => [path, BookFile.LogOf(path)];

    private static string Doubtful(string name, int number) => $"{name}{Mark}{number}";

    private static IEnumerable<int> NumbersAside(IDisk disk, string path)
    {
        string[] marks = [.. Names(path).Select(name => Path.GetFileName(name) + Mark)];
        foreach (string name in disk.NamesIn(Path.GetDirectoryName(path)!))
        {
            if (marks.FirstOrDefault(m => name.StartsWith(m, StringComparison.Ordinal)) is { } mark
                && int.TryParse(name.AsSpan(mark.Length), NumberStyles.None, CultureInfo.InvariantCulture, out int number))
            {
                yield return number;
            }
        }
    }

    private static BookFile New(IDisk disk, string path)
    {
        disk.Delete(BookFile.LogOf(path)); // of a file that is not there any more, and must not pass for the new one's
        disk.FlushFolder(Path.GetDirectoryName(path)!);
        BookFile? file = null;
        try
        {
            file = new BookFile(disk, path);
            file.Begin();
            return file;
        }
        catch
        {
            file?.Dispose();
            disk.Delete(path); // half a book is nothing to keep
            throw;
        }
    }

    private static (BookFile? File, BookPosition? Position, string? Doubt) Existing(IDisk disk, string path)
    {
        BookFile? file = null;
        try
        {
            file = new BookFile(disk, path);
            if (file.Position() is { } position)
            {
                return (file, position, null);
            }

            file.Dispose();
            return (null, null, "it is no book of this version");
        }
#pragma warning disable CA1031 // a broken file makes the store throw whatever it stumbles over
        catch (Exception e)
#pragma warning restore CA1031
        {
            file?.Dispose();
            return (null, null, e.Message);
        }
    }
}
