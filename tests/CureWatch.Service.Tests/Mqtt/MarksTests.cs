using CureWatch.Service.Mqtt;
using Microsoft.Extensions.Time.Testing;

namespace CureWatch.Service.Tests.Mqtt;

public sealed class MarksTests : IDisposable
{
    private static readonly TimeSpan Quiet = TimeSpan.FromMilliseconds(250);

    private readonly FakeTimeProvider _time = new();
    private readonly Marks _marks;

    public MarksTests() => _marks = new Marks(_time);

    public void Dispose() => _marks.Dispose();

    [Fact]
    public async Task AtFirst_EverythingIsDue()
    {
        Assert.False(_marks.IsEmpty);
        Assert.Equal((true, false), await TakeAllAsync());
        _marks.Done(TimeSpan.Zero);
        Assert.True(_marks.IsEmpty);
    }

    [Fact]
    public async Task WhatWasQuiet_IsDueAtOnce()
    {
        await StartAsync();
        _marks.Add(["bay-1", "bay-2"]);

        Assert.Equal(["bay-1", "bay-2"], await TakeAsync());
        Assert.False(_marks.IsEmpty);   // taken, not published yet
        _marks.Done(TimeSpan.Zero);
        Assert.True(_marks.IsEmpty);
    }

    [Fact]
    public async Task WhatWasJustPublished_WaitsForQuiet_AndHoldsUpNobodyElse()
    {
        await StartAsync();
        _marks.Add(["bay-1"]);
        _ = await TakeAsync();
        _marks.Done(TimeSpan.Zero);

        _marks.Add(["bay-1"]);
        _marks.Add(["bay-2"]);
        Assert.Equal(["bay-2"], await TakeAsync());
        _marks.Done(TimeSpan.Zero);
        Assert.False(_marks.IsEmpty);

        _time.Advance(Quiet);
        Assert.Equal(["bay-1"], await TakeAsync());
        _marks.Done(TimeSpan.Zero);
        Assert.True(_marks.IsEmpty);
    }

    [Fact]
    public async Task WhatIsUrgent_WaitsForNothing()
    {
        await StartAsync();
        _marks.Add(["car-1"]);
        _ = await TakeAsync();
        _marks.Done(TimeSpan.FromHours(1));

        _marks.Add(["car-2"]);
        _marks.AddUrgent("car-1");

        Assert.Equal(["car-1"], await TakeAsync());
    }

    [Fact]
    public async Task Rest_IsKept()
    {
        await StartAsync();
        _marks.Add(["car-1"]);
        _ = await TakeAsync();
        _marks.Done(TimeSpan.FromSeconds(1));
        _marks.Add(["car-2"]);

        Task<Marked> taking = _marks.TakeAsync(TestContext.Current.CancellationToken);
        Assert.False(taking.IsCompleted);
        _time.Advance(TimeSpan.FromSeconds(1));
        _marks.Add(["car-3"]);   // a signal, as the time of the machine is not the test's

        Assert.Equal(["car-2", "car-3"], (await taking.InTimeAsync()).Keys.Order());
    }

    [Fact]
    public async Task WhatOnlyMayHaveChanged_ComesInSlices()
    {
        await StartAsync();
        string[] bays = [.. Enumerable.Range(0, 120).Select(i => $"bay-{i}")];
        _marks.AddLater(bays);
        _marks.AddLater(bays);   // those before are not through yet

        var taken = new List<string>();
        while (!_marks.IsEmpty)
        {
            string[] some = await TakeAsync();
            Assert.InRange(some.Length, 1, 50);
            taken.AddRange(some);
            _marks.Done(TimeSpan.Zero);
        }

        Assert.Equal(bays, taken);
    }

    [Fact]
    public async Task Forgotten_IsTakenOnce()
    {
        _marks.AddAll(isForgotten: true);

        Assert.Equal((true, true), await TakeAllAsync());
        _marks.Done(TimeSpan.Zero);
        _marks.AddAll();
        Assert.Equal((true, false), await TakeAllAsync());
    }

    private async Task StartAsync()
    {
        _ = await TakeAllAsync();
        _marks.Done(TimeSpan.Zero);
    }

    private async Task<string[]> TakeAsync() => [.. (await _marks.TakeAsync(TestContext.Current.CancellationToken).InTimeAsync()).Keys];

    private async Task<(bool IsAll, bool IsForgotten)> TakeAllAsync()
    {
        Marked marked = await _marks.TakeAsync(TestContext.Current.CancellationToken).InTimeAsync();
        return (marked.IsAll, marked.IsForgotten);
    }
}
