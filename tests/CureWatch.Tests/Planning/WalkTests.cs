using CureWatch.Bays;
using CureWatch.Curing;
using CureWatch.Handover;
using CureWatch.Planning;
using CureWatch.Products;
using CureWatch.Tests.Bays;

namespace CureWatch.Tests.Planning;

/// <summary>Pressing the one button walks a car. The order of a pass: common practice, no source.</summary>
public class WalkTests
{
    private const double Minute = 1 / 60.0;

    private const double Second = Minute / 60;

    /// <summary>A shop whose paint is levelled from 1 to 8 minutes after the wipe in the sheet's own climate.</summary>
    private static TestShop Shop(int layers = 1, int sections = 3, ProductSheet? sheet = null) =>
        new TestShop(sheet, layers, sections).Steady(0, 1);

    [Theory]
    [InlineData(3, 60, "apply 1, apply 2, apply 3, level 1, level 2, level 3")]
    [InlineData(3, 150, "apply 1, apply 2, level 1, level 2, apply 3, level 3")]
    [InlineData(4, 150, "apply 1, apply 2, level 1, level 2, apply 3, apply 4, level 3, level 4")]
    [InlineData(2, 290, "apply 1, level 1, apply 2, level 2")]
    public void Pass_IsAppliedAndThenLevelledInTheSameOrder(int sections, int applySeconds, string expected)
    {
        var pace = new SectionPace(TimeSpan.FromSeconds(applySeconds), TimeSpan.FromSeconds(45), TimeSpan.FromSeconds(10));
        TestShop shop = Shop(sections: sections);
        shop.Take(new Message.PlanChanged(shop.Shop.Plan with { Habits = shop.Shop.Plan.Habits with { Pace = pace } }, TestShop.At(1)));
        var walked = new List<string>();
        double hour = 1;
        while (Next(shop) is { Kind: not ActKind.Look } act)
        {
            bool isWipe = act.Kind == ActKind.Apply;
            hour += (isWipe ? pace.Apply : pace.Level).TotalHours;
            hour = act.From is { } from ? Math.Max(hour, (from - TestShop.Start).TotalHours) : hour;
            shop.Until(hour);
            walked.Add($"{(isWipe ? "apply" : act.Kind == ActKind.Level ? "level" : "late")} {act.Section}");
            Press(shop, hour, started: isWipe ? hour - pace.Apply.TotalHours : null);
        }

        Assert.Equal(expected, string.Join(", ", walked));
        Assert.Equal([HoldKind.KeepDry], shop.HoldKinds.Distinct());
    }

    [Fact]
    public void Act_SaysFromWhenAndByWhen()
    {
        TestShop shop = Press(Shop(sections: 1), 1);
        NextAct level = Next(shop)!;
        Assert.Equal((ActKind.Level, 1, 1), (level.Kind, level.Layer, level.Section));
        Assert.Equal(shop.Window(CureWatch.TimeWindows.WindowStage.LevelOff).OpensAt.Earliest, level.From);
        Assert.Equal(shop.Window(CureWatch.TimeWindows.WindowStage.LevelOff).ClosesAt!.Earliest, level.By);
        Assert.Equal("bonnet: look from 09:00, level by 09:06", shop.Report.Next[0].Text.ToString());
        Assert.Equal("bonnet: look now, level by 09:06", shop.Until(1 + (2 * Minute)).Report.Next[0].Text.ToString());
    }

    [Fact]
    public void LevelOffMissed_IsReWetAndLevelNow_AndThatRunsANewClock()
    {
        TestShop shop = Press(Shop(sections: 1), 1).Steady(1.02, 1.3);
        Assert.Equal("bonnet: Re-wet and level now; it closed 09:06", shop.Report.Next[0].Text.ToString());
        Assert.True(Next(shop) is { Kind: ActKind.ReWet, IsLate: true });
        Press(shop, 1.3);
        Assert.Equal(ActKind.Level, Next(shop)!.Kind);
        Assert.True(Next(shop)!.By > TestShop.At(1.3));
        Press(shop, 1.3 + (3 * Minute));
        Assert.DoesNotContain(HoldKind.LevelMissed, shop.HoldKinds);
    }

    [Fact]
    public void LevelOffMissed_OfADressing_IsOnlyLevelled()
    {
        TestShop shop = Press(Shop(sections: 1, sheet: TestShop.Paint(ifMissed: IfMissed.Note)), 1).Steady(1.02, 1.3);
        Assert.Equal(ActKind.Level, Next(shop)!.Kind);
        Assert.Null(Next(Press(shop, 1.3)));
    }

    [Fact]
    public void SecondLook_IsDueTwentyToFortyFiveMinutesAfterThePass_AndIsOneForAllSections()
    {
        TestShop shop = Walked(sections: 3);
        NextAct look = Next(shop)!;
        Assert.Equal((ActKind.Look, null), (look.Kind, look.Section));
        var levelled = shop.Report.Surfaces[0].Coats.Select(c => c.Coat.LevelledAt!.Value).ToList();
        Assert.Equal(levelled.Max() + TimeSpan.FromMinutes(20), look.From);
        Assert.Equal(levelled.Min() + TimeSpan.FromMinutes(45), look.By);
        Assert.False(look.CanBeTold(shop.Shop.Now));
        Press(shop, 1.5);
        Assert.Null(Next(shop));
        Assert.Empty(shop.Until(40).Report.Ruling.Notes);
    }

    [Fact]
    public void SecondLook_NotTaken_IsANoteAndNoHold_UntilItIs()
    {
        TestShop shop = Walked(sections: 3).Steady(1.2, 1.7);
        Assert.Empty(shop.Report.Ruling.Notes);
        shop.Steady(1.7, 40);
        Note note = Assert.Single(shop.Report.Ruling.Notes);
        Assert.Contains("Section 1, 2, 3: no second look under light", note.Text.ToString(), StringComparison.Ordinal);
        Assert.True(shop.Report.Ruling.IsReady);
        Assert.Empty(shop.Tap(40.1, Did.Inspected, layer: 1, found: Found.Clear).Report.Ruling.Notes);
    }

    [Fact]
    public void SecondLook_WhileSectionsAreStillToCome_SaysNothingOfThose()
    {
        TestShop shop = Shop(sections: 2);
        shop.Tap(1, Did.Applied, 1, 1).Tap(1 + (3 * Minute), Did.Levelled, 1, 1).Steady(1.1, 1.5);
        Assert.Equal((ActKind.Look, 1), (Next(shop)!.Kind, Next(shop)!.Section));
        Press(shop, 1.5);
        Assert.Contains(shop.Holds, h => h is { Kind: HoldKind.NotApplied, Section: 2 });
        Assert.Equal((ActKind.Apply, 2), (Next(shop)!.Kind, Next(shop)!.Section));
    }

    [Fact]
    public void NextLayer_ComesWhenTheWindowOpens_AndIsNotAskedForOutsideIt()
    {
        TestShop shop = Walked(layers: 2, sections: 2).Steady(1.2, 1.5);
        Press(shop, 1.5);
        NextAct upcoming = Next(shop)!;
        Assert.Equal((ActKind.Apply, 2, 1), (upcoming.Kind, upcoming.Layer, upcoming.Section));
        Assert.Equal(shop.Window(CureWatch.TimeWindows.WindowStage.Recoat).OpensAt.Latest, upcoming.From);
        Assert.False(upcoming.CanBeTold(shop.Shop.Now));
        shop.Steady(1.52, 3);
        Assert.True(Next(shop)!.CanBeTold(shop.Shop.Now));
        shop.Steady(3, 12);
        Assert.True(Next(shop) is { Kind: ActKind.Apply, IsLate: true });
        Assert.False(Next(shop)!.CanBeTold(shop.Shop.Now));
        shop.Tap(12.1, Did.Inspected, layer: 1, found: Found.Clear); // looked at, as it was asked, and found to take another
        Assert.True(Next(shop) is { Kind: ActKind.Apply, IsLate: false });
        Assert.True(Next(shop)!.CanBeTold(shop.Shop.Now));
    }

    [Fact]
    public void Find_AsksForRework_AndThenForAnotherLook()
    {
        TestShop shop = Walked(sections: 2).Steady(1.2, 1.5);
        shop.Tap(1.5, Did.Inspected, 1, 2, found: Found.HighSpot);
        Assert.Equal((ActKind.Rework, 2), (Next(shop)!.Kind, Next(shop)!.Section));
        Assert.False(Next(shop)!.CanBeTold(shop.Shop.Now));
        shop.Tap(1.55, Did.Reworked, 1, 2, how: How.Wiped).Tap(1.56, Did.Inspected, 1, 1, found: Found.Clear);
        Assert.Equal((ActKind.Look, 2, TestShop.At(1.55) + SecondLook.From), (Next(shop)!.Kind, Next(shop)!.Section, Next(shop)!.From));
        Press(shop.Steady(1.6, 2), 2);
        Assert.DoesNotContain(HoldKind.Inspection, shop.HoldKinds);
    }

    [Fact]
    public void PolishedOff_IsAppliedAgain()
    {
        TestShop shop = Walked(sections: 2).Tap(1.3, Did.Reworked, 1, 2, how: How.PolishedOff);
        Assert.Equal((ActKind.Apply, 2), (Next(shop)!.Kind, Next(shop)!.Section));
    }

    [Fact]
    public void CarThatLeft_HasNothingNext()
    {
        TestShop shop = Press(Shop(), 1).Take(new Message.CarLeft("job-1", TestShop.At(1.01)));
        Assert.Empty(shop.Report.Next);
    }

    [Fact]
    public void SlowHands_TurnBackBeforeTheFirstSectionCloses()
    {
        TestShop shop = Press(Shop(sections: 9), 1).Until(1 + (6 * Minute));
        Assert.Equal((ActKind.Level, 1), (Next(shop)!.Kind, Next(shop)!.Section));
    }

    [Fact]
    public void AnyTaps_InAnyOrder_LeaveSomethingToDo_OrNothing_AndNeverThrow()
    {
        var random = new Random(7);
        for (int day = 0; day < 10; day++)
        {
            TestShop shop = new TestShop(layers: 2, sections: 3).Steady(0, 0.2);
            double hour = 0.2;
            for (int i = 0; i < 30; i++)
            {
                hour += random.NextDouble() * (random.Next(5) == 0 ? 0.5 : 0.03);
                Did did = new[] { Did.Applied, Did.Applied, Did.Levelled, Did.Inspected, Did.Reworked, Did.Moved }[random.Next(6)];
                shop.Tap(
                    hour - (random.Next(4) == 0 ? 0.05 : 0), did, Some(2), Some(3), found: (Found)random.Next(5), how: (How)random.Next(3),
                    toBay: random.Next(2) == 0 ? "store" : "bay-1", reportedHour: hour);
                var next = shop.Report.Next;
                Assert.All(next, n => Assert.True(n.Act.IsLate || !(n.Act.By < shop.Shop.Now), $"{n}"));
                Assert.All(next, n => Assert.StartsWith("bonnet", n.Text.ToString(), StringComparison.Ordinal));
            }
        }

        int? Some(int most) => random.Next(4) == 0 ? null : 1 + random.Next(most);
    }

    private static NextAct? Next(TestShop shop) => shop.Report.Next is [{ Act: var act }, ..] ? act : null;

    /// <summary>Presses the button at an hour.</summary>
    private static TestShop Press(TestShop shop, double hour, double? started = null)
    {
        shop.Until(hour);
        NextAct act = Next(shop)!;
        DateTimeOffset at = TestShop.At(hour);
        return shop.Take(new Message.Tapped("job-1", act.ToldAs($"press-{shop.Report.Told.Length}", at, at, started is { } s ? TestShop.At(s) : null, "Sam")));
    }

    /// <summary>One layer, applied and levelled by pressing every two minutes.</summary>
    private static TestShop Walked(int sections, int layers = 1)
    {
        TestShop shop = Shop(layers, sections);
        for (double hour = 1; Next(shop) is { Layer: 1, Kind: not ActKind.Look }; hour += 75 * Second)
        {
            Press(shop, hour);
        }

        return shop;
    }
}
