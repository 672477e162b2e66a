using LiteDB;

namespace CureWatch.Service.Book;

/// <summary>What people look up. Asked on the thread that owns the book, and everything is read before it is left.</summary>
internal sealed class BookQueries(BookFile file, OpenBlocks open, BookWriter writer)
{
    /// <summary>How far late readings may shift the order of a probe's blocks [ms].</summary>
    private const long LateMs = 15 * 60 * 1000;

    /// <summary>How far the book is.</summary>
    public BookPosition Position => writer.Position;

    /// <summary>Holds pages of the file against their checksums.</summary>
    /// <returns>How many there were, from a page on.</returns>
    /// <exception cref="InvalidDataException">One is not what was written.</exception>
    public int CheckPages(long from, int most) => file.CheckPages(from, most);

    /// <summary>Jobs whose car left, the newest first.</summary>
    /// <param name="before">Only cars that left with a lower number, for the next page; null for the first.</param>
    /// <param name="most">How many.</param>
    public IReadOnlyList<BookedJob> Left(long? before, int most)
    {
        long first = before ?? long.MaxValue;
        List<StoredJob> jobs = file.Jobs.Query()
            .Where(j => j.LeftNumber > 0 && j.LeftNumber < first).OrderByDescending(j => j.LeftNumber).Limit(most).ToList();
        return [.. jobs.Select(j => j.Read())];
    }

    /// <returns>The job; null where none has that id.</returns>
    public BookedJob? Job(string id) => file.Jobs.FindById(id)?.Read();

    /// <summary>How a job stood when its car left, as <c>replay --json</c> prints it.</summary>
    /// <returns>The document; null while the car is here.</returns>
    public string? HandoverRecord(string job) => file.Records.FindById(job)?.Json;

    /// <summary>A job's taps in the order they were told, corrected ones included.</summary>
    public IReadOnlyList<BookedTap> TapsOf(string job) =>
        [.. file.Taps.Query().Where(t => t.Job == job).OrderBy(t => t.Id).ToList().Select(t => t.Read())];

    /// <summary>The warnings that are over and stood at any time in a stretch, the newest first.</summary>
    /// <param name="from">Where the stretch begins.</param>
    /// <param name="to">Where it ends.</param>
    /// <param name="before">Only those with a lower number, for the next page; null for the first.</param>
    /// <param name="most">How many.</param>
    public IReadOnlyList<BookedWarning> PastWarnings(DateTimeOffset from, DateTimeOffset to, int? before, int most)
    {
        (long first, long last, int end) = (from.ToUnixTimeMilliseconds(), to.ToUnixTimeMilliseconds(), before ?? int.MaxValue);
        List<StoredWarning> warnings = file.Warnings.Query()
            .Where(w => w.Id < end && w.RaisedAtUnixMs <= last && w.ClearedAtUnixMs != null && w.ClearedAtUnixMs >= first)
            .OrderByDescending(w => w.Id).Limit(most).ToList();
        return [.. warnings.Select(w => w.Read())];
    }

    /// <summary>Whether a probe ever told a reading that was believed.</summary>
    public bool HasHeard(string bay, string probe) => open.Of(bay, probe) is not null;

    /// <summary>A probe's believed readings measured in a stretch, both ends included, in the order they were measured.</summary>
    /// <param name="bay">Its bay.</param>
    /// <param name="probe">The probe.</param>
    /// <param name="from">Where the stretch begins.</param>
    /// <param name="to">Where it ends.</param>
    /// <param name="most">How many: the first ones where there are more.</param>
    public IReadOnlyList<BookedReading> ReadingsOf(string bay, string probe, DateTimeOffset from, DateTimeOffset to, int most)
    {
        string first = StoredBlock.SealedId(bay, probe, Math.Max(0, from.ToUnixTimeMilliseconds()), 0);
        string last = StoredBlock.SealedId(bay, probe, 999_999_999_999_999, long.MaxValue);
        long enough = to.ToUnixTimeMilliseconds() + LateMs;
        var readings = new List<BookedReading>();
        foreach (StoredBlock block in file.Blocks.Find(Query.Between("_id", first, last)).TakeWhile(b => b.FromUnixMs <= enough))
        {
            block.Read().CopyBetween(from, to, readings);
            if (readings.Count >= most)
            {
                enough = Math.Min(enough, block.ToUnixMs + LateMs);   // only what is this late may still come before those
            }
        }

        open.Of(bay, probe)?.CopyBetween(from, to, readings);
        return [.. InOrder(readings).Take(most)];
    }

    /// <summary>Late readings are rare: most stretches are in order as they came.</summary>
    private static List<BookedReading> InOrder(List<BookedReading> readings)
    {
        for (int i = 1; i < readings.Count; i++)
        {
            if (readings[i].At < readings[i - 1].At)
            {
                return [.. readings.OrderBy(r => r.At)];
            }
        }

        return readings;
    }
}
