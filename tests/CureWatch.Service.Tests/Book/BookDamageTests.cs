using CsCheck;
using CureWatch.Service.Book;
using CureWatch.Service.Disk;
using CureWatch.Service.Tests.Settings;

namespace CureWatch.Service.Tests.Book;

/// <summary>A byte of the book that the disk lost: nobody is told a number that never was, and `verify` finds it wherever it is.</summary>
public sealed class BookDamageTests : IDisposable
{
    private static readonly ShopDay Day = ShopDay.Example;

    private readonly Written _written = new();
    private readonly byte[] _whole;

    public BookDamageTests()
    {
        Books.Write(Books.New(_written.Folder), Day.Steps);
        _whole = File.ReadAllBytes(Path);
    }

    private string Path => BookOpening.PathIn(_written.Folder);

    public void Dispose() => _written.Dispose();

    [Fact]
    public void AnyByte_OtherThanItWas_IsDamage_NamedByItsPage() => Flips.Sample(
        (at, bit) =>
        {
            long page = Flip(at, bit);
            (bool isDamage, string says, BookPosition? position) = BookCheck.Of(LocalDisk.Instance, _written.Folder, Day.Register.Sequence);
            Assert.Equal(
                (true, $"{Path}: byte {page * PageSlot.Bytes}: page {page} is not what was written; the next start moves it aside and writes another from the journal", null),
                (isDamage, says, position));
        });

    [Fact]
    public void AnyByte_OtherThanItWas_ChangesNoAnswer()
    {
        string right = Answers(Books.Found(_written.Folder));
        Flips.Sample(
            (at, bit) =>
            {
                _ = Flip(at, bit);
                if (BookOpening.Of(LocalDisk.Instance, _written.Folder, Day.Register.Sequence) is BookOpening.Found found)
                {
                    try
                    {
                        Assert.Equal(right, Answers(found.File));
                    }
                    catch (InvalidDataException)
                    {
                        // It was met: the book is written anew.
                    }
                }

                foreach (string doubtful in Directory.GetFiles(_written.Folder, "*.doubtful-*"))
                {
                    File.Delete(doubtful);
                }
            });
    }

    [Fact]
    public void PageInThePlaceOfAnother_IsDamage()
    {
        byte[] swapped = [.. _whole];
        _whole.AsSpan(3 * PageSlot.Bytes, PageSlot.Bytes).CopyTo(swapped.AsSpan(4 * PageSlot.Bytes));
        File.WriteAllBytes(Path, swapped);
        Assert.StartsWith($"{Path}: byte {4 * PageSlot.Bytes}: page 4 ", BookCheck.Of(LocalDisk.Instance, _written.Folder, null).Says, StringComparison.Ordinal);
    }

    private Gen<(int At, int Bit)> Flips => Gen.Select(Gen.Int[0, _whole.Length - 1], Gen.Int[0, 7]);

    /// <returns>The page it is on.</returns>
    private long Flip(int at, int bit)
    {
        byte[] bytes = [.. _whole];
        bytes[at] ^= (byte)(1 << bit);
        File.WriteAllBytes(Path, bytes);
        return at / PageSlot.Bytes;
    }

    private static string Answers(BookFile file)
    {
        using var book = new OpenBook(file);
        BookQueries ask = book.Queries;
        return string.Join('\n', [
            $"{ask.Position}", $"{ask.Job(Day.JobId)?.Left}", ask.HandoverRecord(Day.JobId) ?? "",
            .. ask.Left(null, 10).Select(j => j.Id),
            .. ask.TapsOf(Day.JobId).Select(t => $"{t.Number} {t.Tap}"),
            .. ask.PastWarnings(DateTimeOffset.UnixEpoch, DateTimeOffset.MaxValue, null, 100).Select(w => $"{w}"),
            .. ask.ReadingsOf("bay-1", "air", DateTimeOffset.UnixEpoch, DateTimeOffset.MaxValue, 5_000).Select(r => $"{r}"),
        ]);
    }
}
