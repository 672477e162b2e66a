using CureWatch.Curing;
using CureWatch.Planning;
using static CureWatch.Planning.StartReasonKind;
using static CureWatch.Planning.StartWeight;
using static CureWatch.Tests.Planning.StartCase;

namespace CureWatch.Tests.Planning;

/// <summary>Nobody is sent home, or told to wait, where that loses the layer. Common practice, no source.</summary>
public class WaitingInVainTests
{
    // Open from 14:00 to 02:00: at half past two of the same date it is night, and an hour before opening somebody may begin.
    [Theory]
    [InlineData(690, true)]
    [InlineData(60, false)]
    public void Start_LongBeforeOpening_IsNight_WhateverTheDate(double minutesToOpening, bool isClosed)
    {
        StartDay day = Day with { Now = At(600), Today = new ShopDay(At(600 + minutesToOpening), At(1400 + minutesToOpening)), Next = null };
        Assert.Equal(isClosed, StartAnswer.To(Fine with { Preparation = null }, day).Reasons.Any(r => r.Kind == Closed));
    }

    // The layer below takes another until 18:40, and the next day opens at 08:00: nobody is told to wait for that.
    [Fact]
    public void Wait_ThatEndsAfterTheLayerBelowHasClosed_IsNoAnswer()
    {
        StartAnswer answer = StartAnswer.To(OverFirst with { Next = SecondLayer(-60, 520), Preparation = null, Times = Same(OneCoat with { KeepDry = null }) }, Day with { Now = At(477) });
        Assert.Contains((ClosingTime, Waits), KindsOf(answer));
        Assert.Equal("Stay and do it by then, or see the sheet and leave it out.", answer.Reasons.Single(r => r is { Kind: RecoatMissed, Weight: Stops }).Help!.ToString());
        Assert.Equal((StartVerdict.No, null), (answer.Verdict, answer.From));
        Assert.True(answer.Plan!.Layers[0].BeginsAt < At(520));
    }

    // Dried a moment ago, it drips for half an hour, and the layer below closes in ten minutes: nobody is told to coat what drips.
    [Fact]
    public void Wait_ThatIsNotForPeople_IsToBePutRight()
    {
        StartAnswer answer = StartAnswer.To(OverFirst with { Next = SecondLayer(-60, 10), Wettings = [new Wetting(At(-20), At(-1))] }, Day);
        Assert.StartsWith("Put right by then", answer.Reasons.Single(r => r is { Kind: RecoatMissed, Weight: Stops }).Help!.ToString(), StringComparison.Ordinal);
        Assert.Null(answer.From);
    }

    // Two of four sections are on when it gets late: what is left of them is done before people go, before lock-up and after.
    [Theory]
    [InlineData(474)]
    [InlineData(490)]
    public void Layer_ThatIsBegun_IsFinished(double minute)
    {
        StartEvidence begun = Fine with { Next = new NextLayer(1, [3, 4], [], []) { BegunAt = At(minute) }, Surface = Fine.Surface with { Sections = 4 }, Preparation = null };
        StartDay late = minute < 480 ? Day with { Now = At(minute) } : Day with { Now = At(minute), Today = Day.Next, Next = null };
        StartAnswer answer = StartAnswer.To(begun with { Times = Same(OneCoat with { KeepDry = null }) }, late);
        Assert.NotEqual(StartVerdict.Wait, answer.Verdict);
        Assert.DoesNotContain(answer.Reasons, r => r.Kind is Closed or ClosingTime && r.Weight != Notes);
    }
}
