using CureWatch.Planning;
using static CureWatch.Planning.StartWeight;
using static CureWatch.Tests.Planning.StartCase;

namespace CureWatch.Tests.Planning;

/// <summary>What others do in the air of a bonnet that could be started at 10: one section, levelled before 10:05, touch-dry an hour later, dry after half a day.</summary>
public class NeighbourReasonsTests
{
    [Theory]
    [InlineData(HarmfulWork.Sanding, -10, 25, Waits)]
    [InlineData(HarmfulWork.Sanding, 10, 25, Waits)]
    [InlineData(HarmfulWork.Washing, 15, 45, Waits)]
    [InlineData(HarmfulWork.Heater, 2, 60, Waits)]
    [InlineData(HarmfulWork.Sanding, 30, 45, Notes)]
    [InlineData(HarmfulWork.Washing, 300, 330, Notes)]
    [InlineData(HarmfulWork.CarComesIn, 5, 15, Notes)]
    public void WorkThatGoesOnOrIsAboutTo_IsWaitedFor_WhatIsPlannedForLaterIsSaid(HarmfulWork work, double from, double to, StartWeight weight)
    {
        StartAnswer answer = Beside(Work(work, from, to));
        StartReason reason = Assert.Single(answer.Reasons, r => r.Kind == StartReasonKind.SharedAir);
        Assert.Equal((weight, "bonnet"), (reason.Weight, reason.Surface));
        Assert.Equal((weight == Waits ? StartVerdict.Wait : StartVerdict.Yes, weight == Waits ? At(to) : (DateTimeOffset?)null), (answer.Verdict, answer.From?.Latest));
        Assert.Equal(weight == Waits ? At(to) : Now, answer.Plan!.Layers[0].BeginsAt);
    }

    [Theory]
    [InlineData(HarmfulWork.Sanding, 90, 120)]
    [InlineData(HarmfulWork.Heater, 6, 60)]
    [InlineData(HarmfulWork.Lamp, -30, 0)]
    public void Work_ThatHarmsNothingOfIt_IsNotSpokenOf(HarmfulWork work, double from, double to) => Assert.Empty(Beside(Work(work, from, to)).Reasons);

    [Fact]
    public void Works_OneAfterAnother_AreAllWaitedFor()
    {
        StartAnswer answer = Beside(Work(HarmfulWork.Sanding, 0, 20), Work(HarmfulWork.Compounding, 12, 40));
        StartReason[] works = [.. answer.Reasons.Where(r => r.Kind == StartReasonKind.SharedAir)];
        Assert.Equal(2, works.Length);
        Assert.StartsWith("Compounding", works[0].Text.ToString(), StringComparison.Ordinal); // which is what is waited for
        Assert.All(works, r => Assert.Equal(At(40), r.Until!.Latest));
    }

    [Fact]
    public void AirNobodyShares_GivesNoReason() => Assert.Empty(StartAnswer.To(Fine, Day).Reasons);

    private static StartAnswer Beside(params AirWork[] works) => StartAnswer.To(
        Fine with { Neighbours = new Neighbours("job-1", "bay-1", "hall", [.. works], [new RiskTimes(HasSolvent: true, TimeSpan.FromHours(1))]) }, Day);

    private static AirWork Work(HarmfulWork work, double from, double to) => new("w-1", "job-2", "bay-2", "hall", work, At(from), At(to));
}
