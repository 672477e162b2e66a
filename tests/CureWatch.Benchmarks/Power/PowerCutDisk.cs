using CureWatch.Service.Disk;

namespace CureWatch.Benchmarks.Power;

/// <summary>
/// A disk in memory that loses its power. What was flushed is there afterwards. Of what was not, any 512-byte sectors may be there and any not, in any
/// order; a length may have changed or not; and a name that was made, changed or removed may be as it was before, unless its folder was flushed.
/// </summary>
/// <param name="seed">Of what is kept.</param>
/// <param name="lies">The files of which a flush does nothing: what a checker has to find out.</param>
internal sealed class PowerCutDisk(int seed, Func<string, bool>? lies = null) : IDisk
{
    private readonly Lock _lock = new();
    private readonly Random _random = new(seed);
    private readonly HashSet<string> _folders = [Path.GetPathRoot(Path.GetFullPath("/"))!];
    private Dictionary<string, SectorFile> _files = [];
    private readonly Dictionary<string, SectorFile> _flushed = [];
    private List<Rename> _renames = [];
    private int _life;
    private long _left = long.MaxValue;
    private bool _isDark;

    /// <summary>How many calls changed anything so far.</summary>
    public long Changes { get; private set; }

    /// <summary>Whether the power has gone.</summary>
    public bool IsDark
    {
        get
        {
            lock (_lock)
            {
                return _isDark;
            }
        }
    }

    /// <summary>Lets the power go in the middle of one of the next calls that change anything.</summary>
    public void CutAfter(long changes)
    {
        lock (_lock)
        {
            _left = changes;
        }
    }

    /// <summary>Lets the power go now, if it has not gone.</summary>
    public void Cut()
    {
        lock (_lock)
        {
            _isDark = true;
        }
    }

    /// <summary>The power is back: what is there now is what the disk kept. Whoever had files open before has them no more.</summary>
    public void Restore()
    {
        lock (_lock)
        {
            (_isDark, _left) = (false, long.MaxValue);
            _life++;
            double kept = _random.Next(4) switch { 0 => 0, 1 => 1, _ => _random.NextDouble() };
            foreach (Rename rename in _renames.Where(_ => _random.NextDouble() < kept))
            {
                rename.Apply(_flushed);
            }

            _renames = [];
            foreach (SectorFile file in _flushed.Values.Distinct())
            {
                file.LosePower(_random);
            }

            _files = new Dictionary<string, SectorFile>(_flushed);
        }
    }

    public IDiskFile Open(string path, FileUse use)
    {
        path = Path.GetFullPath(path);
        lock (_lock)
        {
            DemandPower();
            bool isThere = _files.TryGetValue(path, out SectorFile? file);
            bool makes = use is FileUse.Make or FileUse.MakeAnew or FileUse.MakeSecret || (use == FileUse.Hold && !isThere);
            if (!isThere && !makes)
            {
                throw new FileNotFoundException($"No {path}.");
            }

            if (isThere && use == FileUse.Make)
            {
                throw new IOException($"{path} is there.");
            }

            if (!isThere)
            {
                DemandFolder(Path.GetDirectoryName(path)!);
                SectorFile made = file = new SectorFile();
                Change(() => Name(new Rename(null, path, made)));
            }
            else if (makes)
            {
                Change(() => file!.SetLength(0));
            }

            return new Handle(this, file!, path, _life);
        }
    }

    public bool Exists(string path)
    {
        path = Path.GetFullPath(path);
        lock (_lock)
        {
            DemandPower();
            return _files.ContainsKey(path) || _folders.Contains(path);
        }
    }

    public IReadOnlyList<string> NamesIn(string folder)
    {
        folder = Path.GetFullPath(folder);
        lock (_lock)
        {
            DemandPower();
            DemandFolder(folder);
            return [.. _files.Keys.Concat(_folders).Where(p => Path.GetDirectoryName(p) == folder).Select(p => Path.GetFileName(p))];
        }
    }

    /// <summary>Folders last at once: what is in them matters.</summary>
    public void MakeFolder(string path)
    {
        lock (_lock)
        {
            Change(() => _folders.Add(Path.GetFullPath(path)));
        }
    }

    public void Move(string from, string to)
    {
        (from, to) = (Path.GetFullPath(from), Path.GetFullPath(to));
        lock (_lock)
        {
            DemandPower();
            if (!_files.TryGetValue(from, out SectorFile? file) || _files.ContainsKey(to))
            {
                throw new IOException($"{from} cannot become {to}.");
            }

            Change(() => Name(new Rename(from, to, file)));
        }
    }

    public void Delete(string path)
    {
        path = Path.GetFullPath(path);
        lock (_lock)
        {
            DemandPower();
            if (_files.TryGetValue(path, out SectorFile? file))
            {
                Change(() => Name(new Rename(path, null, file)));
            }
        }
    }

    public void FlushFolder(string folder)
    {
        folder = Path.GetFullPath(folder);
        lock (_lock)
        {
            DemandPower();
            DemandFolder(folder);
            Change(() => { }); // the power may go before anything is on the disk
            foreach (Rename rename in _renames.Where(r => r.IsIn(folder)))
            {
                rename.Apply(_flushed);
            }

            _renames.RemoveAll(r => r.IsIn(folder));
        }
    }

    public long FreeBytes(string folder) => long.MaxValue;

    private void Name(Rename rename)
    {
        rename.Apply(_files);
        _renames.Add(rename);
    }

    /// <summary>Makes a change; or makes it, and loses it with the power.</summary>
    private void Change(Action change)
    {
        DemandPower();
        change();
        Changes++;
        if (--_left < 0)
        {
            _isDark = true;
            DemandPower();
        }
    }

    private void DemandPower()
    {
        if (_isDark)
        {
            throw new PowerCutException();
        }
    }

    private void DemandFolder(string folder)
    {
        if (!_folders.Contains(folder))
        {
            throw new DirectoryNotFoundException($"No {folder}.");
        }
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

    private sealed class Handle(PowerCutDisk disk, SectorFile file, string path, int life) : IDiskFile
    {
        public long Length => Do(() => file.Length);

        public int Read(Span<byte> bytes, long offset)
        {
            lock (disk._lock)
            {
                DemandLife();
                return file.Read(bytes, offset);
            }
        }

        public void Write(ReadOnlySpan<byte> bytes, long offset)
        {
            byte[] copy = bytes.ToArray();
            Do(() => disk.Change(() => file.Write(copy, offset)));
        }

        public void SetLength(long length) => Do(() => disk.Change(() => file.SetLength(length)));

        public void Flush() => Do(() =>
        {
            disk.Change(() => { }); // the power may go before anything is on the disk
            if (disk.Lies(path) is false)
            {
                file.Flush();
            }
        });

        public void Dispose()
        {
            // Nothing is kept by closing.
        }

        private void Do(Action action) => Do(() =>
        {
            action();
            return true;
        });

        private T Do<T>(Func<T> action)
        {
            lock (disk._lock)
            {
                DemandLife();
                return action();
            }
        }

        private void DemandLife()
        {
            disk.DemandPower();
            if (life != disk._life)
            {
                throw new PowerCutException();
            }
        }
    }

    private bool Lies(string path) => lies?.Invoke(path) == true;
}
