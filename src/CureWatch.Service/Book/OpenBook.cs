using CureWatch.Service.Pump;

namespace CureWatch.Service.Book;

/// <summary>The book while it is open: what is in the file, and each probe's open block in memory.</summary>
internal sealed class OpenBook : IDisposable
{
    private readonly BookFile _file;
    private readonly BookWriter _writer;

    public OpenBook(BookFile file)
    {
        var open = new OpenBlocks();
        _file = file;
        _writer = new BookWriter(file, open);
        Queries = new BookQueries(file, open, _writer);
    }

    public BookQueries Queries { get; }

    public BookPosition Position => _writer.Position;

    /// <inheritdoc cref="BookWriter.Take(IEnumerable{Step})"/>
    public void Take(IEnumerable<Step> steps) => _writer.Take(steps);

    /// <inheritdoc cref="BookWriter.Save"/>
    public void Save()
    {
        if (_writer.IsUnsaved)
        {
            _writer.Save();
        }
    }

    /// <summary>Leaves nothing in the log.</summary>
    public void Checkpoint() => _file.Checkpoint();

    public void Dispose() => _file.Dispose();
}
