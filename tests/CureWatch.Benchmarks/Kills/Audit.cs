using System.Collections.Immutable;
using CureWatch.Bays;
using CureWatch.Service.Disk;
using CureWatch.Service.Journal;
using CureWatch.Service.Pump;
using CureWatch.Warnings;

namespace CureWatch.Benchmarks.Kills;

/// <summary>What a journal holds, read by the program's own reader: how often each thing was written, believed and told.</summary>
internal sealed class Audit
{
    private readonly Dictionary<string, int> _written = new(StringComparer.Ordinal), _believed = new(StringComparer.Ordinal);
    private readonly HashSet<Entry> _facts = [];
    private readonly List<(Entry Entry, DateTimeOffset At)> _inputs = [];

    private Audit(Recovery recovery) => Recovery = recovery;

    public Recovery Recovery { get; }

    public int Starts { get; private set; }

    /// <summary>Every warning and ruling that was told.</summary>
    public IReadOnlyCollection<Entry> Facts => _facts;

    public int Believed => _believed.Count;

    /// <summary>What counts twice: a reading believed again, and a tap, a job or a departure written again. Must be none.</summary>
    public IEnumerable<string> Twice =>
        _believed.Where(b => b.Value > 1)
            .Concat(_written.Where(w => w.Value > 1 && !w.Key.StartsWith(Reading, StringComparison.Ordinal)))
            .Select(t => t.Key);

    /// <summary>Readings that are in the journal more often than once, as a probe sends them again, and count once.</summary>
    public int WrittenAgain => _written.Count(w => w.Value > 1 && w.Key.StartsWith(Reading, StringComparison.Ordinal));

    /// <summary>The keys of all that was written.</summary>
    public ICollection<string> Keys => _written.Keys;

    public IReadOnlyList<Warning> Warnings => [.. Recovery.Register.Shop!.Warnings.Values];

    private const string Reading = "reading ";

    public static string KeyOf(string bay, string probe, DateTimeOffset at) => $"{Reading}{bay}/{probe} {at.UtcTicks}";

    public static string KeyOfTap(string job, string id) => $"tap {job} {id}";

    public static string KeyOfJob(string job) => $"job {job}";

    public static string KeyOfDeparture(string job) => $"departure {job}";

    public static Recovery Read(IDisk disk, string data) =>
        new(disk, DataFolder.JournalOf(data), new EntryCodec(new KeyStore(disk, DataFolder.KeysOf(data))));

    /// <summary>Whether <c>verify</c> finds no damage.</summary>
    public static bool IsSound(string data) =>
        Service.Commands.CommandLine.Run(["verify", "--data", data], TextWriter.Null, TextWriter.Null) == 0;

    /// <summary>The number of a journal's last entry; 0 where there is none.</summary>
    public static long LastIn(IDisk disk, string data) =>
        new JournalReader(disk, DataFolder.JournalOf(data)).Frames().Select(f => f.Sequence).LastOrDefault();

    public static Audit Of(IDisk disk, string data)
    {
        var audit = new Audit(Read(disk, data));
        foreach (Step step in audit.Recovery.Steps())
        {
            audit.Take(step);
        }

        return audit;
    }

    public bool Tells(Entry fact) => _facts.Contains(fact);

    /// <summary>The warnings of a program that was never killed, woken or started again, with the same inputs at the same instants.</summary>
    public IReadOnlyList<Warning> UndisturbedWarnings()
    {
        Register register = Register.Blank;
        foreach ((Entry entry, DateTimeOffset at) in _inputs)
        {
            register = RegisterFold.Take(register, register.Sequence + 1, at, entry).After;
        }

        return RegisterFold.Take(register, register.Sequence + 1, Recovery.Register.At, new Entry.ClockReached()).After.Shop!.Warnings.Values.ToList();
    }

    private void Take(Step step)
    {
        switch (step.Entry)
        {
            case Entry.EngineStarted:
                Starts++;
                return;
            case Entry.ClockReached or Entry.SegmentSealed or Entry.JournalClosed:
                return;
            case Entry.WarningChanged or Entry.Ruled:
                _ = _facts.Add(step.Entry);
                return;
            case Entry.Reading e:
                Count(_written, KeyOf(e.Bay, e.Probe, e.MeasuredAt ?? step.At));
                break;
            case Entry.Tapped e:
                Count(_written, KeyOfTap(e.Job, e.Tap.Id!));
                break;
            case Entry.JobStarted e:
                Count(_written, KeyOfJob(e.Job.Id));
                break;
            case Entry.HandedOver e:
                Count(_written, KeyOfDeparture(e.Job));
                break;
        }

        _inputs.Add((step.Entry, step.At));
        foreach (ShopEvent.ReadingBelieved e in step.Happened.OfType<ShopEvent.ReadingBelieved>())
        {
            Count(_believed, KeyOf(e.Raw.Bay, e.Raw.Probe, e.Raw.MeasuredAt));
        }
    }

    private static void Count(Dictionary<string, int> counts, string key) => counts[key] = counts.GetValueOrDefault(key) + 1;
}
