using System.Text;
using CsCheck;
using CureWatch.Service.Book;
using CureWatch.Service.Disk;
using CureWatch.Service.Journal;
using CureWatch.Service.Pump;
using CureWatch.Service.Tests.Pump;
using CureWatch.Service.Tests.Settings;

namespace CureWatch.Service.Tests.Book;

/// <summary>However the entries came in, the book says the same.</summary>
public sealed class BookRebuildTests : IDisposable
{
    private static readonly ShopDay Day = ShopDay.Example;
    private static readonly Lazy<IReadOnlyList<string>> Rebuilt = new(() =>
    {
        using var written = new Written();
        Books.Write(Books.New(written.Folder), Day.Steps);
        return Books.Content(written.Folder);
    });

    private readonly Written _written = new();

    public void Dispose() => _written.Dispose();

    [Fact]
    public void Book_WrittenCommitByCommit_EqualsTheOneRebuilt()
    {
        using (var book = new OpenBook(Books.New(_written.Folder)))
        {
            foreach (Commit commit in Day.Commits)
            {
                book.Take(commit.Steps);
            }

            book.Save();
        }

        Assert.Equal(Rebuilt.Value, Books.Content(_written.Folder));
    }

    [Theory]
    [InlineData(1, 400)]
    [InlineData(2, 150)]
    [InlineData(3, 37)]
    public void Book_ThatIsCutOffAgainAndAgain_EqualsTheOneRebuilt(int seed, int everyCommits)
    {
        var random = new Random(seed);
        BookFile file = Books.New(_written.Folder);
        for (int next = 0; next < Day.Commits.Count;)
        {
            using (var book = new OpenBook(file))
            {
                long told = next == 0 ? 0 : Day.Commits[next - 1].After.Sequence;
                book.Take(Day.After(book.Position.ReadingsThrough).TakeWhile(s => s.Sequence <= told));
                int until = Math.Min(Day.Commits.Count, next + 1 + random.Next(everyCommits * 2));
                for (; next < until; next++)
                {
                    book.Take(Day.Commits[next].Steps);
                    if (random.Next(20) == 0)
                    {
                        book.Save();
                    }
                }
            }

            file = Books.Found(_written.Folder);
        }

        Books.Write(file, Day.After(file.Position()!.ReadingsThrough));

        Assert.Equal(Rebuilt.Value, Books.Content(_written.Folder));
    }

    [Fact]
    public void Book_SavedWhileItCatchesUp_ClaimsNoMoreReadingsThanItHas()
    {
        Step tap = Day.Steps.Last(s => s.Entry is Entry.Tapped);
        using (var book = new OpenBook(Books.New(_written.Folder)))
        {
            book.Take(Day.Steps.TakeWhile(s => s.Sequence <= tap.Sequence));
        }

        using (var book = new OpenBook(Books.Found(_written.Folder)))
        {
            Assert.Equal((tap.Sequence, 0), (book.Position.Sequence, book.Position.ReadingsThrough));
            book.Take(Day.Steps.Take(1000));
            book.Save();
        }

        BookFile file = Books.Found(_written.Folder);
        Assert.Equal((tap.Sequence, Day.Steps[999].Sequence), (file.Position()!.Sequence, file.Position()!.ReadingsThrough));
        Books.Write(file, Day.After(Day.Steps[999].Sequence));
        Assert.Equal(Rebuilt.Value, Books.Content(_written.Folder));
    }

    /// <summary>Any hours, told commit by commit to a book that is closed, cut off and opened again on the way: the journal alone gives the same.</summary>
    [Fact]
    public void AnyHours_GiveTheBookThatTheirJournalGives() => Gen.Int[1, 1_000_000].Sample(
        seed =>
        {
            using Pumped pumped = Pump(seed).GetAwaiter().GetResult();
            string live = pumped.Folder + "/live", anew = pumped.Folder + "/anew";
            Directory.CreateDirectory(live);
            Directory.CreateDirectory(anew);
            Follow(live, pumped.Commits, new Random(seed));
            Books.Write(Books.New(anew), Journalled(pumped));
            Assert.Equal(Books.Content(anew), Books.Content(live));
            Assert.Contains(Books.Content(anew), line => line.StartsWith("blocks ", StringComparison.Ordinal));
        },
        iter: 3);

    [Fact]
    public void NamesAndWordsOfPeople_AreNowhereInTheFile()
    {
        string[] secrets =
        [
            Day.Register.Shop!.Find(Day.JobId)!.Job.Car!, "SOMEBODY", "SOMETHING HELD IT",
            .. Day.Register.Shop.Find(Day.JobId)!.Told.SelectMany(t => new[] { t.By, t.Note }).OfType<string>().Distinct(),
        ];
        Books.Write(Books.New(_written.Folder), Day.Steps);

        string content = string.Join('\n', Books.Content(_written.Folder));
        Assert.Contains("\"bonnet\"", content, StringComparison.Ordinal);
        Assert.All(secrets, secret => Assert.DoesNotContain($"\"{secret}\"", content, StringComparison.Ordinal));
        string bytes = Encoding.Latin1.GetString(File.ReadAllBytes(BookOpening.PathIn(_written.Folder)));
        Assert.All(secrets.Where(s => s.Length > 5), secret => Assert.DoesNotContain(secret, bytes, StringComparison.Ordinal));
    }

    private static async Task<Pumped> Pump(int seed)
    {
        var pumped = new Pumped(AnyInputs.Shop);
        foreach ((DateTimeOffset at, IReadOnlyList<Func<Arrival>> arrivals) in new AnyInputs(seed).Groups(600))
        {
            pumped.Clock.SetUtcNow(at);
            await pumped.AskTogether(arrivals.Select(a => a()));
        }

        pumped.Stop();
        return pumped;
    }

    private static IEnumerable<Step> Journalled(Pumped pumped) => new Recovery(
        LocalDisk.Instance,
        DataFolder.JournalOf(pumped.Folder),
        new EntryCodec(new KeyStore(LocalDisk.Instance, DataFolder.KeysOf(pumped.Folder)))).Steps();

    private static void Follow(string folder, IReadOnlyList<Commit> commits, Random chance)
    {
        Step[] steps = [.. commits.SelectMany(c => c.Steps)];
        var book = new OpenBook(Books.New(folder));
        foreach (Commit commit in commits)
        {
            book.Take(commit.Steps);
            if (chance.Next(15) == 0)
            {
                book.Save();
            }

            if (chance.Next(60) == 0)
            {
                book.Dispose();   // and what was not saved is gone
                book = new OpenBook(Books.Found(folder));
                book.Take(steps.Where(s => s.Sequence > book.Position.ReadingsThrough && s.Sequence <= commit.After.Sequence));
            }
        }

        book.Save();
        book.Checkpoint();
        book.Dispose();
    }
}
