using CureWatch.Service.Disk;

namespace CureWatch.Benchmarks.Power;

/// <summary>A disk some of whose calls fail: one of them once, or every one that needs room for as long as it is full.</summary>
/// <param name="disk">The disk behind it.</param>
internal sealed class FaultyDisk(IDisk disk) : IDisk
{
    private readonly Lock _lock = new();
    private long _failing = -1;
    private Func<Exception>? _fault;

    /// <summary>How many calls there were.</summary>
    public long Calls { get; private set; }

    /// <summary>Whether the call that was to fail did.</summary>
    public bool HasFailed { get; private set; }

    /// <summary>Whether nothing that needs room can be done.</summary>
    public bool IsFull
    {
        set => FullFor = _ => value;
    }

    /// <summary>For which files nothing that needs room can be done.</summary>
    public Func<string, bool> FullFor { get; set; } = _ => false;

    /// <summary>What a flush of a file waits for.</summary>
    public Action<string> Slow { get; set; } = _ => { };

    /// <summary>How much room it says there is.</summary>
    public long Free { get; set; } = long.MaxValue;

    /// <summary>Lets a call fail: it does nothing, or, where it is a flush, nobody knows what.</summary>
    /// <param name="call">Which, from 0.</param>
    /// <param name="fault">How.</param>
    public void Fail(long call, Func<Exception> fault)
    {
        lock (_lock)
        {
            (Calls, _failing, _fault, HasFailed) = (0, call, fault, false);
        }
    }

    /// <summary>No call fails any more.</summary>
    public void Heal()
    {
        lock (_lock)
        {
            _failing = -1;
        }
    }

    public IDiskFile Open(string path, FileUse use)
    {
        Meet();
        DemandRoom(path, use is FileUse.Make or FileUse.MakeAnew or FileUse.MakeSecret);
        return new Handle(this, disk.Open(path, use), path);
    }

    public bool Exists(string path) => disk.Exists(path);

    public IReadOnlyList<string> NamesIn(string folder)
    {
        Meet();
        return disk.NamesIn(folder);
    }

    public void MakeFolder(string path)
    {
        Meet();
        disk.MakeFolder(path);
    }

    public void Move(string from, string to)
    {
        Meet();
        disk.Move(from, to);
    }

    public void Delete(string path)
    {
        Meet();
        disk.Delete(path);
    }

    public void FlushFolder(string folder)
    {
        Meet();
        disk.FlushFolder(folder);
    }

    public long FreeBytes(string folder)
    {
        Meet();
        return Free;
    }

    private void Meet()
    {
        lock (_lock)
        {
            if (Calls++ == _failing)
            {
                HasFailed = true;
                throw _fault!();
            }
        }
    }

    private void DemandRoom(string path, bool isNeeded)
    {
        if (isNeeded && FullFor(path))
        {
            throw new IOException("No space left on device");
        }
    }

    private sealed class Handle(FaultyDisk disk, IDiskFile file, string path) : IDiskFile
    {
        public long Length => file.Length;

        public int Read(Span<byte> bytes, long offset)
        {
            disk.Meet();
            return file.Read(bytes, offset);
        }

        /// <remarks>A full disk takes a part of it.</remarks>
        public void Write(ReadOnlySpan<byte> bytes, long offset)
        {
            if (disk.FullFor(path))
            {
                file.Write(bytes[..(bytes.Length / 2)], offset);
            }

            disk.Meet();
            disk.DemandRoom(path, isNeeded: true);
            file.Write(bytes, offset);
        }

        public void SetLength(long length)
        {
            disk.Meet();
            file.SetLength(length);
        }

        public void Flush()
        {
            disk.Meet();
            disk.Slow(path);
            file.Flush();
        }

        public void Dispose() => file.Dispose();
    }
}
