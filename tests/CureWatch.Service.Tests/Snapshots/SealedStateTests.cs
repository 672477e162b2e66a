using System.IO.Compression;
using System.Security.Cryptography;
using System.Text;
using CureWatch.Service.Disk;
using CureWatch.Service.Journal;
using CureWatch.Service.Pump;
using CureWatch.Service.Snapshots;
using CureWatch.Service.Tests.Pump;

namespace CureWatch.Service.Tests.Snapshots;

public sealed class SealedStateTests : IDisposable
{
    private static readonly string[] Names = ["the grey one of Kim", "Alex", "as Kim told", "Robin", "Kim cannot wait", "Sam", "Maeve"];

    private readonly Pumped _pumped = new();

    private SnapshotFolder Snapshots => new(LocalDisk.Instance, _pumped.Folder);

    public void Dispose() => _pumped.Dispose();

    [Fact]
    public async Task Snapshot_GivesEveryNameBack()
    {
        Register before = await WithNames();
        Snapshots.Take(before, before.Sequence);
        Assert.Equal(Names, NamesIn(before));
        Assert.Equal(Names, NamesIn(Snapshots.Newest()!));
    }

    [Fact]
    public async Task File_HoldsNoName()
    {
        Register named = await WithNames();
        Snapshots.Take(named, named.Sequence);
        byte[] file = File.ReadAllBytes(Assert.Single(Directory.GetFiles(DataFolder.SnapshotsOf(_pumped.Folder))));
        using var packed = new BrotliStream(new MemoryStream(file[Snapshot.HeaderBytes..^SHA256.HashSizeInBytes]), CompressionMode.Decompress);
        using var state = new MemoryStream();
        packed.CopyTo(state);
        string text = Encoding.Latin1.GetString(state.ToArray());
        Assert.Contains("bonnet", text, StringComparison.Ordinal);
        Assert.All(Names, name => Assert.DoesNotContain(name, text, StringComparison.Ordinal));
    }

    // Whether the key was destroyed before the snapshot was taken or after: the names are gone, and everything else is what the journal gives.
    [Theory]
    [InlineData(true)]
    [InlineData(false)]
    public async Task Key_Destroyed_LeavesOfASnapshotWhatItLeavesOfTheJournal(bool isBefore)
    {
        Register before = await WithNames();
        if (!isBefore)
        {
            Snapshots.Take(before, before.Sequence);
        }

        File.Delete(Assert.Single(Directory.GetFiles(DataFolder.KeysOf(_pumped.Folder))));
        if (isBefore)
        {
            Snapshots.Take(before, before.Sequence);
        }

        Register read = Snapshots.Newest()!, folded = _pumped.Recover().Register;
        Assert.Equal([null, null, null, null, "", null, null], NamesIn(read));
        Assert.Equal(NamesIn(folded), NamesIn(read));
        Assert.Equal(States.Text(folded), States.Text(read));
    }

    [Fact]
    public async Task Key_OfSomethingElse_LeavesOfASnapshotWhatItLeavesOfTheJournal()
    {
        Register named = await WithNames();
        Snapshots.Take(named, named.Sequence);
        File.WriteAllBytes(Assert.Single(Directory.GetFiles(DataFolder.KeysOf(_pumped.Folder))), new byte[PersonalKey.Bytes]);
        Assert.Equal([null, null, null, null, "", null, null], NamesIn(Snapshots.Newest()!));
        Assert.Equal(States.Text(_pumped.Recover().Register), States.Text(Snapshots.Newest()!));
    }

    // Somebody is forgotten, and somebody tells of the same car later: what was sealed before stays erased, and neither journal nor snapshot is damaged by it.
    [Fact]
    public async Task Key_DestroyedAndMadeAnew_OpensWhatWasToldSince()
    {
        Snapshots.Take(await WithNames(), _pumped.Register.Sequence);
        File.Delete(Assert.Single(Directory.GetFiles(DataFolder.KeysOf(_pumped.Folder))));
        _pumped.Start();
        Assert.IsType<Answer.Stored>(await _pumped.Tap($$"""{"id":"b","at":"{{_pumped.Clock.GetUtcNow():O}}","did":"inspected","found":"clear","by":"Kim"}"""));
        _pumped.Stop();

        Register folded = _pumped.Recover().Register;
        Assert.Equal([null, "Kim"], folded.Shop!.Find("job-1")!.Told.Select(t => t.By));
        Assert.NotNull(Snapshots.Newest());
        var journal = new JournalReader(LocalDisk.Instance, DataFolder.JournalOf(_pumped.Folder));
        (IReadOnlyList<string> damages, IReadOnlyCollection<string> gone) = KeyCheck.Of(journal, LocalDisk.Instance, DataFolder.KeysOf(_pumped.Folder));
        Assert.Empty(damages);
        Assert.Equal(["job-1"], gone);
    }

    private static List<string?> NamesIn(Register register)
    {
        var job = register.Shop!.Find("job-1")!;
        Assert.Equal(register.Jobs["job-1"].Car, job.Job.Car);
        Assert.Equal(job.Told[0], Assert.Single(job.Stories[0].Untimely).Tap);
        var left = register.Jobs["job-1"].HandedOver!.Value;
        KeptPhoto photo = register.Jobs["job-1"].Photos.Single();
        return [job.Job.Car, job.Told[0].By, job.Told[0].Note, left.By, left.Despite, photo.Photo.By, photo.Removed!.Value.By];
    }

    private async Task<Register> WithNames()
    {
        await _pumped.Read(20, 50);
        await _pumped.StartJob($$"""{"job":"job-1","bay":"bay-1","car":"{{Names[0]}}","surfaces":[{"surface":"bonnet","material":"steel","product":"paint"}]}""");
        string at = $"{_pumped.Clock.GetUtcNow():O}";
        _pumped.Clock.Advance(TimeSpan.FromHours(1));
        await _pumped.Tap($$"""{"id":"a","at":"{{at}}","did":"applied","by":"{{Names[1]}}","note":"{{Names[2]}}"}""");
        await _pumped.Ask(new Arrival.Photo("form", "job-1", Encoding.UTF8.GetBytes($$"""{"by":"{{Names[5]}}"}"""), new Picture(new string('a', 64), 1, 1, 1)));
        await _pumped.Ask(new Arrival.PhotoRemoval("job-1", new string('a', 64), Names[6]));
        await _pumped.Ask(new Arrival.HandOver("job-1", Names[3], Names[4]));
        _pumped.Stop();
        return _pumped.Register;
    }
}
