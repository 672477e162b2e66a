using CureWatch.Service.Book;
using CureWatch.Service.Disk;
using Microsoft.Extensions.Hosting;

namespace CureWatch.Service.Tests.Book;

/// <summary>The round over the pages that nobody reads.</summary>
public sealed class PageRoundTests : IDisposable
{
    private static readonly ShopDay Day = ShopDay.Example;

    private readonly HostedBook _book = new();

    public void Dispose() => _book.Dispose();

    [Theory]
    [InlineData(25, true)]
    [InlineData(1, false)]
    public async Task Page_ThatNobodyReads_IsMetByTheRound_AndTheBookWrittenAnew_OnceADay(int hoursLater, bool isReplacedAgain)
    {
        Books.Write(Books.New(_book.Folder), Day.Steps);
        Harm(BookOpening.PathIn(_book.Folder));
        _book.Latest.Register = Day.Register;
        using IHost host = await _book.StartAsync(journalLast: Day.Register.Sequence);
        await HostedBook.UntilLevelAsync(host);
        Assert.Empty(_book.Doubtful);
        Assert.Equal(0, await RoundAsync(host));
        await HostedBook.UntilLevelAsync(host);
        Assert.Equal(["book.db.doubtful-1"], _book.Doubtful);
        Assert.NotEqual(0, await RoundAsync(host));

        _book.Clock.Advance(TimeSpan.FromHours(hoursLater));
        byte[] bytes = File.ReadAllBytes(BookOpening.PathIn(_book.Folder));
        bytes[^1] ^= 1;
        File.WriteAllBytes(BookOpening.PathIn(_book.Folder), bytes);
        _ = await RoundAsync(host);
        if (isReplacedAgain)
        {
            await HostedBook.UntilLevelAsync(host);
            Assert.Equal(["book.db.doubtful-1", "book.db.doubtful-2"], _book.Doubtful);
        }
        else
        {
            Assert.EndsWith($"page {(bytes.Length / PageSlot.Bytes) - 1} is not what was written", await HostedBook.WhyAwayAsync(host), StringComparison.Ordinal);
        }

        await HostedBook.StopAsync(host);
        if (isReplacedAgain)
        {
            _book.AssertWhole();
        }
    }

    /// <returns>How many bytes were looked at before it ended.</returns>
    private static async Task<int> RoundAsync(IHost host)
    {
        int looked = 0;
        var round = new PageRound(HostedBook.Keeper(host), (bytes, _) =>
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
}
