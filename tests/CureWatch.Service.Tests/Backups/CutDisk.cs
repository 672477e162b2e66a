using CureWatch.Service.Disk;

namespace CureWatch.Service.Tests.Backups;

/// <summary>This machine's disk until so many changes were made; from then on nothing is changed any more, as where the process ended.</summary>
internal sealed class CutDisk(int changes) : IDisk
{
    private int _left = changes;

    public bool IsCut { get; private set; }

    public IDiskFile Open(string path, FileUse use)
    {
        if (use is FileUse.Read or FileUse.ReadAlone)
        {
            return LocalDisk.Instance.Open(path, use);
        }

        Change();
        return new CutFile(this, LocalDisk.Instance.Open(path, use));
    }

    public bool Exists(string path) => LocalDisk.Instance.Exists(path);

    public IReadOnlyList<string> NamesIn(string folder) => LocalDisk.Instance.NamesIn(folder);

    public void MakeFolder(string path)
    {
        Change();
        LocalDisk.Instance.MakeFolder(path);
    }

    public void Move(string from, string to)
    {
        Change();
        LocalDisk.Instance.Move(from, to);
    }

    public void Delete(string path)
    {
        Change();
        LocalDisk.Instance.Delete(path);
    }

    public void FlushFolder(string folder)
    {
        Change();
        LocalDisk.Instance.FlushFolder(folder);
    }

    public long FreeBytes(string folder) => LocalDisk.Instance.FreeBytes(folder);

    private void Change()
    {
        IsCut |= _left-- <= 0;
        if (IsCut)
        {
            throw new IOException("The process has ended here.");
        }
    }

    private sealed class CutFile(CutDisk disk, IDiskFile file) : IDiskFile
    {
        public long Length => file.Length;

        public int Read(Span<byte> bytes, long offset) => file.Read(bytes, offset);

        public void Write(ReadOnlySpan<byte> bytes, long offset)
        {
            disk.Change();
            file.Write(bytes, offset);
        }

        public void SetLength(long length)
        {
            disk.Change();
            file.SetLength(length);
        }

        public void Flush()
        {
            disk.Change();
            file.Flush();
        }

        public void Dispose() => file.Dispose();
    }
}
