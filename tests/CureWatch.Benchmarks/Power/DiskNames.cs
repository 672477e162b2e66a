using System.Diagnostics.CodeAnalysis;

namespace CureWatch.Benchmarks.Power;

/// <summary>The names of files as they are in memory, and as they are on the disk.</summary>
internal sealed class DiskNames
{
    private readonly Dictionary<string, SectorFile> _flushed = [];
    private Dictionary<string, SectorFile> _now = [];
    private List<Rename> _renames = [];

    public IEnumerable<string> Paths => _now.Keys;

    public bool Contains(string path) => _now.ContainsKey(path);

    public bool TryFind(string path, [NotNullWhen(true)] out SectorFile? file) => _now.TryGetValue(path, out file);

    public void Make(string path, SectorFile file) => Take(new Rename(null, path, file));

    public void Move(string from, string to, SectorFile file) => Take(new Rename(from, to, file));

    public void Remove(string path, SectorFile file) => Take(new Rename(path, null, file));

    public void Flush(string folder)
    {
        foreach (Rename rename in _renames.Where(r => r.IsIn(folder)))
        {
            rename.Apply(_flushed);
        }

        _renames.RemoveAll(r => r.IsIn(folder));
    }

    /// <summary>Keeps the names that were flushed, and any of the rest; and of their files the same.</summary>
    public void LosePower(Random random)
    {
        double kept = random.Next(4) switch { 0 => 0, 1 => 1, _ => random.NextDouble() };
        foreach (Rename rename in _renames.Where(_ => random.NextDouble() < kept))
        {
            rename.Apply(_flushed);
        }

        _renames = [];
        foreach (SectorFile file in _flushed.Values.Distinct())
        {
            file.LosePower(random);
        }

        _now = new Dictionary<string, SectorFile>(_flushed);
    }

    private void Take(Rename rename)
    {
        rename.Apply(_now);
        _renames.Add(rename);
    }

    /// <summary>A name that was made, changed or removed.</summary>
    private sealed record Rename(string? From, string? To, SectorFile File)
    {
        public bool IsIn(string folder) => Path.GetDirectoryName(From ?? To) == folder;

        public void Apply(Dictionary<string, SectorFile> names)
        {
            if (From is not null && names.GetValueOrDefault(From) == File)
            {
                names.Remove(From);
            }

            if (To is not null)
            {
                names[To] = File;
            }
        }
    }
}
