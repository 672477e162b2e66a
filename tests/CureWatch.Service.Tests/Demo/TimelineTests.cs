using CureWatch.Service.Demo;

namespace CureWatch.Service.Tests.Demo;

public class TimelineTests
{
    private static readonly string[] Lines = [.. Timeline.Of(FoldedDay.Whole.Steps)];

    [Theory]
    [InlineData("Mon 07:52  grey-estate: booked into bay-1")]
    [InlineData("Mon 10:35  grey-estate: wheels layer 1 section 1 applied by Sam")]
    [InlineData("grey-estate: windscreen layer 1 section 1 may be levelled, until Mon 12:")]
    [InlineData("warning level-closing, grey-estate windscreen layer 1 section 1: Level it before anything else.")]
    [InlineData("over: level-closing, grey-estate windscreen layer 1 section 1")]
    [InlineData("grey-estate: bonnet layer 1 section 1 takes the next layer, until Mon 16:")]
    [InlineData("Mon 16:38  grey-estate: trim layer 1 section 1 levelled, told late by Sam")]
    [InlineData("warning humidity-high, bay-1 bumper: Stop washing next door")]
    [InlineData("grey-estate: the pick-up slips to Tue 09:4")]
    [InlineData("Tue 00:33  grey-estate: the pick-up is back before the promise, Tue 09:")]
    [InlineData("Tue 02:28  grey-estate: the pick-up is back before the promise, Tue 08:")]
    [InlineData("Tue 01:44  warning probe-silent, bay-1 bonnet")]
    [InlineData("grey-estate: bumper layer 1 section 1 need not be kept dry any more")]
    [InlineData("Tue 08:23  grey-estate: ready to be handed over")]
    [InlineData("Mon 13:20  blue-hatch: handed over")]
    public void Beat_IsTold_Once(string words) => Assert.Single(Lines, l => l.Contains(words, StringComparison.Ordinal));

    [Fact]
    public void Nothing_IsToldOfAnEmptyJournal() => Assert.Empty(Timeline.Of([]));
}
