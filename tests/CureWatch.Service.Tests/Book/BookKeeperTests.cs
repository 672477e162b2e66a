using CureWatch.Service.Book;
using CureWatch.Service.Journal;
using CureWatch.Service.Pump;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.Hosting;

namespace CureWatch.Service.Tests.Book;

/// <summary>The book in a host of its own, told of the example day.</summary>
public sealed class BookKeeperTests : IDisposable
{
    private static readonly ShopDay Day = ShopDay.Example;

    private readonly HostedBook _book = new();

    public void Dispose() => _book.Dispose();

    [Fact]
    public async Task Book_ThatFollows_HasWhatWasCommittedWhenItStops()
    {
        using (IHost host = await _book.StartAsync())
        {
            _book.Tell(host, Day.Commits);
            await host.StopAsync(TestContext.Current.CancellationToken);
        }

        _book.AssertWhole();
    }

    [Fact]
    public async Task Question_IsAnsweredWithEverythingToldBefore()
    {
        using IHost host = await _book.StartAsync();
        _book.Tell(host, Day.Commits.Take(2));

        var told = Assert.IsType<BookAnswer<BookedJob?>.Told>(await HostedBook.Keeper(host).AskAsync(b => b.Job(Day.JobId)));

        Assert.False(told.IsBehind);
        Assert.Equal(Day.JobId, told.Value?.Id);
        await host.StopAsync(TestContext.Current.CancellationToken);
    }

    [Fact]
    public async Task Book_ToldMoreThanItHolds_ReadsTheJournalInstead()
    {
        using (IHost host = await _book.StartAsync(isStarted: false))
        {
            for (int round = 0; round * Day.Steps.Count <= CommitQueue.MostWaiting; round++)
            {
                _book.Tell(host, Day.Commits);
            }

            await host.StartAsync(TestContext.Current.CancellationToken);
            await HostedBook.UntilLevelAsync(host);
            await host.StopAsync(TestContext.Current.CancellationToken);
        }

        _book.AssertWhole();
    }

    [Fact]
    public async Task Book_OpenedBehindTheJournal_CatchesUpAndGoesOn()
    {
        Step middle = Day.Steps[3000];
        using (var book = new OpenBook(Books.New(_book.Folder)))
        {
            book.Take(Day.Steps.TakeWhile(s => s.Sequence <= middle.Sequence));
        }

        _book.Latest.Register = Day.Commits[^3].After;
        using (IHost host = await _book.StartAsync(journalLast: Day.Commits[^3].After.Sequence))
        {
            _book.Tell(host, Day.Commits.TakeLast(2));
            await HostedBook.UntilLevelAsync(host);
            await host.StopAsync(TestContext.Current.CancellationToken);
        }

        _book.AssertWhole();
    }

    [Fact]
    public async Task Book_ThatIsMissing_IsWrittenFromTheJournal()
    {
        _book.Latest.Register = Day.Register;
        using (IHost host = await _book.StartAsync(journalLast: Day.Register.Sequence))
        {
            await HostedBook.UntilLevelAsync(host);
            await host.StopAsync(TestContext.Current.CancellationToken);
        }

        _book.AssertWhole();
    }

    [Fact]
    public async Task Book_OfAnotherJournal_IsMovedAsideAndReplaced()
    {
        using (BookFile file = Books.New(_book.Folder))
        {
            file.Write(() => file.Positions.Upsert(StoredPosition.Of(new BookPosition(3000, DateTimeOffset.UnixEpoch, 3000))));
        }

        _book.Latest.Register = Day.Register;
        using (IHost host = await _book.StartAsync(journalLast: Day.Register.Sequence))
        {
            await HostedBook.UntilLevelAsync(host);
            await host.StopAsync(TestContext.Current.CancellationToken);
        }

        _book.AssertWhole();
        Assert.True(File.Exists(BookOpening.PathIn(_book.Folder) + ".doubtful-1"));
    }

    [Theory]
    [InlineData(true, "the book cannot be used: no such segment")]
    [InlineData(false, "the book cannot be used: the journal cannot be read: no such segment")]
    public async Task Book_WhoseJournalCannotBeRead_SaysSo_AndStaysAsItIs(bool isOfDisk, string why)
    {
        _book.Latest.Register = Day.Register;
        Exception cause = isOfDisk ? new IOException("no such segment") : new InvalidOperationException("no such segment");
        using IHost host = await _book.StartAsync(journalLast: Day.Register.Sequence, journal: new Unreadable(cause));

        Assert.Equal(why, await HostedBook.WhyAwayAsync(host));
        Assert.Empty(Directory.GetFiles(_book.Folder, "*.doubtful-*"));
        await HostedBook.StopAsync(host);
    }

    [Fact]
    public async Task Book_WhoseJournalEndsTooEarly_DoesNotPassForWhole()
    {
        _book.Latest.Register = Day.Register;
        using IHost host = await _book.StartAsync(journalLast: Day.Register.Sequence, journal: new Short());

        Assert.Equal(
            $"the book cannot be used: the journal cannot be read beyond entry 100 of {Day.Register.Sequence}", await HostedBook.WhyAwayAsync(host));
        await HostedBook.StopAsync(host);
    }

    [Fact]
    public async Task Book_ThatBreaksAgain_IsReplacedOnceAndThenLeftAlone()
    {
        _book.Latest.Register = Day.Register with { Sequence = 1 };
        using IHost host = await _book.StartAsync(journalLast: 1, journal: new Poisoned());

        Assert.StartsWith("the book is broken: No job 'nobody'.", await HostedBook.WhyAwayAsync(host), StringComparison.Ordinal);
        _book.Tell(host, Day.Commits.Take(3));
        Assert.Equal(["book.db.doubtful-1"], _book.Doubtful);
        await HostedBook.StopAsync(host);
    }

    [Fact]
    public async Task Question_AfterTheStop_IsRefused()
    {
        using IHost host = await _book.StartAsync();
        await host.StopAsync(TestContext.Current.CancellationToken);

        Assert.IsType<BookAnswer<long>.Away>(await HostedBook.Keeper(host).AskAsync(b => b.Position.Sequence));
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
