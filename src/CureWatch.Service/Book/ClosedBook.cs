using CureWatch.Service.Disk;
using LiteDB;
using LiteDB.Engine;

namespace CureWatch.Service.Book;

/// <summary>A book that nobody holds, opened so that every byte of it stays as it is.</summary>
/// <remarks>The store cuts a page that is only half there off the end of a file, read-only or not: whoever opens it has looked before.</remarks>
internal sealed class ClosedBook : IDisposable
{
    private readonly IDiskFile _file;
    private readonly IDiskFile? _log;

    /// <exception cref="IOException">The file cannot be opened.</exception>
    public ClosedBook(IDisk disk, string path)
    {
        string log = BookFile.LogOf(path);
        _file = disk.Open(path, FileUse.Read);
        _log = disk.Exists(log) ? disk.Open(log, FileUse.Read) : null;
    }

    /// <summary>How long the file is [bytes].</summary>
    public long Length => _file.Length;

    /// <summary>How long the log is [bytes].</summary>
    public long LogLength => _log?.Length ?? 0;

    /// <summary>Opens the store in it.</summary>
    /// <exception cref="LiteException">It is no book.</exception>
    public LiteDatabase Open() => new(new LiteEngine(new EngineSettings
    {
        DataStream = new DiskStream(_file, canWrite: false),
        LogStream = _log is null ? new MemoryStream() : new DiskStream(_log, canWrite: false),
        Collation = Collation.Binary,
        ReadOnly = true,
    }));

    public void Dispose()
    {
        _file.Dispose();
        _log?.Dispose();
    }
}
