using System.Collections.Immutable;
using System.Text.Json;
using System.Text.Json.Serialization;
using CsCheck;
using CureWatch.Bays;
using CureWatch.TimeWindows;
using CureWatch.Warnings;

namespace CureWatch.Tests.Bays;

/// <summary>What holds of any day, whatever is told on it.</summary>
public class ShopFoldTests
{
    private const int Days = 60;

    private static readonly JsonSerializerOptions Whole = new()
    {
        IncludeFields = true, NumberHandling = JsonNumberHandling.AllowNamedFloatingPointLiterals, WriteIndented = true,
    };

    [Fact]
    public void AnyDay_IsTakenIn_AndNothingSaidIsUnsaid() => AnyDay.Days.Sample(
        day =>
        {
            Shop shop = AnyDay.Opening();
            foreach (Message message in new AnyDay(day.Seed).Messages(day.Length))
            {
                Shop after = ShopFold.Take(shop, message).Shop;
                Assert.True(after.Now >= shop.Now);
                AssertNotUnsaid(shop.Warnings, after.Warnings);
                shop = after;
            }

            Assert.All(Reports(shop).SelectMany(r => r.Surfaces).SelectMany(s => s.Coats).SelectMany(c => c.Windows), AssertInOrder);
        },
        iter: Days);

    [Fact]
    public void AnyDay_ToldTwice_IsTheSame() => AnyDay.Days.Sample(
        day => Assert.Equal(
            Told(AnyDay.Fold(AnyDay.Opening(), new AnyDay(day.Seed).Messages(day.Length))),
            Told(AnyDay.Fold(AnyDay.Opening(), new AnyDay(day.Seed).Messages(day.Length)))),
        iter: Days / 3);

    [Fact]
    public void AnyDay_HoweverOftenTheClockIsRead_IsTheSame() => Gen.Select(AnyDay.Days, Gen.Double[0, 1].Array[1, 5]).Sample(
        (day, shares) =>
        {
            ImmutableArray<Message> messages = new AnyDay(day.Seed).Messages(day.Length);
            var end = new Message.ClockReached(messages.Max(m => m.At) + TimeSpan.FromHours(1));
            Assert.Equal(
                Told(AnyDay.Fold(AnyDay.Opening(), [.. messages, end])), Told(AnyDay.Fold(AnyDay.Opening(), WithClock([.. messages, end], shares))));
        },
        iter: Days / 3);

    // Found by AnyDay: a coat that gets there at once has no mean climate of its own.
    [Theory]
    [InlineData(747132, 47)]
    [InlineData(413761, 43)]
    public void Day_WhoseCoatGotThereAtOnce_IsReported(int seed, int length)
    {
        ImmutableArray<Message> messages = new AnyDay(seed).Messages(length);
        var end = new Message.ClockReached(messages.Max(m => m.At) + TimeSpan.FromHours(1));
        Assert.NotEmpty(Reports(AnyDay.Fold(AnyDay.Opening(), WithClock([.. messages, end], [0, 1]))).ToArray());
    }

    private static IEnumerable<Message> WithClock(IEnumerable<Message> messages, double[] shares)
    {
        DateTimeOffset now = TestShop.Start;
        foreach (Message message in messages)
        {
            foreach (double share in shares.Order())
            {
                if (message.At > now)
                {
                    yield return new Message.ClockReached(now + ((message.At - now) * share));
                }
            }

            yield return message;
            now = message.At > now ? message.At : now;
        }
    }

    private static IEnumerable<JobReport> Reports(Shop shop) => shop.JobsInOrder.Select(j => JobReport.Of(shop, j.Job.Id));

    private static string Told(Shop shop) => JsonSerializer.Serialize(new { Reports = Reports(shop), Warnings = shop.Warnings.Values, shop.Tally.Accepted, shop.Now }, Whole);

    private static void AssertNotUnsaid(ImmutableSortedDictionary<int, Warning> before, ImmutableSortedDictionary<int, Warning> after)
    {
        foreach ((int number, Warning said) in before)
        {
            Warning now = after[number];
            Assert.Equal(said, said.ClearedAt is null ? now with { ClearedAt = null } : now);
        }

        Assert.All(after.Values, warning => Assert.True(warning.ClearedAt is null || warning.ClearedAt >= warning.RaisedAt));
    }

    private static void AssertInOrder(Window window)
    {
        Assert.False(window.OpensAt.Earliest > window.OpensAt.Likely || window.OpensAt.Likely > window.OpensAt.Latest, $"{window}");
        Assert.False(window.ClosesAt?.Earliest > window.ClosesAt?.Likely || window.ClosesAt?.Likely > window.ClosesAt?.Latest, $"{window}");
    }
}
