using CureWatch.Service.Disk;
using CureWatch.Service.Pump;
using LiteDB;

namespace CureWatch.Service.Book;

/// <summary>Writes a book once more from the journal, in a place of its own, and holds the two against each other.</summary>
/// <remarks>What was upserted many times is compared as it stands at the entry the book is at: there both must say the same.</remarks>
internal sealed class BookComparison : IDisposable
{
    /// <summary>Few enough to die young: each entry holds the state of its moment.</summary>
    private const int Slice = 200;
    private const int MostNamed = 20;

    private readonly IDisk _disk;
    private readonly string _path;
    private readonly BookPosition _position;
    private readonly DirectoryInfo _place = Directory.CreateTempSubdirectory("curewatch-verify-");
    private readonly List<Step> _steps = [];
    private OpenBook? _anew;
    private long? _first;

    /// <param name="disk">The disk.</param>
    /// <param name="folder">The folder of the book, which nobody holds and in which no damage was found.</param>
    /// <param name="position">How far the book is.</param>
    public BookComparison(IDisk disk, string folder, BookPosition position)
    {
        (_disk, _path, _position) = (disk, BookOpening.PathIn(folder), position);
        _anew = new OpenBook(((BookOpening.Anew)BookOpening.Of(LocalDisk.Instance, _place.FullName, position.Sequence)).File);
    }

    /// <summary>Takes the journal's next entry in.</summary>
    public void Take(Step step)
    {
        _first ??= step.Sequence;
        if (step.Sequence > _position.Sequence)
        {
            return;
        }

        _steps.Add(step);
        if (_steps.Count == Slice)
        {
            Write();
        }
    }

    /// <returns>Every document that is not what the journal says, up to a number that still can be read.</returns>
    public IReadOnlyList<string> Differences()
    {
        Write();
        _anew!.Save();
        _anew.Checkpoint();
        _anew.Dispose();
        _anew = null;
        using ClosedBook here = new(_disk, _path), there = new(LocalDisk.Instance, BookOpening.PathIn(_place.FullName));
        using LiteDatabase book = here.Open(), anew = there.Open();
        List<string> named = [.. anew.GetCollectionNames().Order(StringComparer.Ordinal).ToList().SelectMany(n => Differences(n, book, anew)).Take(MostNamed + 1)];
        return [.. named.Take(MostNamed), .. named.Count > MostNamed ? [$"{_path}: and more"] : Array.Empty<string>()];
    }

    public void Dispose()
    {
        _anew?.Dispose();
        _place.Delete(recursive: true);
    }

    private void Write()
    {
        _anew!.Take(_steps);
        _steps.Clear();
    }

    private IEnumerable<string> Differences(string name, LiteDatabase book, LiteDatabase anew)
    {
        ILiteCollection<BsonDocument> here = book.GetCollection(name);
        var known = new HashSet<BsonValue>();
        foreach (BsonDocument right in anew.GetCollection(name).FindAll().Where(d => IsOfTheJournal(name, d)))
        {
            BsonValue id = right["_id"];
            known.Add(id);
            string? wrong = here.FindById(id) is { } found ? Wrong(name, found, right) : name == "open" ? null : "it is not there";
            if (wrong is not null)
            {
                yield return $"{_path}: {name} {id.RawValue}: {wrong}";
            }
        }

        // What a retired part of the journal brought about is in the book alone.
        foreach (BsonDocument found in _first > 1 ? [] : here.FindAll().Where(d => !known.Contains(d["_id"])))
        {
            yield return $"{_path}: {name} {found["_id"].RawValue}: the journal knows nothing of it";
        }
    }

    /// <summary>Where the journal's beginning is in an archive, blocks are cut elsewhere, and what a car that came before began with is unknown.</summary>
    private bool IsOfTheJournal(string name, BsonDocument anew) =>
        !(_first > 1) || (name is not ("blocks" or "open") && !(name == "jobs" && anew["Number"].AsInt64 < _first));

    /// <summary>Open blocks are stored only now and then, and how far all of them were says the position.</summary>
    private static string? Wrong(string name, BsonDocument found, BsonDocument right)
    {
        const string NotTheSame = "it is not what the journal says";
        return name switch
        {
            "open" => IsBeginning(found, right) ? null : NotTheSame,
            "positions" => found["Sequence"] == right["Sequence"] && found["AtUnixMs"] == right["AtUnixMs"] ? null : NotTheSame,
            _ => found.CompareTo(right, Collation.Binary) == 0 ? null : NotTheSame,
        };
    }

    private static bool IsBeginning(BsonDocument found, BsonDocument right) =>
        found["BaseUnixMs"] == right["BaseUnixMs"] && right["Samples"].AsBinary.AsSpan().StartsWith(found["Samples"].AsBinary);
}
