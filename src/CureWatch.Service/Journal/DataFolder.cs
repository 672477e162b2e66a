using CureWatch.Service.Settings;

namespace CureWatch.Service.Journal;

/// <summary>The folder a service keeps everything in, held by one process at a time.</summary>
internal sealed class DataFolder : IDisposable
{
    private const string DemoMark = "demo";
    private const string LockName = "lock";

    /// <summary>Beside the lock, because nobody else may open that while it is held.</summary>
    private const string OwnerName = "owner";

    private const string Allowed = "a data folder of this program, or an empty or new one, that may be written";

    private readonly FileStream _lock;

    private DataFolder(string path, FileStream held) => (Path, _lock) = (path, held);

    public string Path { get; }

    public string Journal => JournalOf(Path);

    public string Keys => KeysOf(Path);

    public string Book => BookOf(Path);

    public static string JournalOf(string path) => System.IO.Path.Combine(path, "journal");

    public static string KeysOf(string path) => System.IO.Path.Combine(path, "keys");

    public static string BookOf(string path) => System.IO.Path.Combine(path, "book");

    /// <summary>Takes hold of a folder; a new one is made.</summary>
    /// <param name="path">The folder.</param>
    /// <param name="isDemo">Whether it is a demo's: the two are never mixed.</param>
    /// <param name="faults">Where it is said why not.</param>
    /// <returns>The folder, or null where it cannot be held.</returns>
    public static DataFolder? Hold(string path, bool isDemo, Faults faults)
    {
        FileStream? held = null;
        try
        {
            Directory.CreateDirectory(path);
            if (Stranger(path, isDemo) is { } stranger)
            {
                faults.Add(path, "data folder", stranger, isDemo ? "a demo's data folder, or an empty or new one" : Allowed);
                return null;
            }

            held = new FileStream(System.IO.Path.Combine(path, LockName), FileMode.OpenOrCreate, FileAccess.ReadWrite, FileShare.None);
            var folder = new DataFolder(path, held);
            File.WriteAllText(System.IO.Path.Combine(path, OwnerName), $"{Environment.ProcessId}\n");
            folder.Furnish(isDemo);
            return folder;
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException or ArgumentException or NotSupportedException)
        {
            bool isTaken = held is null && e is IOException && Directory.Exists(path) && Owner(path) is not null;
            held?.Dispose();
            faults.Add(path, "data folder", isTaken ? $"in use by process {Owner(path)}" : e.Message, Allowed);
            return null;
        }
    }

    /// <summary>Keeps services out of a folder for as long as it is looked at, without writing anything to it.</summary>
    /// <param name="path">The folder.</param>
    /// <param name="kept">What keeps them out; null where none could ever have come in, as it is no folder of a service's own.</param>
    /// <returns>False where one may be in it.</returns>
    public static bool TryKeepOut(string path, out IDisposable? kept)
    {
        string file = System.IO.Path.Combine(path, LockName);
        kept = null;
        try
        {
            kept = File.Exists(file) ? new FileStream(file, FileMode.Open, FileAccess.Read, FileShare.None) : null;
            return true;
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            return false;
        }
    }

    /// <summary>Whether there is a journal in a folder; if not, that is a fault.</summary>
    public static bool HasJournal(string path, Faults faults)
    {
        try
        {
            if (Segment.In(JournalOf(path)).Count > 0)
            {
                return true;
            }

            faults.Add(path, "data folder", "no journal", "a data folder of this program");
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException or ArgumentException)
        {
            string seen = e is DirectoryNotFoundException ? "no journal" : e.Message;
            faults.Add(path, "data folder", seen, "a data folder of this program that can be read");
        }

        return false;
    }

    public void Dispose() => _lock.Dispose();

    /// <returns>What is strange about a folder; null where it is ours, or empty.</returns>
    private static string? Stranger(string path, bool isDemo)
    {
        bool isOurs = Directory.Exists(JournalOf(path));
        bool isMarked = File.Exists(System.IO.Path.Combine(path, DemoMark));
        return isOurs && isDemo && !isMarked ? "a shop's own data"
            : isOurs && !isDemo && isMarked ? "a demo's data"
            : !isOurs && Directory.EnumerateFileSystemEntries(path).Any(e => !IsOfAStart(System.IO.Path.GetFileName(e))) ? "other files"
            : null;
    }

    /// <summary>Whether a start makes it before the journal; it may have been cut off there.</summary>
    private static bool IsOfAStart(string name) => name is LockName or OwnerName or DemoMark or DemoMark + DurableFile.Unfinished;

    private static string? Owner(string path)
    {
        string file = System.IO.Path.Combine(path, OwnerName);
        return File.Exists(file) && File.ReadAllText(file).Trim() is { Length: > 0 } owner ? owner : null;
    }

    private void Furnish(bool isDemo)
    {
        if (isDemo && !File.Exists(System.IO.Path.Combine(Path, DemoMark)))
        {
            DurableFile.Create(System.IO.Path.Combine(Path, DemoMark), "invented data\n"u8);
        }

        Directory.CreateDirectory(Journal); // first: by it a folder whose making was cut short is known as ours
        Directory.CreateDirectory(Book);
        Directory.CreateDirectory(Keys);
        DurableFile.SyncFolder(Path);
    }
}
