using CsCheck;
using CureWatch.Service.Backups;
using CureWatch.Service.Settings;

namespace CureWatch.Service.Tests.Backups;

public class RotationTests
{
    private static readonly DateTimeOffset Night = new(2026, 5, 4, 3, 30, 0, TimeSpan.Zero);

    [Fact]
    public void ThreeYearsOfNights_LeaveWhatWasAskedFor()
    {
        List<DateTimeOffset> nights = [.. Enumerable.Range(0, 3 * 365).Select(day => Night.AddDays(-day))];
        IReadOnlySet<DateTimeOffset> kept = Kept(nights, 7, 4, 12);
        Assert.Equal(nights.Take(7), kept.OrderDescending().Take(7));
        Assert.Contains(new DateTimeOffset(2026, 4, 30, 3, 30, 0, TimeSpan.Zero), kept);
        Assert.Contains(new DateTimeOffset(2025, 6, 30, 3, 30, 0, TimeSpan.Zero), kept);
        Assert.Equal(12, kept.Select(at => (at.Year, at.Month)).Distinct().Count());
        Assert.InRange(kept.Count, 19, 23);
    }

    [Fact]
    public void SeveralOfADay_LeaveTheNewest() => Assert.Equal([Night], Kept([Night, Night.AddMinutes(-1), Night.AddHours(-3)], 7, 0, 0));

    [Fact]
    public void Days_AreTheShops() => Assert.Equal(
        2, Rotation.Kept([Night, Night.AddHours(-4)], Of(7, 0, 0), TimeZoneInfo.CreateCustomTimeZone("late", TimeSpan.FromHours(-3), null, null)).Count);

    /// <summary>Rotating night after night leaves what rotating once at the end would leave, and never takes the newest.</summary>
    [Fact]
    public void NightAfterNight_KeepsTheNewest_AndNoMoreThanWasAskedFor() => (
        from gaps in Gen.Int[1, 100].Array[1, 120]
        from daily in Gen.Int[0, 8]
        from weekly in Gen.Int[0, 5]
        from monthly in Gen.Int[0, 5]
        select (gaps, daily, weekly, monthly)).Sample(c =>
        {
            IReadOnlySet<DateTimeOffset> kept = new HashSet<DateTimeOffset>();
            DateTimeOffset at = Night;
            foreach (int hours in c.gaps)
            {
                at = at.AddHours(hours);
                kept = Kept([.. kept, at], c.daily, c.weekly, c.monthly);
                Assert.Contains(at, kept);
                Assert.True(kept.Count <= Math.Max(1, c.daily + c.weekly + c.monthly));
            }
        });

    private static IReadOnlySet<DateTimeOffset> Kept(IEnumerable<DateTimeOffset> backups, int daily, int weekly, int monthly) =>
        Rotation.Kept(backups, Of(daily, weekly, monthly), TimeZoneInfo.Utc);

    private static BackupSettings Of(int daily, int weekly, int monthly) => new("", default, daily, weekly, monthly);
}
