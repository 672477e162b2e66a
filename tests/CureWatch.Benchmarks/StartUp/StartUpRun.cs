using System.Diagnostics;
using System.Globalization;
using CureWatch.Benchmarks.BookSize;
using CureWatch.Benchmarks.Harness;
using CureWatch.Service.Commands;
using CureWatch.Service.Disk;
using CureWatch.Service.Journal;
using CureWatch.Service.Pump;
using CureWatch.Service.Settings;
using CureWatch.Service.Snapshots;

namespace CureWatch.Benchmarks.StartUp;

/// <summary>How long the service takes to be ready behind a journal of some days, with a snapshot and without, and what it occupies then.</summary>
internal static class StartUpRun
{
    public const string Verb = "start-up";

    public static async Task RunAsync(string[] options)
    {
        foreach (int days in options is [] ? [1, 30, 365] : options.Select(o => int.Parse(o, CultureInfo.InvariantCulture)))
        {
            using var shop = new LoadShop(ShopYears.Bays, ShopYears.ProbesABay);
            Register register = Journal(shop, days);
            long bytes = new DirectoryInfo(shop.Journal).EnumerateFiles().Sum(f => f.Length);
            Say($"{days} days of {ShopYears.Bays} bays: {register.Shop!.Tally.Accepted} readings, {register.Jobs.Count} cars, {bytes / 1e6:0} MB of journal");
            long begun = Stopwatch.GetTimestamp();
            new SnapshotFolder(LocalDisk.Instance, shop.Data).Take(register, register.Sequence);
            long snapshot = new DirectoryInfo(DataFolder.SnapshotsOf(shop.Data)).EnumerateFiles().Sum(f => f.Length);
            Say($"  a snapshot of {snapshot / 1e6:0.0} MB, taken in {Stopwatch.GetElapsedTime(begun).TotalSeconds:0.0} s");
            await StartAsync(shop, "from the snapshot on");
            await StartAsync(shop, "once more");
            Directory.Delete(DataFolder.SnapshotsOf(shop.Data), recursive: true);
            await StartAsync(shop, "without one, all of it read");
        }
    }

    private static async Task StartAsync(LoadShop shop, string how)
    {
        long begun = Stopwatch.GetTimestamp();
        using Server server = await Server.CureWatchAsync(shop);
        double seconds = Stopwatch.GetElapsedTime(begun).TotalSeconds;
        Say($"  {how}: ready after {seconds:0.0} s, {server.Usage().ResidentBytes / 1e6:0} MB");
    }

    /// <summary>Writes the journal up to now, and folds it on the way as the service does.</summary>
    private static Register Journal(LoadShop shop, int days)
    {
        var years = new ShopYears(days);
        TimeSpan shift = TimeProvider.System.GetUtcNow() - TimeSpan.FromMinutes(1) - years.End;
        using DataFolder folder = DataFolder.Hold(LocalDisk.Instance, shop.Data, isDemo: false, new Faults())!;
        Recovered recovered = Recovered.From(folder, shop.Config, isForced: false, new Faults())!;
        using var journal = new JournalWriter(folder.Disk, folder.Journal, new EntryCodec(new KeyStore(folder.Disk, folder.Keys)), recovered.End);
        var draft = new Draft(recovered.Register, journal);
        draft.Append(recovered.First.AsSpan(), ShopYears.Start + shift);
        foreach (Step[] steps in years.Steps().Chunk(2_000))
        {
            foreach (Step step in steps)
            {
                DateTimeOffset at = step.At + shift;
                if (DailyCar.At(step.Sequence) is { IsEmpty: false } acts)
                {
                    draft.Append([.. acts.Select(a => a(at))], at);
                }

                draft.Append([(Entry.Reading)step.Entry with { MeasuredAt = at }], at);
            }

            _ = draft.Flush();
        }

        return draft.Register;
    }

    private static void Say(FormattableString line) => Console.WriteLine(line.ToString(CultureInfo.InvariantCulture));
}
