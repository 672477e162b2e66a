using CureWatch.Bays;
using CureWatch.Service.Disk;
using CureWatch.Service.Pump;
using CureWatch.Service.Snapshots;

namespace CureWatch.Service.Tests.Pump;

/// <summary>Which batch is in use once a tap that told one is put right, also of cars that left, after a start, and from a snapshot.</summary>
public sealed class BatchesTests : IDisposable
{
    private readonly Pumped _pumped = new();

    private string? InUse => InUseIn(_pumped.Register);

    public void Dispose() => _pumped.Dispose();

    [Theory]
    [InlineData("t1=A t2=B -t2", "A")]
    [InlineData("t1=A t2=B -t1", "B")]
    [InlineData("t1=A t2=B -t1 -t2", null)]
    [InlineData("t1=A t2=B t3 -t2", "B")] // somebody went on with it
    [InlineData("t1=A t2=B t3 -t2 -t3", "A")]
    [InlineData("t1=A t2=B u:-t2 -u", "B")] // what was taken back holds again
    [InlineData("t1=A t2=B u:-t2 t3 -u", "A")] // but another was told since
    [InlineData("t1=A t2 t3=C>t1", "C")]
    [InlineData("t1=A t2=B t3=A t4=C>t1", "A")]
    [InlineData("t1=A t2=B t3=C>t2 t4=D>t3", "D")]
    [InlineData("t1=A t2=B t3=C>t2 t4=D>t2", "D")]
    [InlineData("t1=A t2=B t3=C>t2 -t3", "B")]
    [InlineData("t1=A t2=B t3>t2 -t3 -t2", "A")]
    [InlineData("t1 t2=B t3=A>t1", "B")]
    [InlineData("t1 t2=A>t1", "A")]
    [InlineData("t1=A ?=B -t1", "B")] // what has no id is never put right
    public async Task Batch_InUse_FollowsFromTheTapsThatHold(string told, string? used)
    {
        await _pumped.StartJob(Car("job-1"));
        await Tell("job-1", told);
        Assert.Equal(used, InUse);
        Assert.Equal(used, InUseIn(_pumped.Recover().Register));
    }

    [Theory]
    [InlineData("t3>t2", "B")] // its time alone
    [InlineData("t3=C>t2", "C")]
    [InlineData("-t2", "A")]
    [InlineData("t3=C", "B")] // told where nobody goes on with it
    public async Task BatchPutRight_OnceTheCarIsInNoBay_IsThatOfTheBayItWasToldIn(string told, string used)
    {
        await _pumped.StartJob(Car("job-1"));
        await Tell("job-1", "t1=A t2=B");
        Assert.IsType<Answer.Stored>(await _pumped.Tap($$"""{"at":"{{_pumped.Clock.GetUtcNow():O}}","did":"moved","toBay":"store"}""", "job-1"));
        await Tell("job-1", told);
        await _pumped.StartJob(Car("job-2"));
        Assert.Equal(used, InUse);
    }

    [Fact]
    public async Task BatchOfACarThatLeft_IsInUseAgain_OnceASlipIsTakenBack()
    {
        await _pumped.StartJob(Car("job-1"));
        await Tell("job-1", "t1=Z t2=A t3 t4");
        await _pumped.Ask(new Arrival.HandOver("job-1", "Alex", "it had to"));
        await Close();
        await _pumped.StartJob(Car("job-2"));
        await Tell("job-2", "t1=B t2");
        BatchInUse before = Assert.Single(_pumped.Register.Batches, b => b.Batch != "B");
        Assert.Equal("A", before.Batch); // nothing older can come back, and one tap stands for all of a car that left
        Assert.Single(before.ToldBy);
        Assert.Equal("B", InUse);
        await Tell("job-2", "-t1 -t2");
        Assert.Equal("A", InUse);
        await Tell("job-2", "t3=C");
        await _pumped.Ask(new Arrival.HandOver("job-2", "Alex", "it had to"));
        await Close();
        Assert.Equal("C", _pumped.Register.Batches[^1].Batch);
    }

    [Fact]
    public async Task TapThatToldABatch_IsPutRightAfterAStartFromASnapshotToo()
    {
        await _pumped.StartJob(Car("job-1"));
        await Tell("job-1", "t1=A t2=B");
        _pumped.Stop();
        var snapshots = new SnapshotFolder(LocalDisk.Instance, _pumped.Folder);
        snapshots.Take(_pumped.Register, _pumped.Register.Sequence);
        Register read = snapshots.Newest()!;
        Assert.Equal("B", InUseIn(read));
        Curing.Tap back = new("u", read.At, read.At, null, Curing.Did.Withdrawn, Corrects: "t2");
        Assert.Equal("A", InUseIn(read with { Batches = Batches.After(read, "job-1", back) }));
    }

    private static string? InUseIn(Register register)
    {
        JobState job = register.Shop!.JobsInOrder.Last();
        return Batches.InUse(register, job, job.Job.Surfaces[0], 1);
    }

    private static string Car(string job) => $$"""{"job":"{{job}}","bay":"bay-1","surfaces":[{"surface":"bonnet","material":"steel","product":"paint","sections":9}]}""";

    /// <summary>Tells taps: <c>t1=A</c> a coat of a batch, <c>t1</c> one of which nobody says it, <c>t3>t1</c> a correction, <c>-t1</c> or <c>u:-t1</c> what is taken back, <c>?</c> no id.</summary>
    private async Task Tell(string job, string told)
    {
        foreach (string one in told.Split(' '))
        {
            _pumped.Clock.Advance(TimeSpan.FromMinutes(1));
            string at = $"{_pumped.Clock.GetUtcNow():O}";
            string[] parts = one.Split('>');
            string[] said = parts[0].Split('=');
            string more = (said.Length > 1 ? $",\"batch\":\"{said[1]}\"" : "") + (parts.Length > 1 ? $",\"corrects\":\"{parts[1]}\"" : "");
            string id = said[0] == "?" ? "" : $"\"id\":\"{said[0]}\",";
            string tap = one.Split(":-") is [var name, var undone] ? $$"""{"id":"{{name}}","at":"{{at}}","did":"withdrawn","corrects":"{{undone}}"}"""
                : one[0] == '-' ? $$"""{"at":"{{at}}","did":"withdrawn","corrects":"{{one[1..]}}"}"""
                : $$"""{{{id}}"at":"{{at}}","did":"applied","surface":"bonnet","section":1{{more}}}""";
            Assert.IsType<Answer.Stored>(await _pumped.Tap(tap, job));
        }
    }

    private async Task Close()
    {
        _pumped.Clock.Advance(TimeSpan.FromDays(3));
        await _pumped.Read(20, 50);
    }
}
