using CureWatch.Service.Disk;
using CureWatch.Service.People;
using CureWatch.Service.Tests.Settings;

namespace CureWatch.Service.Tests.People;

public sealed class StaffFolderTests : IDisposable
{
    private static readonly Person Maeve = new("Maeve", Role.Manager, "hash");

    private readonly Written _files = new();

    [Fact]
    public void List_IsThereAgain_NewestFirst_AndOnlyItsOwnerReadsIt()
    {
        var folder = new StaffFolder(LocalDisk.Instance, _files.Folder);
        Assert.False(folder.Read().HasManager);
        var staff = new Staff(folder);
        staff.Change(list => list.With(Maeve));
        staff.Change(list => list.With(new Person("Tom", Role.Technician, "other")));
        Assert.Equal(["Maeve", "Tom"], new Staff(folder).List.People.Select(p => p.Name));
        string file = Assert.Single(Directory.GetFiles(Path.Combine(_files.Folder, StaffFolder.Name)));
        Assert.True(OperatingSystem.IsWindows() || File.GetUnixFileMode(file) == (UnixFileMode.UserRead | UnixFileMode.UserWrite));
    }

    [Fact]
    public void List_ThatIsNone_IsSaidSo_AndNobodyIsLetInInstead()
    {
        var folder = new StaffFolder(LocalDisk.Instance, _files.Folder);
        _ = new Staff(folder).Change(list => list.With(Maeve));
        string file = Assert.Single(Directory.GetFiles(Path.Combine(_files.Folder, StaffFolder.Name)));
        File.WriteAllText(file, "{}");
        Assert.Contains(file, Assert.Throws<InvalidDataException>(() => new Staff(folder)).Message, StringComparison.Ordinal);
    }

    [Fact]
    public void Key_IsMadeOnce()
    {
        var folder = new StaffFolder(LocalDisk.Instance, _files.Folder);
        Assert.Equal(folder.Key(), folder.Key());
    }

    public void Dispose() => _files.Dispose();
}
