using System.Security.Cryptography;
using CureWatch.Service.Backups;
using CureWatch.Service.Disk;
using CureWatch.Service.Journal;
using CureWatch.Service.Settings;
using CureWatch.Service.Tests.Pump;
using CureWatch.Service.Tests.Settings;

namespace CureWatch.Service.Tests.Backups;

/// <summary>A shop's data folder in several segments, with a car whose name is sealed, and a place for backups of it.</summary>
internal sealed class ShopData : IDisposable
{
    public const int SegmentBytes = 1500;

    private readonly Written _elsewhere = new();

    public Pumped Pumped { get; } = new();

    public string Folder => Pumped.Folder;

    public static async Task<ShopData> FilledAsync()
    {
        var data = new ShopData();
        data.Pumped.Stop();
        data.Pumped.Start(SegmentBytes);
        await data.Pumped.StartJob();
        await data.Pumped.Tap($$"""{"id":"t1","at":"{{UtcText.Of(data.Pumped.Clock.GetUtcNow())}}","did":"applied","by":"Robin"}""");
        await data.ReadAsync(20);
        return data;
    }

    public async Task ReadAsync(int minutes)
    {
        for (int minute = 0; minute < minutes; minute++)
        {
            Pumped.Clock.Advance(TimeSpan.FromMinutes(1));
            await Pumped.Read(20 + (0.01 * minute), 50);
        }
    }

    public string Elsewhere(string name) => Path.Combine(_elsewhere.Folder, name);

    public Backup BackUp(string name = "backup.zip")
    {
        var faults = new Faults();
        Backup? backup = Backup.Write(LocalDisk.Instance, Folder, Elsewhere(name), "test", Pumped.Clock.GetUtcNow(), faults);
        Assert.Empty(faults.All);
        return backup!;
    }

    public static Service.Pump.Register Fold(string folder)
    {
        var recovery = new Service.Pump.Recovery(LocalDisk.Instance, DataFolder.JournalOf(folder), new EntryCodec(new KeyStore(LocalDisk.Instance, DataFolder.KeysOf(folder))));
        recovery.Run();
        Assert.Null(recovery.Damage);
        return recovery.Register;
    }

    /// <summary>Every file of a folder with the digest of its content.</summary>
    public static IReadOnlyList<string> Files(string folder) =>
    [
        .. from path in Directory.EnumerateFiles(folder, "*", SearchOption.AllDirectories).Order(StringComparer.Ordinal)
           select $"{Path.GetRelativePath(folder, path)} {Convert.ToHexStringLower(SHA256.HashData(File.ReadAllBytes(path)))}",
    ];

    public void Dispose()
    {
        Pumped.Dispose();
        _elsewhere.Dispose();
    }
}
