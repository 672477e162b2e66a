using System.Collections.Concurrent;
using CureWatch.Benchmarks.Power;
using CureWatch.Service.Book;
using CureWatch.Service.Journal;
using CureWatch.Service.Pump;
using CureWatch.Service.Tests.Mqtt;
using CureWatch.Service.Tests.Pump;
using CureWatch.Warnings;

namespace CureWatch.Service.Tests.Disk;

/// <summary>A disk that is full, slow or nearly full for a while, under a service that runs.</summary>
public sealed class FullDiskTests : IDisposable
{
    private readonly FaultyDisk _disk = new(new PowerCutDisk(seed: 1));
    private readonly PoweredShop _shop;

    public FullDiskTests() => _shop = new PoweredShop(seed: 1, _disk);

    public void Dispose() => _shop.Dispose();

    [Fact]
    public async Task Disk_FullFromEveryWriteOn_ThenFreed_TakesNothingMeanwhile_AndGoesOnByItself()
    {
        using Life life = _shop.Start();
        for (int i = 0; i < 8; i++)
        {
            await _shop.RoundAsync(life);
            Register before = life.Latest.Register;
            _disk.IsFull = true;
            await _shop.RoundAsync(life);
            Assert.NotNull(life.Troubles.Of(WarningKind.StorageTrouble));
            Assert.Equal(before.Sequence, life.Latest.Register.Sequence);
            Assert.NotEqual(0, _shop.Unanswered);

            _shop.Clock.Advance(TimeSpan.FromSeconds(35)); // tried again in vain
            _disk.IsFull = false;
            await Eventually.TrueAsync(() => Tick(life) && life.Troubles.Standing.IsEmpty, "the journal to go on");
            await _shop.RoundAsync(life);
            Assert.Equal(0, _shop.Unanswered);
            Assert.Equal(States.Text(Recovered().Register), States.Text(life.Latest.Register));
        }

        await life.StopAsync();
        life.Dispose();
        Assert.Empty(await _shop.SettleAsync());
    }

    // A few bytes fit, a batch does not: each try succeeds, and what comes then fails again.
    [Theory]
    [InlineData(0)]
    [InlineData(9)]
    public async Task Disk_ThatIsFullAgainAndAgain_IsToldOnce_AndIsOverOnceNothingFailedForTenSeconds(int soundSeconds)
    {
        using Life life = _shop.Start();
        await _shop.RoundAsync(life);
        var told = new ConcurrentQueue<bool>();
        life.Troubles.Changed += () => // another trouble may change meanwhile
        {
            if (life.Troubles.Of(WarningKind.StorageTrouble) is not null is var stands && stands != told.LastOrDefault())
            {
                told.Enqueue(stands);
            }
        };
        for (int i = 0; i < 5; i++)
        {
            _disk.IsFull = true;
            Assert.IsType<Answer.NotStored>(await TellAsync(life, afterSeconds: 0));
            _disk.IsFull = false;
            _ = await TellAsync(life, afterSeconds: 1); // whichever comes first, this or the try that succeeds
            Assert.IsType<Answer.Stored>(await TellAsync(life, afterSeconds: soundSeconds));
        }

        Assert.Equal([true], told);
        await Eventually.TrueAsync(() => Tick(life) && told.Count > 1, "it to be over without anything that comes");
        Assert.Equal([true, false], told);
    }

    [Fact]
    public async Task Book_OnAFullDisk_TakesNothingDown_AndCatchesUp()
    {
        using Life life = _shop.Start();
        await _shop.RoundAsync(life);
        _disk.FullFor = path => path.StartsWith(Life.Book, StringComparison.Ordinal);
        for (int i = 0; i < 20; i++)
        {
            await _shop.RoundAsync(life);
            Assert.Equal(0, _shop.Unanswered);
        }

        await Eventually.TrueAsync(() => Tick(life) && Ask(life) is BookAnswer<BookPosition>.Away, "the book to be away");
        _disk.FullFor = _ => false;
        await Eventually.TrueAsync(
            () => Tick(life) && Ask(life) is BookAnswer<BookPosition>.Told told && told.Value.Sequence == life.Latest.Register.Sequence, "the book to catch up");
        Assert.DoesNotContain(_disk.NamesIn(Life.Book), n => n.Contains("doubtful", StringComparison.Ordinal));
        await life.StopAsync();
        life.Dispose();
        Assert.Empty(await _shop.SettleAsync());
    }

    [Fact]
    public async Task Disk_NearlyFull_IsToldWhileEverythingIsTaken()
    {
        using Life life = _shop.Start();
        await LookAsync(life, StorageWatch.LittleBytes - 1);
        Trouble trouble = Assert.Single(life.Troubles.Standing);
        Assert.Equal((WarningKind.StorageAhead, "only about 190 MB are left on the disk"), (trouble.Kind, trouble.Why));
        Assert.Equal(0, _shop.Unanswered);
        await LookAsync(life, StorageWatch.LittleBytes + 1);
        Assert.Single(life.Troubles.Standing);
        await LookAsync(life, StorageWatch.EnoughBytes);
        Assert.Empty(life.Troubles.Standing);
    }

    [Fact]
    public async Task Write_ThatDoesNotComeBack_IsTold_AndSoIsItsEnd()
    {
        using Life life = _shop.Start();
        using var hangs = new ManualResetEventSlim();
        using var goesOn = new ManualResetEventSlim();
        _disk.Slow = path =>
        {
            if (path.StartsWith(Life.Journal, StringComparison.Ordinal))
            {
                hangs.Set();
                goesOn.Wait();
            }
        };
        Task<Answer> answer = TellAsync(life, afterSeconds: 0);
        await Eventually.TrueAsync(() => hangs.IsSet, "the write to hang");
        _shop.Clock.Advance(StorageWatch.LongWrite);
        (WarningKind, string)[] troubles = [.. life.Troubles.Standing.Select(t => (t.Kind, t.Why))];
        _shop.Clock.Advance(StorageWatch.HungWrite - StorageWatch.LongWrite);
        string? nothingTaken = life.Troubles.Of(WarningKind.StorageTrouble)?.Why;
        bool isAnswered = answer.IsCompleted;
        _disk.Slow = _ => { };
        goesOn.Set();
        Assert.Equal([(WarningKind.StorageAhead, "a write has not come to its end for 3 s")], troubles);
        Assert.Equal("a write has not come back for 30 s", nothingTaken);
        Assert.False(isAnswered);
        Assert.IsType<Answer.Stored>(await answer.InTimeAsync());
        Assert.Equal("the last write took 30 s", Assert.Single(life.Troubles.Standing).Why);
        await _shop.RoundAsync(life);
        Assert.Empty(life.Troubles.Standing);
    }

    private Recovery Recovered()
    {
        var recovery = new Recovery(_disk, Life.Journal, new EntryCodec(new KeyStore(_disk, DataFolder.KeysOf(Life.Data))));
        recovery.Run();
        return recovery;
    }

    private async Task<Answer> TellAsync(Life life, int afterSeconds)
    {
        _shop.Clock.Advance(TimeSpan.FromSeconds(afterSeconds));
        var reading = new Arrival.Reading(new Entry.Reading("bay-0", "air-0", _shop.Clock.GetUtcNow(), 20, 50, null));
        return await life.Inbox.AskAsync(reading, TestContext.Current.CancellationToken).InTimeAsync();
    }

    private async Task LookAsync(Life life, long free)
    {
        _disk.Free = free;
        _shop.Clock.Advance(TimeSpan.FromMinutes(1));
        await _shop.RoundAsync(life);
        await _shop.RoundAsync(life); // its answers come after the look at the end of the batch before
    }

    /// <summary>Time goes by.</summary>
    private bool Tick(Life life)
    {
        _shop.Clock.Advance(TimeSpan.FromSeconds(1));
        return life.Latest.Register.Sequence > 0;
    }

    private static BookAnswer<BookPosition> Ask(Life life) => life.AskBookAsync(b => b.Position).GetAwaiter().GetResult();
}
