using System.Diagnostics;
using System.Globalization;
using CureWatch.Service.Book;
using CureWatch.Service.Disk;
using CureWatch.Service.Pump;

namespace CureWatch.Benchmarks.BookSize;

/// <summary>
/// How large the book gets, and how long a probe's week takes out of it: nothing is extrapolated, every reading goes through the writer the
/// service has. Ends with no where a target is missed.
/// </summary>
internal static class BookSizeRun
{
    public const string Verb = "book-size";

    private const int UsualDays = 3 * 365;
    private const int Slice = 2_000;
    private const int Questions = 400;
    private const double MostBytesOfThreeYears = 3e9;
    private const double MostMilliseconds = 150;

    public static async Task<int> RunAsync(string[] options)
    {
        var years = new ShopYears(options is [var days] ? int.Parse(days, CultureInfo.InvariantCulture) : UsualDays);
        DirectoryInfo place = Directory.CreateTempSubdirectory("curewatch-bench-");
        try
        {
            double seconds = Write(place.FullName, years);
            long bytes = place.EnumerateFiles().Sum(f => f.Length);
            Say($"{years.Readings} readings: {bytes / 1e6:0} MB, {(double)bytes / years.Readings:0.00} bytes each, {years.Readings / seconds:0} a second in {seconds:0} s");
            Console.WriteLine("a week of a probe, milliseconds:");
            bool isQuick = Ask(place.FullName, years) & await AskOverHttpAsync(place.FullName, years);
            return isQuick && (double)bytes / years.Readings * new ShopYears(UsualDays).Readings < MostBytesOfThreeYears ? 0 : 1;
        }
        finally
        {
            place.Delete(recursive: true);
        }
    }

    private static double Write(string folder, ShopYears years)
    {
        long started = Stopwatch.GetTimestamp();
        using (var book = new OpenBook(((BookOpening.Anew)BookOpening.Of(LocalDisk.Instance, folder, 0)).File))
        {
            foreach (Step[] steps in years.Steps().Chunk(Slice))
            {
                book.Take(steps);
            }

            book.Save();
            book.Checkpoint();
        }

        return Stopwatch.GetElapsedTime(started).TotalSeconds;
    }

    private static bool Ask(string folder, ShopYears years)
    {
        using var book = new OpenBook(((BookOpening.Found)BookOpening.Of(LocalDisk.Instance, folder, long.MaxValue)).File);
        var times = new List<double>();
        foreach ((string bay, string probe, DateTimeOffset from, DateTimeOffset to) in Weeks(years))
        {
            long started = Stopwatch.GetTimestamp();
            int found = book.Queries.ReadingsOf(bay, probe, from, to, int.MaxValue).Count;
            times.Add(Stopwatch.GetElapsedTime(started).TotalMilliseconds);
            Demand(found);
        }

        return Tell("asked directly", times);
    }

    private static async Task<bool> AskOverHttpAsync(string folder, ShopYears years)
    {
        await using ServedBook served = await ServedBook.OpenAsync(folder);
        using var client = new HttpClient { BaseAddress = served.Address };
        var times = new List<double>();
        foreach ((string bay, string probe, DateTimeOffset from, DateTimeOffset to) in Weeks(years))
        {
            long started = Stopwatch.GetTimestamp();
            string answer = await client.GetStringAsync(new Uri(
                $"/api/v1/bays/{bay}/probes/{probe}/readings?from={from:yyyy-MM-ddTHH:mm:ssZ}&to={to:yyyy-MM-ddTHH:mm:ssZ}", UriKind.Relative));
            times.Add(Stopwatch.GetElapsedTime(started).TotalMilliseconds);
            Demand(answer.AsSpan().Count("\"at\":") - 1);
        }

        return Tell("over HTTP, one megabyte of JSON", times);
    }

    private static IEnumerable<(string Bay, string Probe, DateTimeOffset From, DateTimeOffset To)> Weeks(ShopYears years)
    {
        var chance = new Random(2);
        int weeks = (int)((years.End - ShopYears.Start).TotalDays - 8);
        for (int i = 0; i < Questions; i++)
        {
            DateTimeOffset from = ShopYears.Start.AddDays(chance.Next(weeks)).AddMinutes(chance.Next(1440));
            yield return (ShopYears.BayOf(chance.Next(ShopYears.Bays)), ShopYears.ProbeOf(chance.Next(ShopYears.ProbesABay)), from, from.AddDays(7));
        }
    }

    private static void Demand(int found)
    {
        if (found is < 10_078 or > 10_082)
        {
            throw new InvalidOperationException($"A week has 10,080 minutes, and the book found {found} readings.");
        }
    }

    private static bool Tell(string how, List<double> times)
    {
        double first = times[0];
        times.Sort();
        double worst = times[(int)(0.99 * times.Count)];
        Say($"  {how}: first {first:0.0}, p50 {times[times.Count / 2]:0.0}, p99 {worst:0.0}, most {times[^1]:0.0}");
        return worst < MostMilliseconds;
    }

    private static void Say(FormattableString line) => Console.WriteLine(line.ToString(CultureInfo.InvariantCulture));
}
