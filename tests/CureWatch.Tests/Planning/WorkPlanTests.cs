using CureWatch.Planning;
using static CureWatch.Tests.Planning.StartCase;

namespace CureWatch.Tests.Planning;

public class WorkPlanTests
{
    private static readonly SectionPace Pace = new(TimeSpan.FromMinutes(2), TimeSpan.FromMinutes(1), TimeSpan.Zero);

    /// <summary>Two minutes to apply and a window from 1 to 7 min leave room for four sections: the first waits 3 × 2 = 6 min, to be done by 7.</summary>
    [Fact]
    public void Pass_IsAsLongAsTheWindowLetsItBe_AndTheRestIsAPassOfItsOwn()
    {
        LayerWork work = Assert.Single(WorkPlan.Of([Surface("bonnet", sections: 10)], Pace, Now).Layers);
        Assert.Equal((10, 4, true), (work.Sections, work.SectionsPerPass, work.IsTimed));
        Assert.Equal(At(4 * 3 + 4 * 3 + 2 * 3), work.DoneAt);
    }

    /// <summary>A section takes 2 min to apply, 1 min to flash and 1 min to level; the next layer waits 72 min from then.</summary>
    [Fact]
    public void Layers_GoOnRoundByRound_EachWhenItsSurfaceTakesIt()
    {
        WorkPlan plan = WorkPlan.Of([Surface("bonnet", layers: 2), Surface("roof", layers: 2), Surface("wheels")], Pace, Now);
        Assert.Equal(
            [("bonnet", 1, 0.0, 4.0), ("roof", 1, 4, 8), ("wheels", 1, 8, 12), ("bonnet", 2, 76, 80), ("roof", 2, 80, 84)],
            plan.Layers.Select(l => (l.Surface, l.Layer, Minutes(l.BeginsAt), Minutes(l.DoneAt))));
        Assert.All(plan.Layers, l => Assert.False(l.IsTooLate));
    }

    [Fact]
    public void Layer_ThatComesAfterItsWindow_IsTooLate()
    {
        CoatTimes brief = OneCoat with { RecoatFrom = TimeSpan.FromMinutes(10), RecoatBy = TimeSpan.FromMinutes(30) };
        WorkPlan plan = WorkPlan.Of([Surface("bonnet", layers: 2, times: brief), Surface("roof", sections: 20)], Pace, Now);
        Assert.Equal([false, false, true], plan.Layers.Select(l => l.IsTooLate));
    }

    [Fact]
    public void Surface_ThatHasToWait_IsWaitedFor()
    {
        LayerWork work = Assert.Single(WorkPlan.Of([Surface("bonnet") with { From = At(25) }], Pace, Now).Layers);
        Assert.Equal((25, 29), (Minutes(work.BeginsAt), Minutes(work.DoneAt)));
    }

    [Fact]
    public void Section_WithNothingToLevel_TakesItsApplication()
    {
        CoatTimes plain = new(HasToBeLevelled: false, null, null, null, null);
        Assert.Equal(At(6), WorkPlan.Of([Surface("seats", sections: 3, times: plain)], Pace, Now).DoneAt);
    }

    [Fact]
    public void Section_ThatCannotBeTimed_IsWorkedByItself()
    {
        CoatTimes closed = OneCoat with { Flash = new FlashWindow(TimeSpan.FromMinutes(4), TimeSpan.FromMinutes(3), endsInside: true) };
        LayerWork work = Assert.Single(WorkPlan.Of([Surface("bonnet", sections: 2, times: closed)], Pace, Now).Layers);
        Assert.Equal((1, false), (work.SectionsPerPass, work.IsTimed));
        Assert.Equal(At(2 * (2 + 4 + 1)), work.DoneAt);
    }

    /// <summary>Whoever is in the middle of a layer finishes it.</summary>
    [Theory]
    [InlineData(4, false, 60)]
    [InlineData(3, false, 60)] // the fourth was polished off, or goes by itself
    [InlineData(3, true, 0)]
    public void LayerThatIsBegun_IsPlacedAsOne(int sectionsLeft, bool isBegun, double beginsAtMinute)
    {
        SurfaceWork work = Surface("bonnet", sections: 4) with { SectionsLeft = sectionsLeft, BegunAt = isBegun ? Now : null };
        WorkPlan plan = WorkPlan.Of([work], Pace, Now, (from, _, begunAt) => begunAt is null ? from + TimeSpan.FromHours(1) : from);
        Assert.Equal(beginsAtMinute, Minutes(Assert.Single(plan.Layers).BeginsAt));
    }

    private static SurfaceWork Surface(string id, int layers = 1, int sections = 1, CoatTimes? times = null) =>
        new(id, 1, layers, sections, sections, Now, Same(times ?? OneCoat));

    private static double Minutes(DateTimeOffset at) => (at - Now).TotalMinutes;
}
