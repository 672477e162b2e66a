using CureWatch.Service.Disk;
using LiteDB;
using LiteDB.Engine;

namespace CureWatch.Service.Book;

/// <summary>A book that nobody holds, opened so that every byte of it stays as it is.</summary>
/// <remarks>The store cuts a page that is only half there off the end of a file, read-only or not: whoever opens it has looked before.</remarks>
internal sealed class ClosedBook : IDisposable
{
    private readonly IDiskFile _file;
    private readonly IDiskFile? _logFile;

    /// <exception cref="IOException">The file cannot be opened.</exception>
    public ClosedBook(IDisk disk, string path)
    {
        string log = BookFile.LogOf(path);
        _file = disk.Open(path, FileUse.Read);
        _logFile = disk.Exists(log) ? disk.Open(log, FileUse.Read) : null;
        Log = _logFile is null ? null : new PageLog(_logFile, canWrite: false);
        Pages = new PageFile(_file, Log, canWrite: false);
    }

    /// <summary>How long the file is [bytes].</summary>
    public long Length => _file.Length;

    /// <summary>Its pages.</summary>
    public PageFile Pages { get; }

    /// <summary>Its log; null where there is none.</summary>
    public PageLog? Log { get; }

    /// <summary>Opens the store in it.</summary>
    /// <exception cref="LiteException">It is no book.</exception>
    public LiteDatabase Open() => new(new LiteEngine(new EngineSettings
    {
        DataStream = Pages,
        LogStream = Log as Stream ?? new MemoryStream(),
        Collation = Collation.Binary,
        ReadOnly = true,
    }));

    public void Dispose()
    {
        _file.Dispose();
        _logFile?.Dispose();
    }
}
