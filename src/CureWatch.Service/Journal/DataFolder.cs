using System.Text;
using CureWatch.Service.Disk;
using CureWatch.Service.Settings;

namespace CureWatch.Service.Journal;

/// <summary>The folder a service keeps everything in, held by one process at a time.</summary>
internal sealed class DataFolder : IDisposable
{
    /// <summary>Beside invented data.</summary>
    public const string DemoMark = "demo";

    private const string LockName = "lock";

    /// <summary>Beside the lock, because nobody else may open that while it is held.</summary>
    private const string OwnerName = "owner";

    /// <summary>What a fresh ext4 disk has in it.</summary>
    private const string LostAndFound = "lost+found";

    private const string Allowed = "a data folder of this program, or an empty or new one, that may be written";

    private readonly IDiskFile _lock;

    private DataFolder(IDisk disk, string path, IDiskFile held) => (Disk, Path, _lock) = (disk, path, held);

    /// <summary>The disk it is on.</summary>
    public IDisk Disk { get; }

    public string Path { get; }

    public string Journal => JournalOf(Path);

    public string Keys => KeysOf(Path);

    public string Book => BookOf(Path);

    public static string JournalOf(string path) => System.IO.Path.Combine(path, "journal");

    public static string KeysOf(string path) => System.IO.Path.Combine(path, "keys");

    public static string BookOf(string path) => System.IO.Path.Combine(path, "book");

    public static string SnapshotsOf(string path) => System.IO.Path.Combine(path, "snapshots");

    public static string PhotosOf(string path) => System.IO.Path.Combine(path, "photos");

    public static string LockOf(string path) => System.IO.Path.Combine(path, LockName);

    public static string DemoMarkOf(string path) => System.IO.Path.Combine(path, DemoMark);

    /// <summary>Takes hold of a folder; a new one is made.</summary>
    /// <param name="disk">The disk it is on.</param>
    /// <param name="path">The folder.</param>
    /// <param name="isDemo">Whether it is a demo's: the two are never mixed.</param>
    /// <param name="faults">Where it is said why not.</param>
    /// <returns>The folder, or null where it cannot be held.</returns>
    public static DataFolder? Hold(IDisk disk, string path, bool isDemo, Faults faults)
    {
        IDiskFile? held = null;
        try
        {
            DurableFile.MakeFolder(disk, path);
            if (Stranger(disk, path, isDemo) is { } stranger)
            {
                faults.Add(path, "data folder", stranger, isDemo ? "a demo's data folder, or an empty or new one" : Allowed);
                return null;
            }

            held = disk.Open(LockOf(path), FileUse.Hold);
            var folder = new DataFolder(disk, path, held);
            folder.Furnish(isDemo);
            return folder;
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException or ArgumentException or NotSupportedException)
        {
            string? owner = held is null && e is IOException && !IsFree(disk, path) ? Owner(disk, path) : null;
            held?.Dispose();
            faults.Add(path, "data folder", owner is not null ? $"in use by process {owner}" : e.Message, Allowed);
            return null;
        }
    }

    /// <summary>Keeps services out of a folder for as long as it is looked at, without writing anything to it.</summary>
    /// <param name="disk">The disk it is on.</param>
    /// <param name="path">The folder.</param>
    /// <param name="kept">What keeps them out; null where none could ever have come in, as it is no folder of a service's own.</param>
    /// <returns>False where one may be in it.</returns>
    public static bool TryKeepOut(IDisk disk, string path, out IDisposable? kept)
    {
        string file = LockOf(path);
        kept = null;
        try
        {
            kept = disk.Exists(file) ? disk.Open(file, FileUse.ReadAlone) : null;
            return true;
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            return false;
        }
    }

    /// <summary>Whether there is a journal in a folder; if not, that is a fault.</summary>
    public static bool HasJournal(IDisk disk, string path, Faults faults)
    {
        try
        {
            if (Segment.In(disk, JournalOf(path)).Count > 0)
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

    /// <summary>What is in a folder that ought to be empty.</summary>
    /// <param name="names">The names of all that is in it.</param>
    /// <returns>The first of them; null where there is nothing but what a disk of its own has from the beginning.</returns>
    public static string? Others(IEnumerable<string> names)
    {
        const int Named = 3;
        string[] others = [.. names.Where(n => n != LostAndFound).Order(StringComparer.Ordinal)];
        return others.Length == 0 ? null : $"{string.Join(", ", others.Take(Named))}{(others.Length > Named ? " and more" : "")} in it";
    }

    public void Dispose() => _lock.Dispose();

    /// <returns>What is strange about a folder; null where it is ours, or empty.</returns>
    private static string? Stranger(IDisk disk, string path, bool isDemo)
    {
        bool isOurs = disk.Exists(JournalOf(path));
        bool isMarked = disk.Exists(DemoMarkOf(path));
        return isOurs && isDemo && !isMarked ? "a shop's own data"
            : isOurs && !isDemo && isMarked ? "a demo's data"
            : isOurs ? null
            : Others(disk.NamesIn(path).Where(n => !IsOfAStart(n)));
    }

    /// <summary>Whether a start makes it before the journal; it may have been cut off there.</summary>
    private static bool IsOfAStart(string name) => name is LockName or OwnerName or DemoMark or DemoMark + DurableFile.Unfinished;

    /// <summary>Whether nobody holds a folder, however little may be done in it.</summary>
    private static bool IsFree(IDisk disk, string path)
    {
        bool isFree = TryKeepOut(disk, path, out IDisposable? kept);
        kept?.Dispose();
        return isFree;
    }

    private static string? Owner(IDisk disk, string path)
    {
        string file = System.IO.Path.Combine(path, OwnerName);
        return disk.Exists(file) && Encoding.ASCII.GetString(DurableFile.Read(disk, file)).Trim() is { Length: > 0 } owner ? owner : null;
    }

    private void Furnish(bool isDemo)
    {
        using (IDiskFile owner = Disk.Open(System.IO.Path.Combine(Path, OwnerName), FileUse.MakeAnew))
        {
            owner.Write(Encoding.ASCII.GetBytes($"{Environment.ProcessId}\n"), 0);
        }

        if (isDemo && !Disk.Exists(DemoMarkOf(Path)))
        {
            DurableFile.Create(Disk, DemoMarkOf(Path), "invented data\n"u8);
        }

        Disk.MakeFolder(Journal); // first: by it a folder whose making was cut short is known as ours
        Disk.FlushFolder(Path);
        Disk.MakeFolder(Book);
        Disk.MakeFolder(Keys);
        Disk.FlushFolder(Path);
    }
}
