using System.Diagnostics;
using System.Globalization;
using CureWatch.Benchmarks.BookSize;
using CureWatch.Benchmarks.Harness;
using CureWatch.Service.Backups;
using CureWatch.Service.Commands;
using CureWatch.Service.Disk;
using CureWatch.Service.Journal;
using CureWatch.Service.Pump;
using CureWatch.Service.Settings;

namespace CureWatch.Benchmarks.BackupSpeed;

/// <summary>How long it takes to back a data folder up, to restore it, to write its book anew and to hold all of it against each other.</summary>
internal static class BackupSpeedRun
{
    public const string Verb = "backup-speed";

    private const int UsualDays = 30;

    public static int Run(string[] options)
    {
        var time = new ShopYears(options is [var days] ? int.Parse(days, CultureInfo.InvariantCulture) : UsualDays);
        using var shop = new LoadShop(ShopYears.Bays, ShopYears.ProbesABay);
        string file = Path.Combine(shop.Data, "..", "backup.zip"), again = Path.Combine(shop.Data, "..", "again");
        Time($"{time.Readings} readings journalled", () => Journal(shop, time));
        long bytes = Size(DataFolder.JournalOf(shop.Data));
        Backup? backup = null;
        var faults = new Faults();
        Time($"{bytes / 1e6:0} MB backed up and read back", () => backup = Backup.Write(LocalDisk.Instance, shop.Data, file, "benchmark", time.End, faults));
        Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"  {backup!.Bytes / 1e6:0} MB, {(double)backup.Bytes / bytes:0.00} of it"));
        Time("restored", () => Restore.Of(LocalDisk.Instance, file, again, faults));
        Time("folded, as a start does without a snapshot", () => JournalFold.Open(LocalDisk.Instance, again).Run());
        Time("the book written from it", () => Book(again));
        Time("verified: journal, keys, and the book once more", () => Verification.Of(again));
        return faults.Count;
    }

    private static void Journal(LoadShop shop, ShopYears time)
    {
        var faults = new Faults();
        using DataFolder folder = DataFolder.Hold(LocalDisk.Instance, shop.Data, isDemo: false, faults)!;
        Recovered recovered = Recovered.From(folder, shop.Config, isForced: false, faults)!;
        using var journal = new JournalWriter(folder.Disk, folder.Journal, new EntryCodec(new KeyStore(folder.Disk, folder.Keys)), recovered.End);
        foreach (Entry first in recovered.First)
        {
            journal.Append(first, ShopYears.Start);
        }

        foreach (Step[] steps in time.Steps().Chunk(2_000))
        {
            foreach (Step step in steps)
            {
                journal.Append(step.Entry, step.At);
            }

            journal.Flush();
        }
    }

    private static void Book(string data)
    {
        string folder = Directory.CreateDirectory(DataFolder.BookOf(data)).FullName;
        using var book = new Service.Book.OpenBook(((Service.Book.BookOpening.Anew)Service.Book.BookOpening.Of(LocalDisk.Instance, folder, 0)).File);
        using IEnumerator<Step> steps = JournalFold.Open(LocalDisk.Instance, data).Steps().GetEnumerator();
        bool isMore = true;
        while (isMore)
        {
            book.Take(Slice());
        }

        IEnumerable<Step> Slice()
        {
            for (int i = 0; i < 2_000 && (isMore = steps.MoveNext()); i++)
            {
                yield return steps.Current;
            }
        }

        book.Save();
        book.Checkpoint();
    }

    private static long Size(string folder) => new DirectoryInfo(folder).EnumerateFiles().Sum(f => f.Length);

    private static void Time(string what, Action work)
    {
        long started = Stopwatch.GetTimestamp();
        work();
        Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{what}: {Stopwatch.GetElapsedTime(started).TotalSeconds:0.0} s"));
    }
}
