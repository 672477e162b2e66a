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
    private readonly Random _random = new(seed);
    private readonly HashSet<string> _folders = [Path.GetPathRoot(Path.GetFullPath("/"))!];
    private readonly DiskNames _names = new();
    private readonly PowerSupply _power = new();

    /// <summary>How many calls changed anything so far.</summary>
    public long Changes => _power.Changes;

    /// <summary>Whether the power has gone.</summary>
    public bool IsDark => _power.IsGone;

    /// <summary>Lets the power go in the middle of one of the next calls that change anything.</summary>
    public void CutAfter(long changes) => _power.CutAfter(changes);

    /// <summary>Lets the power go now, if it has not gone.</summary>
    public void Cut() => _power.Cut();

    /// <summary>The power is back: what is there now is what the disk kept. Whoever had files open before has them no more.</summary>
    public void Restore()
    {
        lock (_power.Gate)
        {
            _power.Restore();
            _names.LosePower(_random);
        }
    }

    public IDiskFile Open(string path, FileUse use)
    {
        path = Path.GetFullPath(path);
        lock (_power.Gate)
        {
            _power.Demand();
            bool isThere = _names.TryFind(path, out SectorFile? file);
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
                _power.Change(() => _names.Make(path, made));
            }
            else if (makes)
            {
                _power.Change(() => file!.SetLength(0));
            }

            return new Handle(this, file!, path, _power.Life);
        }
    }

    public bool Exists(string path)
    {
        path = Path.GetFullPath(path);
        lock (_power.Gate)
        {
            _power.Demand();
            return _names.Contains(path) || _folders.Contains(path);
        }
    }

    public IReadOnlyList<string> NamesIn(string folder)
    {
        folder = Path.GetFullPath(folder);
        lock (_power.Gate)
        {
            _power.Demand();
            DemandFolder(folder);
            return [.. _names.Paths.Concat(_folders).Where(p => Path.GetDirectoryName(p) == folder).Select(p => Path.GetFileName(p))];
        }
    }

    /// <summary>Folders last at once: what is in them matters.</summary>
    public void MakeFolder(string path)
    {
        lock (_power.Gate)
        {
            _power.Change(() => _folders.Add(Path.GetFullPath(path)));
        }
    }

    public void Move(string from, string to)
    {
        (from, to) = (Path.GetFullPath(from), Path.GetFullPath(to));
        lock (_power.Gate)
        {
            _power.Demand();
            if (!_names.TryFind(from, out SectorFile? file) || _names.Contains(to))
            {
                throw new IOException($"{from} cannot become {to}.");
            }

            _power.Change(() => _names.Move(from, to, file));
        }
    }

    public void Delete(string path)
    {
        path = Path.GetFullPath(path);
        lock (_power.Gate)
        {
            _power.Demand();
            if (_names.TryFind(path, out SectorFile? file))
            {
                _power.Change(() => _names.Remove(path, file));
            }
        }
    }

    public void FlushFolder(string folder)
    {
        folder = Path.GetFullPath(folder);
        lock (_power.Gate)
        {
            _power.Demand();
            DemandFolder(folder);
            _power.Change(() => { }); // the power may go before anything is on the disk
            _names.Flush(folder);
        }
    }

    public long FreeBytes(string folder) => long.MaxValue;

    private void DemandFolder(string folder)
    {
        if (!_folders.Contains(folder))
        {
            throw new DirectoryNotFoundException($"No {folder}.");
        }
    }

    private sealed class Handle(PowerCutDisk disk, SectorFile file, string path, int life) : IDiskFile
    {
        public long Length => Do(() => file.Length);

        public int Read(Span<byte> bytes, long offset)
        {
            lock (disk._power.Gate)
            {
                DemandLife();
                return file.Read(bytes, offset);
            }
        }

        public void Write(ReadOnlySpan<byte> bytes, long offset)
        {
            byte[] copy = bytes.ToArray();
            Do(() => disk._power.Change(() => file.Write(copy, offset)));
        }

        public void SetLength(long length) => Do(() => disk._power.Change(() => file.SetLength(length)));

        public void Flush() => Do(() =>
        {
            disk._power.Change(() => { }); // the power may go before anything is on the disk
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
            lock (disk._power.Gate)
            {
                DemandLife();
                return action();
            }
        }

        private void DemandLife()
        {
            disk._power.Demand();
            if (life != disk._power.Life)
            {
                throw new PowerCutException();
            }
        }
    }

    private bool Lies(string path) => lies?.Invoke(path) == true;
}
