using CureWatch.Bays;
using CureWatch.Curing;
using CureWatch.Planning;
using CureWatch.Products;
using CureWatch.Reports;
using CureWatch.Tests.Bays;
using CureWatch.TimeWindows;
using static CureWatch.Tests.Planning.StartCase;

namespace CureWatch.Tests.Planning;

/// <summary>Of several sections of a surface each counts: how it is prepared, when it closes, and when it is worked.</summary>
public class SectionsThatGoOnTests
{
    // The first was measured and wiped; the third was hot from polishing, and the answer was yes.
    [Fact]
    public void Start_IsAnsweredForEverySectionThatGoesOn()
    {
        StartEvidence ready = Fine with { Surface = Fine.Surface with { Sections = 4 }, Next = new NextLayer(1, [1, 3], [], []) };
        Assert.Equal(StartVerdict.Yes, StartAnswer.To(ready, Day).Verdict);
        StartEvidence polished = ready with { OtherSections = [(3, Prepared((-30, Did.PanelWiped, null), (-5, Did.Polished, null)))] };
        StartAnswer answer = StartAnswer.To(polished, Day);
        Assert.Equal(StartVerdict.No, answer.Verdict);
        Assert.Equal([StartReasonKind.PolishingHeat, StartReasonKind.NotWiped], answer.Reasons.Select(r => r.Kind));
        Assert.All(answer.Reasons, r => Assert.StartsWith("Bonnet, section 3 was", r.Text.ToString(), StringComparison.Ordinal));
    }

    [Fact]
    public void Preparation_OfEverySection_IsLookedAt()
    {
        TestShop shop = new TestShop(sections: 3).Steady(0, 1).Tap(0.95, Did.PanelWiped).Tap(0.97, Did.Polished, section: 2).Until(1);
        StartReason[] reasons = [.. StartReport.Of(shop.Shop, "job-1").Decision.Answers.Single().Reasons.Where(r => r.Weight == StartWeight.Stops)];
        Assert.Equal([StartReasonKind.PolishingHeat, StartReasonKind.NotWiped], reasons.Select(r => r.Kind));
        Assert.StartsWith("Bonnet, section 2", reasons[0].Text.ToString(), StringComparison.Ordinal);
    }

    // It was offered nowhere while one section was done over, and the others closed.
    [Theory]
    [InlineData(-5, 2, 1)]
    [InlineData(-90, 1, 3)] // there is time for it
    public void LayerThatIsAboutToClose_GoesBeforeASectionThatIsDoneOver(double minutesToClosing, int layer, int section)
    {
        ProductSheet paint = TestShop.Paint();
        TestShop shop = new TestShop(paint, layers: 2, sections: 4).Steady(0, 0.9);
        for (int one = 1; one <= 4; one++)
        {
            shop.Tap(0.9 + (one * 0.02), Did.Applied, layer: 1, section: one);
        }

        shop.Steady(1, 1.05).Tap(1.06, Did.Levelled).Steady(1.1, 2.5);
        double hour = (shop.Window(WindowStage.Recoat).ClosesAt!.Earliest!.Value.AddMinutes(minutesToClosing) - TestShop.Start).TotalHours;
        shop.Steady(2.52, hour).Tap(hour, Did.Reworked, layer: 1, section: 3, how: How.PolishedOff);
        NextAct next = NextActs.Of(shop.Shop, shop.Shop.Jobs["job-1"], shop.Shop.Now).First(a => a.Kind == ActKind.Apply);
        Assert.Equal((layer, section), (next.Layer, next.Section));
        NextLayer start = StartReport.Of(shop.Shop, "job-1").Decision.Answers.Single().Evidence.Next!;
        Assert.Equal(layer, start.Layer);
        Assert.Equal(layer == 2 ? [1, 2, 4] : [3], start.Sections);
        Assert.Equal(layer == 2 ? [3] : [], start.Elsewhere.Select(e => e.Section));
    }

    [Fact]
    public void Section_ThatTakesItsLayerLater_IsSaid()
    {
        StartEvidence part = OverFirst with
        {
            Surface = OverFirst.Surface with { Sections = 4 },
            Next = SecondLayer(-60, 400) with { Sections = [1, 4], Elsewhere = [new OtherSection(3, At(200), null), new OtherSection(2, At(-200), At(-10))] },
        };
        StartAnswer answer = StartAnswer.To(part, Day);
        Assert.Equal(StartVerdict.Yes, answer.Verdict);
        Assert.Contains(answer.Reasons, r => r.Text.ToString() == "Section 3 of bonnet takes layer 2 by itself, from 13:20.");
        Assert.Contains(answer.Reasons, r => r.Text.ToString() == "Leave out section 2 of bonnet: it took layer 2 until 09:50 only.");
    }

    // Two of three surfaces waited, and were planned into the passes of what could be begun.
    [Fact]
    public void Passes_HoldOnlyWhatMayBeBegunTogether()
    {
        StartEvidence Surface(string id) => Fine with { Surface = Fine.Surface with { Id = id, Sections = 2 }, Next = new NextLayer(1, [1, 2], [], []) };
        StartEvidence wet = Surface("roof") with { Wettings = [new Wetting(At(-30), At(-5))] };
        var start = new StartReport("job-1", null, StartDecision.On([wet, Surface("bonnet"), Surface("boot")], Day, StartPromise.None));
        PassReport report = PassReport.Of(new TestShop().Shop, start);
        Assert.Equal(["bonnet", "boot", "roof"], report.Surfaces.Select(s => s.Surface.Id));
        Assert.All(report.Passes, p => Assert.Single(p.Select(s => s.Surface == "roof").Distinct()));
    }

    /// <summary>Open from 10 to 18 o'clock; a layer is begun at a minute of that day and what is left of it takes half an hour.</summary>
    [Theory]
    [InlineData(null, 470, 1440)]
    [InlineData(465.0, 470, 470)]
    [InlineData(480.0, 485, 485)] // people are still there
    [InlineData(480.0, 720, 1440)] // nobody is
    [InlineData(400.0, 470, 470)] // before lock-up it is done before lock-up, whenever it was begun
    [InlineData(100.0, 470, 470)]
    public void RestOfALayer_IsDoneWhilePeopleAreThere(double? begunMinute, double fromMinute, double expectedMinute)
    {
        var hours = new ShopHours(Now, At(3000), TimeZoneInfo.Utc, [new ShopDay(At(0), At(480)), new ShopDay(At(1440), At(1920))]);
        Assert.Equal(At(expectedMinute), hours.Place(At(fromMinute), TimeSpan.FromMinutes(30), begunMinute is { } m ? At(m) : null));
    }

    [Fact]
    public void WhoeverIsThereBeforeOpening_BeginsAtOnce_AlsoInThePlan()
    {
        StartDay early = Day with
        {
            Today = new ShopDay(At(90), At(480)), Hours = new ShopHours(Now, At(3000), TimeZoneInfo.Utc, [new ShopDay(At(90), At(480)), new ShopDay(At(1440), At(1920))]),
        };
        StartDecision decision = StartDecision.On([Fine], early, StartPromise.None);
        Assert.Equal((StartVerdict.Yes, Now), (decision.Verdict, decision.Plan!.Layers[0].BeginsAt));
    }
}
