using CureWatch.Service.Disk;

namespace CureWatch.Service.Tests.Backups;

/// <summary>This machine's disk, with so much room as if all that is in a folder had been written to it.</summary>
internal sealed class FillingDisk(string watched, long free) : IDisk
{
    public long Total { get; set; } = free;

    public IDiskFile Open(string path, FileUse use) => LocalDisk.Instance.Open(path, use);

    public bool Exists(string path) => LocalDisk.Instance.Exists(path);

    public IReadOnlyList<string> NamesIn(string folder) => LocalDisk.Instance.NamesIn(folder);

    public void MakeFolder(string path) => LocalDisk.Instance.MakeFolder(path);

    public void Move(string from, string to) => LocalDisk.Instance.Move(from, to);

    public void Delete(string path) => LocalDisk.Instance.Delete(path);

    public void FlushFolder(string folder) => LocalDisk.Instance.FlushFolder(folder);

    public long FreeBytes(string folder) => Total - (Directory.Exists(watched) ? Directory.GetFiles(watched) : []).Sum(f => new FileInfo(f).Length);
}
