using CureWatch.Service.Disk;
using LiteDB;
using LiteDB.Engine;

namespace CureWatch.Service.Book;

/// <summary>The file the book is in. One thread at a time owns it: LiteDB's transactions belong to a thread.</summary>
/// <remarks>
/// LiteDB never brings its log onto the disk on a commit, so that is done here, before anything relies on it. It writes the log into the file
/// only when told: first the file reaches the disk, then the log is emptied.
/// </remarks>
internal sealed class BookFile : IDisposable
{
    /// <summary>Of everything stored in it. A book of another version is begun anew from the journal.</summary>
    public const int Version = 4;

    /// <summary>How long the log may get [bytes]. Source (choice): written into the file in a tenth of a second.</summary>
    private const long LongestLog = 8 * 1024 * 1024;

    private readonly string _path;
    private readonly IDiskFile _file;
    private readonly IDiskFile _logFile;
    private readonly PageLog _log;
    private readonly PageFile _pages;
    private readonly LiteDatabase _db;

    /// <exception cref="IOException">The file cannot be opened.</exception>
    /// <exception cref="LiteException">It is no book.</exception>
    /// <exception cref="InvalidDataException">It is not what was written.</exception>
    public BookFile(IDisk disk, string path)
    {
        _path = path;
        // Strings are kept as they are, for the record of a handover is stored word for word; and nothing is numbered by the store, which would
        // give the warning with number 0 another one.
        var mapper = new BsonMapper { TrimWhitespace = false, EmptyStringToNull = false };
        mapper.Entity<StoredTap>().Id(t => t.Id, autoId: false);
        mapper.Entity<StoredWarning>().Id(w => w.Id, autoId: false);
        _file = OpenOrMake(disk, path);
        try
        {
            _logFile = OpenOrMake(disk, LogOf(path));
            _log = new PageLog(_logFile);
            disk.FlushFolder(Path.GetDirectoryName(path)!); // neither lasts without the other
            _pages = new PageFile(_file, _log);
            if (_pages.EndsInAPage && _log.Length == 0)
            {
                throw new InvalidDataException($"it ends before its page does, at byte {_file.Length}");
            }

            var settings = new EngineSettings { DataStream = _pages, LogStream = _log, Collation = Collation.Binary };
            _db = new LiteDatabase(new LiteEngine(settings), mapper) { CheckpointSize = 0 };
        }
        catch
        {
            _logFile?.Dispose();
            _file.Dispose();
            throw;
        }

        Positions = _db.GetCollection<StoredPosition>("positions");
        Jobs = _db.GetCollection<StoredJob>("jobs");
        Records = _db.GetCollection<StoredRecord>("records");
        Taps = _db.GetCollection<StoredTap>("taps");
        Warnings = _db.GetCollection<StoredWarning>("warnings");
        Blocks = _db.GetCollection<StoredBlock>("blocks");
        Open = _db.GetCollection<StoredBlock>("open");
    }

    public ILiteCollection<StoredPosition> Positions { get; }

    public ILiteCollection<StoredJob> Jobs { get; }

    public ILiteCollection<StoredRecord> Records { get; }

    public ILiteCollection<StoredTap> Taps { get; }

    public ILiteCollection<StoredWarning> Warnings { get; }

    /// <summary>Sealed blocks of readings.</summary>
    public ILiteCollection<StoredBlock> Blocks { get; }

    /// <summary>Each probe's open block.</summary>
    public ILiteCollection<StoredBlock> Open { get; }

    /// <summary>Where its log is. Not where the store would look for one by itself: it could not read the checksums.</summary>
    public static string LogOf(string path) => path + "-log";

    /// <summary>Makes a new file a book.</summary>
    public void Begin()
    {
        Jobs.EnsureIndex(j => j.LeftNumber);
        Taps.EnsureIndex(t => t.Job);
        Warnings.EnsureIndex(w => w.RaisedAtUnixMs);
        Write(() => Positions.Upsert(StoredPosition.Of(BookPosition.Start)));
        _db.UserVersion = Version;
        Checkpoint();
    }

    /// <returns>How far the book is; null where the file is no book of this version.</returns>
    public BookPosition? Position() => _db.UserVersion == Version ? Positions.FindById(StoredPosition.OnlyId)?.Read() : null;

    /// <summary>Stores several things together, all or none, on disk when it returns.</summary>
    /// <exception cref="IOException">They may not be on disk.</exception>
    public void Write(Action rows)
    {
        if (!_db.BeginTrans())
        {
            throw new InvalidOperationException("A transaction is open on this thread.");
        }

        try
        {
            rows();
        }
        catch
        {
            _db.Rollback();
            throw;
        }

        if (!_db.Commit())
        {
            throw new IOException($"{_path}: the store did not commit.");
        }

        _log.Flush();
        if (_log.Length > LongestLog)
        {
            Checkpoint();
        }
    }

    /// <inheritdoc cref="BookQueries.CheckPages"/>
    public int CheckPages(long from, int most) => _pages.Check(from, most);

    /// <summary>Brings the log into the file and empties it.</summary>
    public void Checkpoint()
    {
        _log.Flush(); // the file is written over: from here on only the log has the whole
        _db.Checkpoint();
    }

    public void Dispose()
    {
        _db.Dispose();
        _file.Dispose();
        _logFile.Dispose();
    }

    private static IDiskFile OpenOrMake(IDisk disk, string path) => disk.Open(path, disk.Exists(path) ? FileUse.Write : FileUse.Make);
}
