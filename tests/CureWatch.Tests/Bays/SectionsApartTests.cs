using CureWatch.Bays;
using CureWatch.Curing;
using CureWatch.Planning;
using CureWatch.Products;
using CureWatch.TimeWindows;

namespace CureWatch.Tests.Bays;

/// <summary>A section that was polished off and done again takes its next layer when the others take it no more. Common practice, no source.</summary>
public class SectionsApartTests
{
    private static readonly TestShop Shop = Redone();

    [Fact]
    public void NextButton_IsOfTheSectionsThatCanTakeIt()
    {
        NextAct next = NextActs.Of(Shop.Shop, Shop.Shop.Jobs["job-1"], Shop.Shop.Now).First(a => a.Kind == ActKind.Apply);
        Assert.Equal((2, 2), (next.Layer, next.Section));
        Assert.False(next.From > Shop.Shop.Now);
        Assert.False(next.IsLate);
    }

    [Fact]
    public void Start_AndPromise_SayTheSame()
    {
        Assert.Equal([2, 3, 4], Assert.Single(StartReport.Of(Shop.Shop, "job-1").Decision.Answers).Evidence.Next!.Sections);
        string promise = PromiseReport.Of(Shop.Shop, "job-1").Text.ToString();
        Assert.DoesNotContain("takes it no more", promise, StringComparison.Ordinal);
    }

    /// <summary>Layer 1 of four sections is levelled at 09:00 and takes another from one to three reference hours after; section 1 is done again at half past 11.</summary>
    private static TestShop Redone()
    {
        ProductSheet paint = TestShop.Paint();
        TestShop shop = new TestShop(
            paint with { Stages = [.. paint.Stages.Select(s => s.Stage == Stage.RecoatBy ? TestShop.Row(Stage.RecoatBy, Mechanism.Cure, 3) : s)] }, layers: 2, sections: 4)
            .Steady(0, 0.9);
        for (int section = 1; section <= 4; section++)
        {
            shop.Tap(0.9 + (section * 0.02), Did.Applied, layer: 1, section: section);
        }

        shop.Steady(1, 1.05).Tap(1.06, Did.Levelled).Steady(1.1, 2.4).Tap(2.4, Did.Reworked, layer: 1, section: 1, how: How.PolishedOff)
            .Tap(2.42, Did.Applied, layer: 1, section: 1).Steady(2.45, 2.5).Tap(2.5, Did.Levelled, section: 1).Steady(2.5, 2.7);
        Window old = Recoat(shop, 2), anew = Recoat(shop, 1);
        Assert.True(old.OpensAt.Latest < shop.Shop.Now && shop.Shop.Now < old.ClosesAt!.Earliest && old.ClosesAt.Earliest < anew.OpensAt.Latest, "the sections have a time in common");
        return shop;
    }

    private static Window Recoat(TestShop shop, int section) => shop.Report.Surfaces[0].Coats
        .First(c => c.Coat is { Layer: 1, EndedAt: null } && c.Coat.Section == section).Windows.First(w => w.Stage == WindowStage.Recoat);
}
