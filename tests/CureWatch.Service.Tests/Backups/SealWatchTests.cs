using CureWatch.Service.Backups;
using CureWatch.Service.Disk;
using CureWatch.Service.Journal;
using CureWatch.Service.Pump;
using CureWatch.Service.Settings;
using CureWatch.Warnings;
using Microsoft.Extensions.Logging.Abstractions;

namespace CureWatch.Service.Tests.Backups;

/// <summary>A full segment that is damaged is told, whatever a start reads, and for as long as it is.</summary>
public sealed class SealWatchTests : IAsyncLifetime
{
    private ShopData _data = null!;
    private DataFolder _folder = null!;
    private SealWatch _watch = null!;
    private long _read;

    private Trouble? Trouble => _data.Pumped.Troubles.Of(WarningKind.StorageDamage);

    private IReadOnlyList<Segment> Segments => Segment.In(LocalDisk.Instance, _folder.Journal);

    private string Shelf => _data.Elsewhere("nights");

    public async ValueTask InitializeAsync()
    {
        _data = await ShopData.FilledAsync();
        _folder = DataFolder.Hold(LocalDisk.Instance, _data.Folder, isDemo: false, new Faults())!;
        _watch = new SealWatch(
            _folder, new BackupSettings(Shelf, new TimeOnly(3, 30), 3, 0, 0), _data.Pumped.Latest, _data.Pumped.Troubles, Rest, NullLogger<SealWatch>.Instance);
    }

    public ValueTask DisposeAsync()
    {
        _folder.Dispose();
        _data.Dispose();
        return ValueTask.CompletedTask;
    }

    [Fact]
    public async Task SoundSegments_AreReadWhole_AndNothingIsTold()
    {
        await LookAsync();
        Assert.Null(Trouble);
        Assert.Equal(Segments.SkipLast(1).Sum(s => new FileInfo(s.Path).Length), _read);
        Assert.True(Segments.Count > 2);
    }

    [Fact]
    public async Task AnyByteOfAFullSegment_IsTold_WithTheSegment_UntilItIsSoundAgain()
    {
        foreach (Segment segment in Segments.SkipLast(1))
        {
            byte[] sound = File.ReadAllBytes(segment.Path);
            for (int i = 0; i < sound.Length; i += 7)
            {
                byte[] hurt = [.. sound];
                hurt[i] ^= 4;
                await File.WriteAllBytesAsync(segment.Path, hurt, TestContext.Current.CancellationToken);
                await LookAsync();
                Assert.Contains(segment.Path, Trouble!.Cause.ToString(), StringComparison.Ordinal);
                Assert.True(_watch.HasDamage);
                await File.WriteAllBytesAsync(segment.Path, sound, TestContext.Current.CancellationToken);
                await LookAgainAsync();
                Assert.Null(Trouble);
            }
        }
    }

    [Fact]
    public async Task WhatIsDamaged_IsWhatVerifyNames()
    {
        foreach (int length in new[] { 0, 20, Segment.HeaderBytes, 300 })
        {
            Segment segment = Segments[1];
            byte[] sound = File.ReadAllBytes(segment.Path);
            await File.WriteAllBytesAsync(segment.Path, sound[..length], TestContext.Current.CancellationToken);
            await LookAsync();
            Assert.StartsWith(segment.Path, JournalReader.DamagesIn(LocalDisk.Instance, _folder.Journal).First().ToString(), StringComparison.Ordinal);
            Assert.Contains($"{segment.Path} (entries {segment.First} to {Segments[2].First - 1})", Trouble!.Why, StringComparison.Ordinal);
            await File.WriteAllBytesAsync(segment.Path, sound, TestContext.Current.CancellationToken);
        }
    }

    [Fact]
    public async Task SegmentThatIsGone_OrAnothersInItsPlace_IsTold()
    {
        (Segment first, Segment second) = (Segments[0], Segments[1]);
        byte[] sound = File.ReadAllBytes(second.Path);
        File.Delete(second.Path);
        await LookAsync();
        Assert.Contains($"{first.Path} (entries 1 to", Trouble!.Why, StringComparison.Ordinal);
        using (ShopData stranger = await ShopData.FilledAsync())
        {
            stranger.Pumped.Stop();
            File.Copy(Segment.In(LocalDisk.Instance, DataFolder.JournalOf(stranger.Folder))[1].Path, second.Path);
        }

        await LookAsync();
        Assert.Contains(second.Path, Trouble!.Why, StringComparison.Ordinal);
        await File.WriteAllBytesAsync(second.Path, sound, TestContext.Current.CancellationToken);
        await LookAsync();
        Assert.Null(Trouble);
    }

    [Fact]
    public async Task BackupThatHasIt_IsNamed_AndPuttingTheFileBackEndsIt()
    {
        Directory.CreateDirectory(Shelf);
        Segment segment = Segments[0];
        Hurt(segment);
        await LookAsync();
        Assert.EndsWith("no nightly backup here has it", Trouble!.Why, StringComparison.Ordinal);
        Hurt(segment);
        _ = _data.BackUp("nights/curewatch-test-shop-20260504T082000Z.zip");
        Hurt(segment);
        await LookAgainAsync();
        string backup = Path.Combine(Shelf, "curewatch-test-shop-20260504T082000Z.zip");
        Assert.EndsWith($"{backup} has it whole", Trouble!.Why, StringComparison.Ordinal);
        await using (System.IO.Compression.ZipArchive zip = await System.IO.Compression.ZipFile.OpenReadAsync(backup, TestContext.Current.CancellationToken))
        await using (Stream whole = await zip.GetEntry($"journal/{Path.GetFileName(segment.Path)}")!.OpenAsync(TestContext.Current.CancellationToken))
        await using (FileStream back = File.Create(segment.Path))
        {
            await whole.CopyToAsync(back, TestContext.Current.CancellationToken);
        }

        await LookAgainAsync();
        Assert.Null(Trouble);
    }

    [Fact]
    public async Task TroublesOfTheDiskThatGo_LeaveItStanding()
    {
        Hurt(Segments[1]);
        await LookAsync();
        _data.Pumped.Troubles.Raise(WarningKind.StorageTrouble, "full");
        _data.Pumped.Troubles.Raise(WarningKind.StorageAhead, "nearly full");
        _data.Pumped.Troubles.Clear(WarningKind.StorageTrouble);
        _data.Pumped.Troubles.Clear(WarningKind.StorageAhead);
        await _data.ReadAsync(3); // which the watch over the disk looks at
        Assert.NotNull(Trouble);
    }

    [Fact]
    public async Task Look_ThatIsCancelled_EndsAtTheNextPiece()
    {
        using var cancelled = new CancellationTokenSource();
        await cancelled.CancelAsync();
        await Assert.ThrowsAnyAsync<OperationCanceledException>(() => _watch.LookAsync(cancelled.Token));
        Assert.True(_read <= new FileInfo(Segments[0].Path).Length);
    }

    private static void Hurt(Segment segment)
    {
        byte[] bytes = File.ReadAllBytes(segment.Path);
        bytes[^40] ^= 1;
        File.WriteAllBytes(segment.Path, bytes);
    }

    private Task Rest(int bytes, CancellationToken cancelled)
    {
        _read += bytes;
        cancelled.ThrowIfCancellationRequested();
        return Task.CompletedTask;
    }

    private Task LookAsync() => _watch.LookAsync(TestContext.Current.CancellationToken);

    private Task LookAgainAsync() => _watch.LookAgainAsync(TestContext.Current.CancellationToken);
}
