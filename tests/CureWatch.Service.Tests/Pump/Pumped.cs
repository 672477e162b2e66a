using System.Text;
using CureWatch.Service.Disk;
using CureWatch.Service.Journal;
using CureWatch.Service.Pump;
using CureWatch.Service.Tests.Commands;
using Microsoft.Extensions.Logging.Abstractions;
using Microsoft.Extensions.Time.Testing;

namespace CureWatch.Service.Tests.Pump;

/// <summary>A pump on a folder of its own, with a clock that a test turns.</summary>
internal sealed class Pumped : IDisposable
{
    private readonly DirectoryInfo _folder = Directory.CreateTempSubdirectory("curewatch-");
    private readonly List<Commit> _commits = [];
    private readonly string _shop;
    private readonly Func<Inbox, IFollower>? _more;
    private PumpLoop? _pump;

    public Pumped(string shop = RecordedDay.Shop, Func<Inbox, IFollower>? more = null)
    {
        (_shop, _more) = (shop, more);
        Directory.CreateDirectory(DataFolder.JournalOf(Folder));
        Directory.CreateDirectory(DataFolder.KeysOf(Folder));
        Start();
    }

    public string Folder => _folder.FullName;

    public FakeTimeProvider Clock { get; } = new(Journal.Entries.At);

    public Troubles Troubles { get; private set; } = new(TimeProvider.System);

    public Inbox Inbox { get; private set; } = new();

    public Latest Latest { get; private set; } = new();

    /// <summary>What was committed until now: the pump may be adding to it.</summary>
    public IReadOnlyList<Commit> Commits
    {
        get
        {
            lock (_commits)
            {
                return [.. _commits];
            }
        }
    }

    public Register Register => Latest.Register;

    /// <summary>Everything in the journal, folded anew.</summary>
    public Recovery Recover()
    {
        var recovery = new Recovery(LocalDisk.Instance, DataFolder.JournalOf(Folder), new EntryCodec(new KeyStore(LocalDisk.Instance, DataFolder.KeysOf(Folder))));
        recovery.Run();
        return recovery;
    }

    /// <param name="segmentBytes">When a segment of the journal is full.</param>
    public void Start(long segmentBytes = JournalWriter.UsualSegmentBytes)
    {
        Recovery recovery = Recover();
        Inbox = new Inbox();
        Latest = new Latest { Register = recovery.Register };
        var keys = new KeyStore(LocalDisk.Instance, DataFolder.KeysOf(Folder));
        var journal = new JournalWriter(LocalDisk.Instance, DataFolder.JournalOf(Folder), new EntryCodec(keys), recovery.End, segmentBytes);
        Troubles = new Troubles(Clock);
        IFollower[] followers = _more is null ? [new Follower(_commits)] : [new Follower(_commits), _more(Inbox)];
        var storage = new StorageWatch(LocalDisk.Instance, DataFolder.JournalOf(Folder), keys, Troubles, Clock);
        _pump = new PumpLoop(Inbox, Latest, recovery.Register, journal, storage, Clock, followers, Troubles, NullLogger<PumpLoop>.Instance);
        _pump.Start([new Entry.EngineStarted("test"), .. recovery.Register.Shop is null ? FirstSettings() : []]);
    }

    public void Stop()
    {
        _pump?.Stop();
        _pump?.Dispose();
        _pump = null;
    }

    public Task<Answer> Ask(Arrival arrival) => Inbox.AskAsync(arrival, TestContext.Current.CancellationToken);

    /// <summary>Posts arrivals before the first answer is awaited.</summary>
    public async Task<Answer[]> AskTogether(IEnumerable<Arrival> arrivals)
    {
        List<Arrival> posted = [.. arrivals];
        foreach (Arrival arrival in posted)
        {
            await Inbox.PostAsync(arrival, TestContext.Current.CancellationToken);
        }

        return await Task.WhenAll(posted.Select(a => a.Answered)).WaitAsync(TestContext.Current.CancellationToken);
    }

    public Task<Answer> Read(double airC, double humidityPct, DateTimeOffset? at = null) =>
        Ask(new Arrival.Reading(new Entry.Reading("bay-1", "air-1", at ?? Clock.GetUtcNow(), airC, humidityPct, null)));

    public Task<Answer> StartJob(string? json = null) =>
        Ask(new Arrival.JobStart("job", Encoding.UTF8.GetBytes(json ?? """{"job":"job-1","bay":"bay-1","car":"grey","surfaces":[{"surface":"bonnet","material":"steel","product":"paint"}]}""")));

    public Task<Answer> Tap(string json, string? job = "job-1") => Ask(new Arrival.Tap("tap", job, Encoding.UTF8.GetBytes(json)));

    public void Dispose()
    {
        Stop();
        _folder.Delete(recursive: true);
    }

    private IEnumerable<Entry> FirstSettings() =>
    [
        new Entry.SettingsChanged(new SettingsItem(SettingsItem.Shop, "test-shop", 0), "shop-hash", _shop, SettingsOrigin.File),
        new Entry.SettingsChanged(new SettingsItem(SettingsItem.Product, "paint", 1), "paint-hash", RecordedDay.Sheet, SettingsOrigin.File),
    ];

    private sealed class Follower(List<Commit> commits) : IFollower
    {
        public void Follow(Commit commit)
        {
            lock (commits)
            {
                commits.Add(commit);
            }
        }
    }
}
