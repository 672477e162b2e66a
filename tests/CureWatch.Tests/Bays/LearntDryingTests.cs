using System.Collections.Immutable;
using CureWatch.Bays;
using CureWatch.Curing;
using CureWatch.Learning;
using CureWatch.Panels;
using CureWatch.Products;
using CureWatch.TimeWindows;

namespace CureWatch.Tests.Bays;

public class LearntDryingTests
{
    private const double Minute = 1 / 60.0;

    /// <summary>Dry after 4 h at 20 °C and 50 %.</summary>
    private static ProductSheet Drying { get; } = TestShop.Paint() with
    {
        Stages = [TestShop.Row(Stage.KeepDry, Mechanism.Evaporation, 4)],
    };

    [Fact]
    public void Drying_SeenOnACoatThatNoWaterTouched_TeachesKeepDry()
    {
        TestShop shop = new TestShop(Drying).Steady(0, 1).Tap(1, Did.Applied).Steady(1 + Minute, 4.5).Tap(4.5, Did.Dried).Steady(4.5 + Minute, 6);
        LearningReport report = Assert.Single(LearningReport.Of(shop.Shop));
        Assert.Equal((TaughtStage.KeepDry, 1), (report.Stage, report.Effect!.Here));
        Assert.Equal(Math.Log(3.5 / 4), shop.Shop.Learning[("paint", 1)].KeepDry.Lessons[0].LnRatio!.Value, 6);
    }

    [Fact]
    public void Drying_AfterWater_TeachesNothing()
    {
        TestShop shop = new TestShop(Drying).Steady(0, 1).Tap(1, Did.Applied).Tap(1, Did.Wetted).Steady(1 + Minute, 4.5).Tap(4.5, Did.Dried).Steady(4.5 + Minute, 6);
        Assert.Empty(shop.Shop.Learning);
    }

    [Fact]
    public void Drying_WhereKeepDryIsACure_TeachesNothing()
    {
        TestShop shop = new TestShop().Steady(0, 1).Tap(1, Did.Applied).Tap(1.05, Did.Levelled).Steady(1 + Minute, 4.5).Tap(4.5, Did.Dried).Steady(4.5 + Minute, 6);
        Assert.Empty(shop.Shop.Learning);
    }

    // Somebody who taps "dried" after an hour of four, every time: the release goes no lower than 0.7 of the sheet's, whichever bound.
    [Fact]
    public void Release_IsNeverBelowItsPartOfTheSheets()
    {
        TimeBounds learnt = KeepDryOf(new Learnt(null, new LearntEffect(Math.Log(0.25), 0.001, 50, 50))), sheet = KeepDryOf(Learnt.Nothing);
        DateTimeOffset start = TestShop.At(1);
        Assert.Equal(0.7, (learnt.Likely!.Value - start) / (sheet.Likely!.Value - start), 3);
        Assert.True((learnt.Latest!.Value - start) >= 0.7 * (sheet.Latest!.Value - start));
    }

    // A release may only get later by a drying that takes three times as long; it is told that this disagrees with the sheet.
    [Fact]
    public void Drying_MuchSlowerThanTheSheet_IsFollowedAllTheWay()
    {
        var slow = new LearntEffect(Math.Log(3), 0.001, 20, 20);
        TimeBounds learnt = KeepDryOf(new Learnt(null, slow)), sheet = KeepDryOf(Learnt.Nothing);
        Assert.Equal(3, (learnt.Likely!.Value - TestShop.At(1)) / (sheet.Likely!.Value - TestShop.At(1)), 2);
        Assert.False(CoatLaws.DryingReach.Holds(slow));
    }

    [Fact]
    public void Release_IsHeldBackByWhatIsUnsure()
    {
        TimeBounds sure = KeepDryOf(new Learnt(null, new LearntEffect(0, 1e-6, 50, 50))), unsure = KeepDryOf(new Learnt(null, new LearntEffect(0, 0.3 * 0.3, 1, 1)));
        Assert.Equal(sure.Likely, unsure.Likely);
        Assert.True(unsure.Latest > sure.Latest);
        Assert.Equal(KeepDryOf(Learnt.Nothing).Likely, sure.Likely);
    }

    /// <summary>When a coat may get wet that was begun with what is told, wiped at one o'clock.</summary>
    private static TimeBounds KeepDryOf(Learnt begun)
    {
        var surface = new Surface("roof", Material.Steel, null, Place.Outside, "paint", 1, 1, 1);
        var job = new Message.JobStarted(new Job("job-2", "bay-1", null, null, [surface]), TestShop.Start)
        {
            Begun = ImmutableDictionary<CoatKey, Learnt>.Empty.Add(new CoatKey("job-2", "roof", 1, 1), begun),
        };
        TestShop shop = new TestShop(Drying).Take(job).Steady(0, 1)
            .Take(new Message.Tapped("job-2", new Tap("a", TestShop.At(1), TestShop.At(1), null, Did.Applied))).Steady(1 + Minute, 2);
        CoatReport coat = JobReport.Of(shop.Shop, "job-2").Surfaces[0].Coats[0];
        Assert.Equal(begun, coat.BegunWith);
        return coat.Windows.Single(w => w.Stage == WindowStage.KeepDry).ClosesAt!;
    }
}
