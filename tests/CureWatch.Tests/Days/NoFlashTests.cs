using CureWatch.Curing;
using CureWatch.Products;
using CureWatch.Tests.Bays;
using CureWatch.TimeWindows;

namespace CureWatch.Tests.Days;

/// <summary>A product that does not flash dries from its last wipe on. Common practice, no source.</summary>
public class NoFlashTests
{
    [Fact]
    public void ReWet_DriesFromThenOn()
    {
        ProductSheet paint = TestShop.Paint(), sheet = paint with { Stages = [.. paint.Stages.Where(s => s.Stage is Stage.KeepDry or Stage.FullCure)] };
        TestShop once = new TestShop(sheet).Steady(0, 1).Tap(1, Did.Applied).Steady(1, 5);
        TestShop again = new TestShop(sheet).Steady(0, 1).Tap(1, Did.Applied).Steady(1, 4).Tap(4, Did.Reworked, how: How.ReWet).Steady(4, 5);
        foreach (WindowStage stage in new[] { WindowStage.KeepDry, WindowStage.FullCure })
        {
            Assert.Equal(3, (again.Window(stage).ClosesAt!.Likely!.Value - once.Window(stage).ClosesAt!.Likely!.Value).TotalHours, 0.02);
        }
    }
}
