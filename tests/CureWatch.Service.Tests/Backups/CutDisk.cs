using CureWatch.Service.Disk;

namespace CureWatch.Service.Tests.Backups;

/// <summary>This machine's disk until so many changes were made; from then on nothing is changed any more, as where the process ended.</summary>
internal sealed class CutDisk(int changes) : IDisk
{
    private int _left = changes;

    public bool IsCut { get; private set; }

    public IDiskFile Open(string path, FileUse use)
    {
        if (use is not (FileUse.Read or FileUse.ReadAlone))
        {
            Change();
        }

        return LocalDisk.Instance.Open(path, use);
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
}
