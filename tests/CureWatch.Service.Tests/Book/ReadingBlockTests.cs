using CureWatch.Service.Book;

namespace CureWatch.Service.Tests.Book;

public class ReadingBlockTests
{
    private static readonly DateTimeOffset At = new(2026, 5, 4, 8, 0, 0, TimeSpan.Zero);

    private readonly OpenBlocks _open = new();

    [Theory]
    [InlineData(20.37, 50.1)]
    [InlineData(-39.9999, 0.0001)]
    [InlineData(123.4567, 100.0)]
    [InlineData(0.0, null)]
    public void Reading_ComesOutToFourDecimals(double celsius, double? humidityPct)
    {
        var block = new ReadingBlock("b", "p", 0);
        block.Add(1, new BookedReading(At, celsius, humidityPct));

        Assert.Equal([new BookedReading(At, celsius, humidityPct)], Between(block, At, At));
    }

    [Fact]
    public void Stretch_TakesBothItsEnds_AndLateReadings()
    {
        var block = new ReadingBlock("b", "p", 0);
        foreach (int minute in new[] { 3, 1, 2, 4 })
        {
            block.Add(minute, new BookedReading(At.AddMinutes(minute), minute, null));
        }

        Assert.Equal((At.AddMinutes(1), At.AddMinutes(4)), (Instant(block.FromUnixMs), Instant(block.ToUnixMs)));
        Assert.Equal([1, 2], Between(block, At.AddMinutes(1), At.AddMinutes(2)).Select(r => r.TemperatureC));
    }

    [Fact]
    public void Block_ThatIsFull_IsGivenBackOnce()
    {
        List<ReadingBlock?> full = [.. Enumerable.Range(1, ReadingBlock.Capacity + 2).Select(i => Take(i, At.AddMinutes(i)))];

        ReadingBlock block = Assert.Single(full.OfType<ReadingBlock>());
        Assert.Same(block, full[ReadingBlock.Capacity]);
        Assert.Equal(7920, block.Samples.Length);
        Assert.Equal(ReadingBlock.Capacity, block.Through);
        Assert.Equal(2, Between(_open.Of("b", "p")!, At, DateTimeOffset.MaxValue).Count);
    }

    [Fact]
    public void Reading_TooFarFromTheFirst_BeginsAnotherBlock()
    {
        Take(1, At);

        Assert.NotNull(Take(2, At.AddDays(25)));
        Assert.Single(Between(_open.Of("b", "p")!, At.AddDays(25), At.AddDays(25)));
    }

    [Fact]
    public void Reading_ToldAgain_IsSkipped()
    {
        Take(1, At);
        Take(2, At.AddMinutes(1));

        Take(1, At);
        Take(2, At.AddMinutes(1));

        Assert.Equal(2, Between(_open.Of("b", "p")!, At, At.AddHours(1)).Count);
    }

    [Theory]
    [InlineData(13)]
    [InlineData(7932)]
    public void Block_OfAnImpossibleLength_IsRefused(int bytes) =>
        Assert.Throws<InvalidDataException>(() => new ReadingBlock("b", "p", 0, 0, 0, 0, new byte[bytes]));

    private static DateTimeOffset Instant(long unixMs) => DateTimeOffset.FromUnixTimeMilliseconds(unixMs);

    private static List<BookedReading> Between(ReadingBlock block, DateTimeOffset from, DateTimeOffset to)
    {
        var readings = new List<BookedReading>();
        block.CopyBetween(from, to, readings);
        return readings;
    }

    private ReadingBlock? Take(long sequence, DateTimeOffset at) => _open.Take("b", "p", sequence, new BookedReading(at, 20, 50));
}
