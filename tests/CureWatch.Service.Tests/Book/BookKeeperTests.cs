using CureWatch.Service.Book;
using CureWatch.Service.Disk;
using CureWatch.Service.Journal;
using CureWatch.Service.Pump;
using CureWatch.Service.Tests.Settings;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.Hosting;
using Microsoft.Extensions.Time.Testing;

namespace CureWatch.Service.Tests.Book;

/// <summary>The book in a host of its own, told of the example day.</summary>
public sealed class BookKeeperTests : IDisposable
{
    private static readonly ShopDay Day = ShopDay.Example;
    private static readonly TimeSpan Patience = TimeSpan.FromMinutes(1);

    private readonly Written _written = new();
    private readonly Latest _latest = new();

    private readonly FakeTimeProvider _clock = new();

    private string Folder => _written.Folder;

    private IEnumerable<string?> Doubtful => Directory.GetFiles(Folder, "book.db.doubtful-*").Select(Path.GetFileName).Order(StringComparer.Ordinal);

    public void Dispose() => _written.Dispose();

    [Fact]
    public async Task Book_ThatFollows_HasWhatWasCommittedWhenItStops()
    {
        using (IHost host = await StartAsync())
        {
            Tell(host, Day.Commits);
            await host.StopAsync(TestContext.Current.CancellationToken);
        }

        AssertWhole();
    }

    [Fact]
    public async Task Question_IsAnsweredWithEverythingToldBefore()
    {
        using IHost host = await StartAsync();
        Tell(host, Day.Commits.Take(2));

        var told = Assert.IsType<BookAnswer<BookedJob?>.Told>(await Keeper(host).AskAsync(b => b.Job(Day.JobId)));

        Assert.False(told.IsBehind);
        Assert.Equal(Day.JobId, told.Value?.Id);
        await host.StopAsync(TestContext.Current.CancellationToken);
    }

    [Fact]
    public async Task Book_ToldMoreThanItHolds_ReadsTheJournalInstead()
    {
        using (IHost host = await StartAsync(isStarted: false))
        {
            for (int round = 0; round * Day.Steps.Count <= CommitQueue.MostWaiting; round++)
            {
                Tell(host, Day.Commits);
            }

            await host.StartAsync(TestContext.Current.CancellationToken);
            await UntilLevelAsync(host);
            await host.StopAsync(TestContext.Current.CancellationToken);
        }

        AssertWhole();
    }

    [Fact]
    public async Task Book_OpenedBehindTheJournal_CatchesUpAndGoesOn()
    {
        Step middle = Day.Steps[3000];
        using (var book = new OpenBook(Books.New(Folder)))
        {
            book.Take(Day.Steps.TakeWhile(s => s.Sequence <= middle.Sequence));
        }

        _latest.Register = Day.Commits[^3].After;
        using (IHost host = await StartAsync(journalLast: Day.Commits[^3].After.Sequence))
        {
            Tell(host, Day.Commits.TakeLast(2));
            await UntilLevelAsync(host);
            await host.StopAsync(TestContext.Current.CancellationToken);
        }

        AssertWhole();
    }

    [Fact]
    public async Task Book_ThatIsMissing_IsWrittenFromTheJournal()
    {
        _latest.Register = Day.Register;
        using (IHost host = await StartAsync(journalLast: Day.Register.Sequence))
        {
            await UntilLevelAsync(host);
            await host.StopAsync(TestContext.Current.CancellationToken);
        }

        AssertWhole();
    }

    [Fact]
    public async Task Book_OfAnotherJournal_IsMovedAsideAndReplaced()
    {
        using (BookFile file = Books.New(Folder))
        {
            file.Write(() => file.Positions.Upsert(StoredPosition.Of(new BookPosition(3000, DateTimeOffset.UnixEpoch, 3000))));
        }

        _latest.Register = Day.Register;
        using (IHost host = await StartAsync(journalLast: Day.Register.Sequence))
        {
            await UntilLevelAsync(host);
            await host.StopAsync(TestContext.Current.CancellationToken);
        }

        AssertWhole();
        Assert.True(File.Exists(BookOpening.PathIn(Folder) + ".doubtful-1"));
    }

    [Theory]
    [InlineData(25, true)]
    [InlineData(1, false)]
    public async Task Page_ThatNobodyReads_IsMetByTheRound_AndTheBookWrittenAnew_OnceADay(int hoursLater, bool isReplacedAgain)
    {
        Books.Write(Books.New(Folder), Day.Steps);
        Harm(BookOpening.PathIn(Folder));
        _latest.Register = Day.Register;
        using IHost host = await StartAsync(journalLast: Day.Register.Sequence);
        await UntilLevelAsync(host);
        Assert.Empty(Doubtful);
        Assert.Equal(0, await RoundAsync(host));
        await UntilLevelAsync(host);
        Assert.Equal(["book.db.doubtful-1"], Doubtful);
        Assert.NotEqual(0, await RoundAsync(host));

        _clock.Advance(TimeSpan.FromHours(hoursLater));
        byte[] bytes = File.ReadAllBytes(BookOpening.PathIn(Folder));
        bytes[^1] ^= 1;
        File.WriteAllBytes(BookOpening.PathIn(Folder), bytes);
        _ = await RoundAsync(host);
        if (isReplacedAgain)
        {
            await UntilLevelAsync(host);
            Assert.Equal(["book.db.doubtful-1", "book.db.doubtful-2"], Doubtful);
        }
        else
        {
            Assert.EndsWith($"page {(bytes.Length / PageSlot.Bytes) - 1} is not what was written", await WhyAwayAsync(host), StringComparison.Ordinal);
        }

        await host.StopAsync(TestContext.Current.CancellationToken).WaitAsync(Patience, TestContext.Current.CancellationToken);
        if (isReplacedAgain)
        {
            AssertWhole();
        }
    }

    [Theory]
    [InlineData(true, "the book cannot be used: no such segment")]
    [InlineData(false, "the book cannot be used: the journal cannot be read: no such segment")]
    public async Task Book_WhoseJournalCannotBeRead_SaysSo_AndStaysAsItIs(bool isOfDisk, string why)
    {
        _latest.Register = Day.Register;
        Exception cause = isOfDisk ? new IOException("no such segment") : new InvalidOperationException("no such segment");
        using IHost host = await StartAsync(journalLast: Day.Register.Sequence, journal: new Unreadable(cause));

        Assert.Equal(why, await WhyAwayAsync(host));
        Assert.Empty(Directory.GetFiles(Folder, "*.doubtful-*"));
        await host.StopAsync(TestContext.Current.CancellationToken).WaitAsync(Patience, TestContext.Current.CancellationToken);
    }

    [Fact]
    public async Task Book_WhoseJournalEndsTooEarly_DoesNotPassForWhole()
    {
        _latest.Register = Day.Register;
        using IHost host = await StartAsync(journalLast: Day.Register.Sequence, journal: new Short());

        Assert.Equal(
            $"the book cannot be used: the journal cannot be read beyond entry 100 of {Day.Register.Sequence}", await WhyAwayAsync(host));
        await host.StopAsync(TestContext.Current.CancellationToken).WaitAsync(Patience, TestContext.Current.CancellationToken);
    }

    [Fact]
    public async Task Book_ThatBreaksAgain_IsReplacedOnceAndThenLeftAlone()
    {
        _latest.Register = Day.Register with { Sequence = 1 };
        using IHost host = await StartAsync(journalLast: 1, journal: new Poisoned());

        Assert.StartsWith("the book is broken: No job 'nobody'.", await WhyAwayAsync(host), StringComparison.Ordinal);
        Tell(host, Day.Commits.Take(3));
        Assert.Equal(["book.db.doubtful-1"], Doubtful);
        await host.StopAsync(TestContext.Current.CancellationToken).WaitAsync(Patience, TestContext.Current.CancellationToken);
    }

    [Fact]
    public async Task Question_AfterTheStop_IsRefused()
    {
        using IHost host = await StartAsync();
        await host.StopAsync(TestContext.Current.CancellationToken);

        Assert.IsType<BookAnswer<long>.Away>(await Keeper(host).AskAsync(b => b.Position.Sequence));
    }

    /// <returns>How many bytes were looked at before it ended.</returns>
    private static async Task<int> RoundAsync(IHost host)
    {
        int looked = 0;
        var round = new PageRound(Keeper(host), (bytes, _) =>
        {
            looked += bytes;
            return Task.CompletedTask;
        });
        await round.LookAsync(TestContext.Current.CancellationToken);
        return looked;
    }

    /// <summary>Changes a byte of a page that no start reads.</summary>
    private static void Harm(string path)
    {
        byte[] whole = File.ReadAllBytes(path);
        for (int at = PageSlot.Bytes / 2; ; at += PageSlot.Bytes)
        {
            byte[] harmed = [.. whole];
            harmed[at] ^= 1;
            File.WriteAllBytes(path, harmed);
            try
            {
                new OpenBook(new BookFile(LocalDisk.Instance, path)).Dispose();
                return;
            }
            catch (InvalidDataException)
            {
                // A start meets it: another page.
            }
        }
    }

    private static BookKeeper Keeper(IHost host) => host.Services.GetRequiredService<BookKeeper>();

    private static async Task UntilLevelAsync(IHost host)
    {
        using var patience = new CancellationTokenSource(Patience);
        while (await Keeper(host).AskAsync(b => b.Position.Sequence) is not BookAnswer<long>.Told { IsBehind: false } told
            || told.Value < Day.Register.Sequence)
        {
            await Task.Delay(TimeSpan.FromMilliseconds(20), TimeProvider.System, patience.Token);
        }
    }

    private static async Task<string> WhyAwayAsync(IHost host)
    {
        using var patience = new CancellationTokenSource(Patience);
        while (true)
        {
            if (await Keeper(host).AskAsync(b => b.Position.Sequence) is BookAnswer<long>.Away away)
            {
                return away.Why;
            }

            await Task.Delay(TimeSpan.FromMilliseconds(20), TimeProvider.System, patience.Token);
        }
    }

    private void Tell(IHost host, IEnumerable<Commit> commits)
    {
        foreach (Commit commit in commits)
        {
            _latest.Register = commit.After;
            Keeper(host).Follow(commit);
        }
    }

    private async Task<IHost> StartAsync(long journalLast = 0, IJournalSteps? journal = null, bool isStarted = true)
    {
        HostApplicationBuilder builder = Host.CreateEmptyApplicationBuilder(null);
        builder.Services.AddSingleton(_latest).AddSingleton<TimeProvider>(_clock).AddSingleton(journal ?? Day).AddLogging()
            .AddBook(LocalDisk.Instance, Folder, BookOpening.Of(LocalDisk.Instance, Folder, journalLast), journalLast);
        IHost host = builder.Build();
        _ = Keeper(host);
        if (isStarted)
        {
            await host.StartAsync();
        }

        return host;
    }

    private void AssertWhole()
    {
        using var written = new Written();
        Books.Write(Books.New(written.Folder), Day.Steps);
        Assert.Equal(Books.Content(written.Folder), Books.Content(Folder));
    }

    private sealed class Unreadable(Exception e) : IJournalSteps
    {
        public IEnumerable<Step> After(long sequence)
        {
            yield return sequence < 0 ? default : throw e;
        }
    }

    /// <summary>A journal that cannot be read beyond its hundredth entry, and does not say so.</summary>
    private sealed class Short : IJournalSteps
    {
        public IEnumerable<Step> After(long sequence) => Day.After(sequence).TakeWhile(s => s.Sequence <= 100);
    }

    /// <summary>A journal with a handover of a job that never was.</summary>
    private sealed class Poisoned : IJournalSteps
    {
        public IEnumerable<Step> After(long sequence) =>
            [new Step(1, DateTimeOffset.UnixEpoch, new Entry.HandedOver("nobody", null, null), [], Day.Register)];
    }
}
