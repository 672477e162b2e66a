using CsCheck;
using CureWatch.Bays;
using CureWatch.Benchmarks.Power;
using CureWatch.Readings;
using CureWatch.Service.Disk;
using CureWatch.Service.Journal;
using CureWatch.Service.Pump;
using CureWatch.Service.Snapshots;
using CureWatch.Service.Tests.Pump;

namespace CureWatch.Service.Tests.Snapshots;

public sealed class SnapshotTests
{
    private const int Groups = 60;

    private static readonly byte[] JournalId = [.. Enumerable.Range(0, Segment.JournalIdBytes).Select(i => (byte)i)];

    // Any hours, cut anywhere: what follows from a snapshot and the entries after it is what follows from all entries.
    [Theory]
    [InlineData(11)]
    [InlineData(13)]
    public async Task State_AfterASnapshotAndTheRest_IsThatAfterAll(int seed)
    {
        using Pumped pumped = await PumpedFor(seed);
        Check(pumped, first: seed);
    }

    // What a probe repeats is doubted, and put back or not, as late as it was: a humidity that sticks, and a panel that does for a while.
    [Fact]
    public async Task State_WhileProbesStandStill_IsTheSameAfterASnapshotAndTheRest()
    {
        using var pumped = new Pumped(AnyInputs.Shop);
        await pumped.StartJob();
        for (int minute = 0; minute <= 180; minute++)
        {
            DateTimeOffset at = Journal.Entries.At.AddMinutes(minute);
            double hour = minute / 60.0, c = Math.Round(20 + (2 * Math.Sin(hour)), 2), pct = Math.Round(50 + Math.Sin(9 * hour), 2);
            pumped.Clock.SetUtcNow(at);
            Entry.Reading[] readings =
            [
                new("bay-1", "air-1", at, c, hour > 1 ? 50.5 : pct, null),
                new("bay-1", "panel-1", at, null, null, hour is > 1.2 and < 2.9 ? 21 : c - 0.5),
            ];
            _ = await pumped.AskTogether(readings.Select(r => new Arrival.Reading(r)));
        }

        pumped.Stop();
        Assert.Equal(
            [(Quantity.Humidity, false), (Quantity.Temperature, true)],
            pumped.Register.Shop!.Bays["bay-1"].Logs.SelectMany(l => l.Standing.Stills).Select(s => (s.What, s.To is not null)));
        Assert.Equal(TextOf(pumped.Register), TextOf(pumped.Recover().Register));
        Check(pumped, first: 5);
    }

    [Fact]
    public async Task File_WithAnyByteAnother_OrCutOffAnywhere_IsNoSnapshot()
    {
        using Pumped pumped = await PumpedFor(3);
        KeyStore keys = KeysOf(pumped);
        byte[] file = Snapshot.Of(pumped.Register, JournalId, keys);
        Gen.Select(Gen.Int[0, file.Length - 1], Gen.Byte[1, 255]).Sample((at, bits) =>
        {
            byte[] hurt = [.. file];
            hurt[at] ^= bits;
            Assert.Null(Snapshot.Read(hurt, JournalId, KeysOf(pumped)));
            Assert.Null(Snapshot.Read(file.AsSpan(0, at), JournalId, KeysOf(pumped)));
        });
        byte[] other = [.. JournalId];
        other[0]++;
        Assert.Null(Snapshot.Read(file, other, keys));
        Assert.NotNull(Snapshot.Read(file, JournalId, keys));
    }

    [Fact]
    public async Task Journal_ReadAfterASnapshot_EndsAsIfAllWereRead()
    {
        using Pumped pumped = await PumpedFor(5, segmentBytes: 4_000);
        var snapshots = new SnapshotFolder(LocalDisk.Instance, pumped.Folder);
        Recovery whole = pumped.Recover();
        Assert.True(Segment.In(LocalDisk.Instance, DataFolder.JournalOf(pumped.Folder)).Count > 3);
        foreach (Step step in new Recovery(LocalDisk.Instance, DataFolder.JournalOf(pumped.Folder), CodecOf(pumped)).Steps().Where(s => s.Sequence % 61 == 0))
        {
            snapshots.Take(step.After, step.Sequence);
            var recovery = new Recovery(LocalDisk.Instance, DataFolder.JournalOf(pumped.Folder), CodecOf(pumped), snapshots.Newest());
            recovery.Run();
            Assert.Null(recovery.Damage);
            Assert.Equal(TextOf(whole.Register), TextOf(recovery.Register));
            Assert.Equal(whole.End with { JournalId = null }, recovery.End with { JournalId = null });
            Assert.Equal(whole.End.JournalId, recovery.End.JournalId);
        }
    }

    [Fact]
    public async Task Journal_ThatEndsBeforeASnapshot_IsDamaged()
    {
        using Pumped pumped = await PumpedFor(5);
        Register end = pumped.Register;
        string segment = Assert.Single(Segment.In(LocalDisk.Instance, DataFolder.JournalOf(pumped.Folder))).Path;
        using (FileStream file = File.OpenWrite(segment))
        {
            file.SetLength(file.Length * 9 / 10);
        }

        var recovery = new Recovery(LocalDisk.Instance, DataFolder.JournalOf(pumped.Folder), CodecOf(pumped), end);
        recovery.Run();
        Assert.Contains($"but entry {end.Sequence} was on the disk", recovery.Damage!.What, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Folder_KeepsTheTwoNewest_AndGivesOneThatCanBeRead()
    {
        using Pumped pumped = await PumpedFor(6);
        var snapshots = new SnapshotFolder(LocalDisk.Instance, pumped.Folder);
        Register[] some = [.. pumped.Commits.Select(c => c.After).Where((_, i) => i % 20 == 0).Take(3)];
        Assert.Null(snapshots.Newest());
        Assert.Equal([some[0].Sequence, some[0].Sequence, some[1].Sequence], some.Select(r => snapshots.Take(r, r.Sequence)));
        Assert.Equal([some[2].Sequence, some[1].Sequence], snapshots.Sequences);
        Assert.Equal(some[1].Sequence, snapshots.Before(some[2].Sequence - 1)!.Sequence);
        Assert.Equal(some[2].Sequence, snapshots.Newest()!.Sequence);
        Assert.Null(snapshots.Before(some[1].Sequence - 1));
        string newest = Directory.GetFiles(DataFolder.SnapshotsOf(pumped.Folder)).Max()!;
        File.WriteAllBytes(newest, File.ReadAllBytes(newest)[..^1]);
        Assert.Equal(some[1].Sequence, snapshots.Newest()!.Sequence);
        snapshots.Take(some[2], some[2].Sequence);
        Assert.Equal(some[2].Sequence, snapshots.Newest()!.Sequence);
    }

    [Fact]
    public async Task FolderThatIsAFile_HoldsNone_AndStopsNoStart()
    {
        using Pumped pumped = await PumpedFor(6);
        await File.WriteAllTextAsync(DataFolder.SnapshotsOf(pumped.Folder), "", TestContext.Current.CancellationToken);
        Assert.Null(new SnapshotFolder(LocalDisk.Instance, pumped.Folder).Newest());
    }

    // A book that was away for longer than two snapshots found none to begin from where the journal's beginning was in an archive, and skipped what lay between.
    [Fact]
    public async Task Snapshot_ThatFindsNoRoom_LeavesTheRoomThereIs_AndWhatWasCutOffIsClearedAway()
    {
        using Pumped pumped = await PumpedFor(seed: 14);
        var disk = new FaultyDisk(LocalDisk.Instance);
        string folder = DataFolder.SnapshotsOf(pumped.Folder);
        Directory.CreateDirectory(folder);
        await File.WriteAllTextAsync(Path.Combine(folder, "00000000000000000007.snapshot.new"), "cut off", TestContext.Current.CancellationToken);
        var snapshots = new SnapshotFolder(disk, pumped.Folder);
        disk.Free = 20_000_000;
        Assert.Throws<IOException>(() => snapshots.Take(pumped.Register, pumped.Register.Sequence));
        Assert.Empty(Directory.GetFiles(folder));

        disk.Free = long.MaxValue;
        disk.FullFor = path => path.Contains(".snapshot", StringComparison.Ordinal);
        Assert.Throws<IOException>(() => snapshots.Take(pumped.Register, pumped.Register.Sequence));
        Assert.Empty(Directory.GetFiles(folder));

        disk.IsFull = false;
        Assert.Equal(pumped.Register.Sequence, snapshots.Take(pumped.Register, pumped.Register.Sequence));
    }

    [Fact]
    public async Task Folder_KeepsTheOneFromWhichTheBookIsBroughtLevel_HoweverOld()
    {
        using Pumped pumped = await PumpedFor(6);
        var snapshots = new SnapshotFolder(LocalDisk.Instance, pumped.Folder);
        Register[] some = [.. pumped.Commits.Select(c => c.After).Where((_, i) => i % 12 == 0).Take(5)];
        long level = some[1].Sequence + 1;
        foreach (Register register in some)
        {
            snapshots.Take(register, level);
        }

        Assert.Equal([some[4].Sequence, some[3].Sequence, some[1].Sequence], snapshots.Sequences);
        Assert.Equal(some[1].Sequence, snapshots.Before(level)!.Sequence);
        Assert.Equal(some[1].Sequence, snapshots.Take(some[4], level: 0)); // nobody knows how far it is
        Assert.Equal(some[3].Sequence, snapshots.Take(some[4], some[4].Sequence));
    }

    // What a start cannot begin from may not let anybody move entries away that it has to read instead.
    [Fact]
    public async Task Snapshot_OfAnotherProgram_DoesNotCount_AndIsThrownAwayWithTheNext()
    {
        using Pumped pumped = await PumpedFor(6);
        var snapshots = new SnapshotFolder(LocalDisk.Instance, pumped.Folder);
        Register[] some = [.. pumped.Commits.Select(c => c.After).Where((_, i) => i % 20 == 0).Take(2)];
        snapshots.Take(some[0], some[0].Sequence);
        string file = Assert.Single(Directory.GetFiles(DataFolder.SnapshotsOf(pumped.Folder)));
        byte[] bytes = File.ReadAllBytes(file);
        bytes[20]++; // in the shape
        File.WriteAllBytes(file, bytes);
        Assert.Empty(snapshots.Sequences);
        Assert.Equal(some[1].Sequence, snapshots.Take(some[1], some[1].Sequence));
        Assert.Single(Directory.GetFiles(DataFolder.SnapshotsOf(pumped.Folder)));
    }

    private static void Check(Pumped pumped, int first)
    {
        List<Step> steps = [.. new Recovery(LocalDisk.Instance, DataFolder.JournalOf(pumped.Folder), CodecOf(pumped)).Steps()];
        for (int cut = first; cut < steps.Count; cut += 37)
        {
            Register register = Snapshot.Read(Snapshot.Of(steps[cut].After, JournalId, KeysOf(pumped)), JournalId, KeysOf(pumped))!;
            Assert.Equal(TextOf(steps[cut].After), TextOf(register));
            foreach (Step step in steps.Skip(cut + 1))
            {
                (Register after, var happened) = RegisterFold.Take(register, step.Sequence, step.At, step.Entry);
                Assert.Equal(step.Happened.Select(Told), happened.Select(Told));
                register = after;
            }

            Assert.Equal(TextOf(steps[^1].After), TextOf(register));
        }
    }

    private static async Task<Pumped> PumpedFor(int seed, long segmentBytes = JournalWriter.UsualSegmentBytes)
    {
        var pumped = new Pumped(AnyInputs.Shop);
        pumped.Stop();
        pumped.Start(segmentBytes);
        foreach ((DateTimeOffset at, IReadOnlyList<Func<Arrival>> arrivals) in new AnyInputs(seed).Groups(Groups))
        {
            pumped.Clock.SetUtcNow(at);
            _ = await pumped.AskTogether(arrivals.Select(a => a()));
        }

        pumped.Stop();
        return pumped;
    }

    private static EntryCodec CodecOf(Pumped pumped) => new(KeysOf(pumped));

    private static KeyStore KeysOf(Pumped pumped) => new(LocalDisk.Instance, DataFolder.KeysOf(pumped.Folder));

    private static string TextOf(Register register) => register.Shop is null ? $"{register.Sequence}" : States.Text(register);

    /// <summary>A report of a job that was closed holds arrays, which are the same only where they are one.</summary>
    private static string Told(ShopEvent happened) => happened is ShopEvent.JobClosed closed ? closed.Last.Job.Id : happened.ToString();
}
