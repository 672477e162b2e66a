using CureWatch.Service.Disk;
using System.Globalization;
using CureWatch.Service.Journal;

namespace CureWatch.Benchmarks.Kills;

/// <summary>The demo's day, killed at random moments all over it and resumed until it ends, beside the same day undisturbed.</summary>
internal sealed class DemoKills(int seed) : IDisposable
{
    /// <summary>One kill in so many comes during a start, whatever the progress.</summary>
    private const int OneDuringStartIn = 5;

    private static readonly TimeSpan LongestStart = TimeSpan.FromSeconds(1.2);
    private static readonly TimeSpan LongestAfter = TimeSpan.FromMilliseconds(60);
    private static readonly TimeSpan Step = TimeSpan.FromMilliseconds(3);

    private readonly DirectoryInfo _folder = Directory.CreateTempSubdirectory("curewatch-demo-kills-");
    private readonly Random _random = new(seed);
    private readonly List<long> _progress = [];
    private (string Output, int ExitCode) _undisturbed, _killed;
    private Audit? _whole, _resumed;
    private int _damaged;

    private string Data => Path.Combine(_folder.FullName, "killed");

    public IEnumerable<string> Lines =>
    [
        Text($"demo: {_progress.Count} kills, {_resumed!.Starts} starts that wrote; verify found damage after {_damaged}"),
        Text($"entries at the kills: {string.Join(' ', _progress)}"),
        Text($"entries: {_resumed.Recovery.End.Last}, undisturbed {_whole!.Recovery.End.Last}"),
        Text($"readings, taps, jobs and departures: {_resumed.Keys.Count}, undisturbed {_whole.Keys.Count}"),
        Text($"lost: {_whole.Keys.Except(_resumed.Keys).Count()}; applied twice: {_resumed.Twice.Count()}"),
        Text($"warnings and rulings: {_resumed.Facts.Count}, as in the undisturbed day: {_resumed.Facts.SequenceEqual(_whole.Facts)}"),
        Text($"untold {_resumed.Recovery.Facts.Untold.Count}, strange {_resumed.Recovery.Facts.Strange.Count}"),
        Text($"document: {_killed.Output.Length} characters, byte for byte the undisturbed one: {_killed.Output == _undisturbed.Output}"),
    ];

    /// <summary>Everything that is not as it should be, a line each.</summary>
    public IEnumerable<string> Faults =>
    [
        .. _whole!.Keys.Except(_resumed!.Keys).Select(k => $"lost: {k}"),
        .. _resumed.Keys.Except(_whole.Keys).Select(k => $"not in the undisturbed day: {k}"),
        .. _resumed.Twice.Select(t => $"twice: {t}"),
        .. _resumed.Facts.SequenceEqual(_whole.Facts) ? Array.Empty<string>() : ["other warnings or rulings"],
        .. _resumed.Recovery.Facts.Strange.Concat(_resumed.Recovery.Facts.Untold).Select(f => $"strange or untold: {f}"),
        .. _killed == _undisturbed && _killed.ExitCode == 0 ? Array.Empty<string>() : ["another document or exit code"],
        .. _damaged == 0 ? Array.Empty<string>() : ["damage"],
    ];

    public async Task RunAsync(int kills)
    {
        string whole = Path.Combine(_folder.FullName, "whole");
        using (Child day = Play(whole))
        {
            _undisturbed = await day.EndAsync();
        }

        _whole = Audit.Of(LocalDisk.Instance, whole);
        long bytes = BytesOf(whole);
        long[] targets = [.. Enumerable.Range(0, kills).Select(_ => _random.NextInt64(bytes)).Order()];
        foreach (long target in targets)
        {
            await KillAsync(target);
        }

        using (Child last = Play(Data))
        {
            _killed = await last.EndAsync();
        }

        _resumed = Audit.Of(LocalDisk.Instance, Data);
    }

    public void Dispose() => _folder.Delete(recursive: true);

    private static Child Play(string data) =>
        Child.Start("demo", "--until-handover", "--minutes-per-second", "600", "--port", "0", "--mqtt-port", "0", "--json", "--data", data);

    private async Task KillAsync(long target)
    {
        using Child demo = Play(Data);
        if (_random.Next(OneDuringStartIn) == 0)
        {
            await Task.Delay(_random.NextDouble() * LongestStart, TimeProvider.System);
        }
        else
        {
            while (BytesOf(Data) < target && !demo.HasExited)
            {
                await Task.Delay(Step, TimeProvider.System);
            }

            await Task.Delay(_random.NextDouble() * LongestAfter, TimeProvider.System);
        }

        await demo.KillAsync();
        bool hasJournal = BytesOf(Data) > 0;
        _damaged += hasJournal && !Audit.IsSound(Data) ? 1 : 0;
        _progress.Add(hasJournal ? Audit.LastIn(LocalDisk.Instance, Data) : 0);
    }

    private static long BytesOf(string data)
    {
        var journal = new DirectoryInfo(DataFolder.JournalOf(data));
        return journal.Exists ? journal.EnumerateFiles().Sum(f => f.Length) : 0;
    }

    private static string Text(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);
}
