using CureWatch.Benchmarks.Power;
using CureWatch.Service.Backups;
using CureWatch.Service.Disk;
using CureWatch.Service.Journal;
using CureWatch.Service.Photos;
using CureWatch.Service.Pump;
using CureWatch.Service.Settings;
using CureWatch.Service.Tests.Backups;
using CureWatch.Service.Tests.Commands;

namespace CureWatch.Service.Tests.Photos;

/// <summary>Pictures on a disk that fails, in a backup and out of it again.</summary>
public sealed class PhotoShelfTests : IAsyncLifetime
{
    private static readonly byte[] Jpeg = Pictures.Of();
    private static readonly string Name = PhotoShelf.NameOf(Jpeg);

    private ShopData _data = null!;

    private string Folder => DataFolder.PhotosOf(_data.Folder);

    private string File => Path.Combine(Folder, $"{Name}.jpg");

    public async ValueTask InitializeAsync() => _data = await ShopData.FilledAsync();

    public ValueTask DisposeAsync()
    {
        _data.Dispose();
        return ValueTask.CompletedTask;
    }

    [Fact]
    public void Disk_ThatFails_AtAnyCall_KeepsAllOrNothing_AndSaysWhy()
    {
        var disk = new FaultyDisk(LocalDisk.Instance);
        var shelf = new PhotoShelf(disk, _data.Folder);
        int said = 0;
        for (int call = 0; call < 40; call++)
        {
            disk.Fail(call, () => new IOException("It would not."));
            string? why = shelf.Keep(Name, Jpeg);
            said += why is null ? 0 : 1;
            disk.Heal();
            Assert.True(disk.HasFailed || why is null, $"call {call}");
            Assert.True(why is not null || shelf.Find(Name) is not null, $"call {call}");
            Assert.Empty(Directory.Exists(Folder) ? Directory.GetFiles(Folder, "*.new") : []);
            shelf.Remove(Name);
        }

        Assert.InRange(said, 5, 39);
    }

    [Fact]
    public void Disk_ThatIsFull_OrNearly_IsSaidInOneLine_AndNothingStays()
    {
        var disk = new FaultyDisk(LocalDisk.Instance);
        var shelf = new PhotoShelf(disk, _data.Folder);
        Assert.Null(shelf.Keep(Name, Jpeg));
        shelf.Remove(Name);
        disk.Free = StorageWatch.LittleBytes;
        Assert.Contains("nearly full", shelf.Keep(Name, Jpeg), StringComparison.Ordinal);
        disk.Free = long.MaxValue;
        disk.IsFull = true;
        Assert.NotNull(shelf.Keep(Name, Jpeg));
        Assert.Empty(Directory.GetFiles(Folder));
    }

    [Fact]
    public void Picture_ThatChangedOnDisk_IsNotShown_AndKeptAnewWhenItIsSentAgain()
    {
        var shelf = new PhotoShelf(LocalDisk.Instance, _data.Folder);
        Assert.Null(shelf.Keep(Name, Jpeg));
        Flip();
        Assert.Null(shelf.Find(Name));
        Assert.Null(shelf.Keep(Name, Jpeg));
        Assert.Equal(Jpeg, shelf.Find(Name));
    }

    [Fact]
    public async Task Backup_HasThePhotos_AndVerifyNamesOneThatIsDamagedOrMissing()
    {
        await KeepAsync();
        Backup backup = _data.BackUp();
        Assert.Contains(backup.Manifest.Files, f => f.Name == $"photos/{Name}.jpg");
        Assert.Equal(0, Invocation.Of("verify", "--backup", backup.Path).ExitCode);
        string target = _data.Elsewhere("restored");
        Assert.Equal(0, Invocation.Of("restore", backup.Path, "--data", target).ExitCode);
        Assert.Equal(Jpeg, new PhotoShelf(LocalDisk.Instance, target).Find(Name));
        Assert.Equal("Robin", ShopData.Fold(target).Jobs["job-1"].Photos.Single().Photo.By);
        Assert.Equal(0, Invocation.Of("verify", "--data", _data.Folder).ExitCode);
        Flip();
        Invocation damaged = Invocation.Of("verify", "--data", _data.Folder);
        Assert.Equal((1, true), (damaged.ExitCode, damaged.Output.Contains($"{File}: it is not what was written", StringComparison.Ordinal)));
        System.IO.File.Delete(File);
        Assert.Contains($"{File}: it is missing", Invocation.Of("verify", "--data", _data.Folder).Output, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Archive_WithAPhotoUnderAnotherName_IsRefused()
    {
        await KeepAsync();
        var forged = new Forged(_data.BackUp().Path);
        forged.Add($"photos/{new string('0', 64)}.jpg", Jpeg);
        string path = _data.Elsewhere("forged.zip");
        System.IO.File.WriteAllBytes(path, forged.Written());
        var faults = new Faults();
        Assert.Null(Restore.Of(LocalDisk.Instance, path, _data.Elsewhere("nowhere"), faults));
        Assert.Contains("a photo that is named by its SHA-256", faults.All[0].ToString(), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Start_FinishesWhatWasCutOff_AndLeavesWhatItDoesNotKnow()
    {
        await KeepAsync();
        string strange = Path.Combine(Folder, $"{new string('1', 64)}.jpg");
        System.IO.File.WriteAllBytes(strange, [1]);
        System.IO.File.WriteAllBytes(File + DurableFile.Unfinished, [1]);
        var shelf = new PhotoShelf(LocalDisk.Instance, _data.Folder);
        shelf.Tidy(_data.Pumped.Register);
        Assert.Equal([strange, File], Directory.GetFiles(Folder).Order());
        Assert.IsType<Answer.Stored>(await _data.Pumped.Ask(new Arrival.PhotoRemoval("job-1", Name, "Robin")));
        shelf.Tidy(_data.Pumped.Register);
        Assert.Equal([strange], Directory.GetFiles(Folder));
    }

    [Fact]
    public async Task Car_WithAsManyPhotosAsAny_GetsNoMore()
    {
        for (int i = 0; i < PhotoRequests.MostOfACar; i++)
        {
            Assert.IsType<Answer.Stored>(await AskAsync($"{i:x64}"));
        }

        Assert.IsType<Answer.Unfit>(await AskAsync($"{999:x64}"));
        Assert.IsType<Answer.Stored>(await _data.Pumped.Ask(new Arrival.PhotoRemoval("job-1", $"{3:x64}", null)));
        Assert.IsType<Answer.Stored>(await AskAsync($"{999:x64}"));
        Assert.IsType<Answer.NoSuchJob>(await AskAsync(Name, "job-9"));
    }

    private async Task KeepAsync()
    {
        Assert.Null(new PhotoShelf(LocalDisk.Instance, _data.Folder).Keep(Name, Jpeg));
        Assert.IsType<Answer.Stored>(await AskAsync(Name));
    }

    private Task<Answer> AskAsync(string name, string job = "job-1") =>
        _data.Pumped.Ask(new Arrival.Photo("form", job, """{"surface":"bonnet","by":"Robin"}"""u8.ToArray(), new Picture(name, Jpeg.Length, 400, 200)));

    private void Flip()
    {
        byte[] bytes = System.IO.File.ReadAllBytes(File);
        bytes[^100] ^= 1;
        System.IO.File.WriteAllBytes(File, bytes);
    }
}
