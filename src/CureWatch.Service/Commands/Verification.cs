using CureWatch.Service.Book;
using CureWatch.Service.Disk;
using CureWatch.Service.Journal;
using CureWatch.Service.Photos;
using CureWatch.Service.Pump;
using CureWatch.Service.Snapshots;

namespace CureWatch.Service.Commands;

/// <summary>A data folder looked over: every damage, and what else there is to say of it. Nothing in it is changed.</summary>
internal sealed class Verification
{
    private readonly string _folder;
    private readonly List<string> _damages;
    private readonly List<string> _notes = [];

    private Verification(string folder)
    {
        _folder = folder;
        _damages = [.. JournalReader.DamagesIn(LocalDisk.Instance, Journal).Select(d => d.ToString())];
    }

    /// <summary>Every damaged file, with the place.</summary>
    public IReadOnlyList<string> Damages => _damages;

    public IReadOnlyList<string> Notes => _notes;

    private string Journal => DataFolder.JournalOf(_folder);

    public static Verification Of(string folder)
    {
        var verification = new Verification(folder);
        verification.Run();
        return verification;
    }

    /// <summary>Whether there is a book to hold against the journal, however little is left of that.</summary>
    public static bool HasBook(string folder) =>
        Directory.Exists(DataFolder.JournalOf(folder)) && File.Exists(BookOpening.PathIn(DataFolder.BookOf(folder)));

    private void Run()
    {
        var reader = new JournalReader(LocalDisk.Instance, Journal);
        List<(string Path, (byte[] JournalId, long Sequence)? Taken)> snapshots = Snapshots(); // before the journal, which a service may go on with
        LookAtKeys(reader);
        HoldAgainst(snapshots, reader.End);
        LookAtBookUnlessHeld(reader.End);
    }

    private void LookAtBookUnlessHeld(JournalEnd journal)
    {
        if (!DataFolder.TryKeepOut(LocalDisk.Instance, _folder, out IDisposable? kept))
        {
            if (journal.Segment is null)
            {
                _notes.Add($"{Journal}: no segment: a service that may be writing here is just starting, or it was deleted or moved away");
            }

            Fold(null);
            _notes.Add($"{DataFolder.BookOf(_folder)}: not looked at, for a service may be writing it; its answers say how far it is");
            return;
        }

        using (kept)
        {
            LookAtBook(DataFolder.BookOf(_folder), _damages.Count == 0 ? journal.Last : null);
            if (_damages.Count == 0 && journal.Last == 0 && LostJournal.Trace(LocalDisk.Instance, _folder) is { } lost)
            {
                _damages.Add(lost.ToString());
            }
        }
    }

    private void LookAtKeys(JournalReader journal)
    {
        string keys = DataFolder.KeysOf(_folder);
        (IReadOnlyList<string> damages, IReadOnlyCollection<string> gone) = KeyCheck.Of(journal, LocalDisk.Instance, keys);
        _damages.AddRange(damages);
        _notes.AddRange(gone.Select(job => $"{keys}: no key of the job {job}: what it sealed was erased, or is lost"));
    }

    private List<(string Path, (byte[] JournalId, long Sequence)? Taken)> Snapshots()
    {
        try
        {
            return [.. new SnapshotFolder(LocalDisk.Instance, _folder).Look()];
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            _damages.Add($"{DataFolder.SnapshotsOf(_folder)}: {e.Message}");
            return [];
        }
    }

    /// <summary>A snapshot is of entries that were on the disk: where the journal ends before them, it has lost its end.</summary>
    private void HoldAgainst(List<(string Path, (byte[] JournalId, long Sequence)? Taken)> snapshots, JournalEnd journal)
    {
        bool isSound = _damages.Count == 0;
        foreach ((string path, (byte[] JournalId, long Sequence)? taken) in snapshots)
        {
            if (taken is not { } whole)
            {
                _damages.Add($"{path}: it is not what was written; the next start does without it");
            }
            else if (isSound && whole.Sequence > journal.Last && journal.JournalId?.AsSpan().SequenceEqual(whole.JournalId) != false)
            {
                _damages.Add($"{path}: after entry {whole.Sequence}, and the journal ends with {journal.Last}: it has lost its end");
            }
        }
    }

    /// <param name="book">The folder of the book.</param>
    /// <param name="journalLast">The journal's last entry; null where it is damaged, so that the book cannot be held against it.</param>
    private void LookAtBook(string book, long? journalLast)
    {
        (bool isDamage, string says, BookPosition? position) = BookCheck.Of(LocalDisk.Instance, book, journalLast);
        using BookComparison? comparison = position is null || journalLast is null ? null : new BookComparison(LocalDisk.Instance, book, position);
        Fold(comparison);
        (isDamage ? _damages : _notes).Add(says);
        _damages.AddRange(comparison?.Differences() ?? []);
    }

    /// <summary>Folding needs a sound journal, and keys that fit.</summary>
    private void Fold(BookComparison? comparison)
    {
        if (_damages.Count > 0)
        {
            return;
        }

        Recovery journal = JournalFold.Open(LocalDisk.Instance, _folder);
        try
        {
            foreach (Step step in journal.Steps())
            {
                comparison?.Take(step);
            }

            _damages.AddRange(new PhotoShelf(LocalDisk.Instance, _folder).Damages(journal.Register));
            Describe(journal);
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException or InvalidDataException)
        {
            _damages.Add($"{_folder}: {e.Message}");
        }
    }

    private void Describe(Recovery journal)
    {
        int segments = Segment.In(LocalDisk.Instance, Journal).Count;
        _notes.Insert(0, $"{_folder}: {journal.Register.Sequence} entries in {segments} segments, no damage");
        _notes.AddRange(RetiredPart.In(LocalDisk.Instance, Journal).Select(p =>
            $"{Journal}: the entries {p.First} to {p.Last} are in {p.Archive}; 'restore --journal' puts them back"));
        if (journal.End.TornBytes > 0)
        {
            _notes.Add($"{journal.End.TornBytes} bytes of an unfinished write at the end, never acknowledged; the next start cuts them off");
        }

        int differences = journal.Facts.Strange.Count + journal.Facts.Untold.Count;
        if (differences > 0)
        {
            _notes.Add($"{differences} warnings or rulings were told otherwise than this program would tell them");
        }
    }
}
