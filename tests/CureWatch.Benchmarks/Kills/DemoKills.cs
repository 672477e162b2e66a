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
        string.Create(
            CultureInfo.InvariantCulture,
            $"demo: {_progress.Count} kills, verify found damage after {_damaged}; {_resumed!.Starts} starts that wrote; entries at the kills: {string.Join(' ', _progress)}"),
        string.Create(
            CultureInfo.InvariantCulture,
            $"entries: {_resumed.Recovery.End.Last}, undisturbed {_whole!.Recovery.End.Last}; readings, taps, jobs and departures {_resumed.Keys.Count}, undisturbed {_whole.Keys.Count}"),
        string.Create(CultureInfo.InvariantCulture, $"lost: {_whole.Keys.Except(_resumed.Keys).Count()}; applied twice: {_resumed.Twice.Count()}"),
        string.Create(
            CultureInfo.InvariantCulture,
            $"warnings and rulings: {_resumed.Facts.Count}, undisturbed {_whole.Facts.Count}, the same: {_resumed.Facts.SequenceEqual(_whole.Facts)}; untold {_resumed.Recovery.Facts.Untold.Count}, strange {_resumed.Recovery.Facts.Strange.Count}"),
        string.Create(CultureInfo.InvariantCulture, $"document: {_killed.Output.Length} bytes, the undisturbed one: {_killed.Output == _undisturbed.Output}"),
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

        _whole = Audit.Of(whole);
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

        _resumed = Audit.Of(Data);
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
        _progress.Add(hasJournal ? EntriesIn(Data) : 0);
    }

    private static long BytesOf(string data)
    {
        var journal = new DirectoryInfo(DataFolder.JournalOf(data));
        return journal.Exists ? journal.EnumerateFiles().Sum(f => f.Length) : 0;
    }

    private static long EntriesIn(string data)
    {
        var reader = new JournalReader(DataFolder.JournalOf(data));
        return reader.Frames().Select(f => f.Sequence).LastOrDefault();
    }
}
