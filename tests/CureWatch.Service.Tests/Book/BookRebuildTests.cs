using System.Text;
using CureWatch.Service.Book;
using CureWatch.Service.Journal;
using CureWatch.Service.Pump;
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
}
