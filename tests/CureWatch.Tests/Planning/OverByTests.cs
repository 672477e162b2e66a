using CureWatch.Planning;
using static CureWatch.Planning.StartReasonKind;
using static CureWatch.Tests.Planning.StartCase;

namespace CureWatch.Tests.Planning;

/// <summary>One rule says until when a layer may be begun over another, in the plan and in "Can I start?".</summary>
public class OverByTests
{
    private static readonly SectionPace Pace = new(TimeSpan.FromMinutes(2), TimeSpan.FromMinutes(1), TimeSpan.Zero);

    // Wiped on from 0 to 2 min and done at 4; the next is begun at 14 and on at 16: 14 min after.
    [Theory]
    [InlineData(14, false)]
    [InlineData(13, true)]
    public void Layer_IsTooLate_WhereItsFirstSectionIsNotOnInTime(double recoatBy, bool isTooLate)
    {
        CoatTimes brief = OneCoat with { RecoatFrom = TimeSpan.FromMinutes(10), RecoatBy = TimeSpan.FromMinutes(recoatBy) };
        LayerWork second = WorkPlan.Of([new SurfaceWork("bonnet", 1, 2, 1, 1, Now, Same(brief))], Pace, Now).Layers[1];
        Assert.Equal((At(14), isTooLate), (second.BeginsAt, second.IsTooLate));
    }

    // Tomorrow's doors open 22 h from now: that is soon enough where it is begun by then, as in the plan.
    [Theory]
    [InlineData(22, StartWeight.Notes)]
    [InlineData(21.9, StartWeight.Stops)]
    public void LayerThatWaitsForTheNextDay_GoesByTheSame(double recoatByHours, StartWeight weight)
    {
        StartEvidence two = Fine with
        {
            Surface = Fine.Surface with { Layers = 2 },
            Times = Same(OneCoat with { RecoatFrom = TimeSpan.FromHours(11), RecoatBy = TimeSpan.FromHours(recoatByHours) }),
        };
        Assert.Equal([(ClosingTime, weight)], KindsOf(StartAnswer.To(two, Day)));
    }
}
