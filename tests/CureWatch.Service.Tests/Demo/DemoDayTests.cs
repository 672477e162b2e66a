using CureWatch.Bays;
using CureWatch.Handover;
using CureWatch.Panels;
using CureWatch.Service.Demo;
using CureWatch.Warnings;

namespace CureWatch.Service.Tests.Demo;

public class DemoDayTests
{
    private static FoldedDay Day => FoldedDay.Whole;

    private static Job MainJob => Day.Shop.Find(DemoDay.MainJob)!.Job;

    private static Ruling RulingAt(FoldedDay day, int hour, int minute) => day.Rulings.First(r => r.At == FoldedDay.Clock(hour, minute)).Ruling;

    [Fact]
    public void Acts_AreInOrder_AndTheSameEveryTime()
    {
        DemoAct[] acts = [.. Acts()];

        Assert.Equal(acts.OrderBy(a => a.At).Select(Words), acts.Select(Words));
        Assert.Equal(Acts().Select(Words), acts.Select(Words));
        Assert.InRange(acts.Length, 4_000, 10_000);

        static IEnumerable<DemoAct> Acts() => new DemoDay(DemoDay.ShippedFolder).Acts().TakeWhile(a => a.At < FoldedDay.Clock(7 + 26, 0));
        static string Words(DemoAct act) => act is DemoAct.Published p ? $"{p.At:O} {p.Probe.Topic} {p.Payload}" : act.ToString();
    }

    [Fact]
    public void Acts_GoOn_AfterTheStory() =>
        Assert.NotEmpty(new DemoDay(DemoDay.ShippedFolder).Acts().SkipWhile(a => a.At < DemoDay.Start.AddDays(3)).Take(10));

    [Fact]
    public void Readings_AreAllBelieved()
    {
        Assert.Empty(Day.Shop.Tally.Rejected);
        Assert.Equal(Day.Acts.OfType<DemoAct.Published>().Count(), Day.Shop.Tally.Accepted);
    }

    // What one probe tells is none of what another has settled, or each reading had every coat looked at. Only the walls follow the yard, which is read seldom.
    [Fact]
    public void Readings_OfManyProbes_SettleEachItsOwn() => Assert.InRange(
        Day.Happened.Count(h => h.Event is ShopEvent.BacklogFollowed), 0, Day.Acts.OfType<DemoAct.Published>().Count(a => a.Probe.Id == "yard"));

    [Fact]
    public void MainCar_IsTheNewestJob_WithEveryKindOfSurface()
    {
        Assert.Equal(DemoDay.MainJob, Day.Shop.JobsInOrder.Last().Job.Id);
        Assert.Contains(MainJob.Surfaces, s => s is { Material: Material.Steel, Layers: 2, Sections: >= 2 });
        Assert.Contains(MainJob.Surfaces, s => s.Material == Material.Glass);
        Assert.Contains(MainJob.Surfaces, s => s is { Material: Material.Casting, Place: Place.OffCar });
        Assert.Contains(MainJob.Surfaces, s => s is { Material: Material.Film, Over: Material.Plastic });
        Assert.Contains(MainJob.Surfaces, s => s is { Material: Material.Plastic });
    }

    [Fact]
    public void ColdCar_IsWetOnArrival_AndDryBeforeTheFirstWipe()
    {
        DateTimeOffset wet = Day.Happened.First(h => h.Event is ShopEvent.CondensationBegan { Bay: DemoDay.MainBay }).At;
        DateTimeOffset dry = Day.Happened.Last(h => h.Event is ShopEvent.CondensationEnded { Bay: DemoDay.MainBay }).At;

        Assert.InRange(wet, FoldedDay.Clock(7, 47), FoldedDay.Clock(7, 52));
        Assert.InRange(dry, FoldedDay.Clock(8, 0), FirstWipe());

        static DateTimeOffset FirstWipe() => Day.Shop.Find(DemoDay.MainJob)!.Stories.SelectMany(s => s.Coats).Min(c => c.StartedAt);
    }

    [Fact]
    public void Windscreen_IsLevelledInTime_ForItsWarningCalled()
    {
        Warning called = Assert.Single(Day.Warnings(WarningKind.LevelClosing));

        Assert.Equal((DemoDay.MainJob, "windscreen"), (called.Subject.Job, called.Subject.Surface));
        Assert.True(called.ClearedAt < called.RaisedAt + called.Lead);
        Assert.Empty(Day.Warnings(WarningKind.LevelMissed));
    }

    [Fact]
    public void WashNextDoor_MakesTheEveningHumid_ForOneWarning()
    {
        Warning humid = Assert.Single(Day.Warnings(WarningKind.HumidityHigh));

        Assert.Equal(DemoDay.MainBay, humid.Subject.Bay);
        Assert.InRange(humid.RaisedAt, FoldedDay.Clock(17, 0), FoldedDay.Clock(18, 30));
        Assert.InRange(humid.ClearedAt!.Value, FoldedDay.Clock(18, 30), FoldedDay.Clock(20, 0));
    }

    [Fact]
    public void ColdEvening_PutsTheHandoverPastThePromise_AndHeatingBringsItBack()
    {
        (DateTimeOffset At, Ruling Ruling)[] slipped =
            [.. Day.Rulings.Where(r => r.At > FoldedDay.Clock(17, 0) && r.At < FoldedDay.Clock(25, 30) && r.Ruling.ReadyAt!.Latest > MainJob.PromisedAt)];
        Warning cold = Assert.Single(Day.Warnings(WarningKind.PanelCold));

        Assert.InRange(slipped.First().At, cold.RaisedAt, FoldedDay.Clock(22, 50));
        Assert.InRange(slipped.Last().At, FoldedDay.Clock(23, 0), cold.ClearedAt!.Value.AddHours(1));
        Assert.True(Day.Rulings.Last().Ruling.CollectFrom <= MainJob.PromisedAt);
    }

    [Fact]
    public void BonnetProbe_IsSilentAtNight_AndHeardAgain()
    {
        Warning silent = Assert.Single(Day.Warnings(WarningKind.ProbeSilent));

        Assert.Equal("bonnet", silent.Subject.Probe);
        Assert.InRange(silent.RaisedAt, FoldedDay.Clock(25, 40), FoldedDay.Clock(25, 50));
        Assert.InRange(silent.ClearedAt!.Value, FoldedDay.Clock(26, 25), FoldedDay.Clock(26, 45));
    }

    /// <summary>
    /// Beside the same night without the silence, for a night moves by itself: while nobody hears it the release is later by what nobody knows, afterwards by what
    /// the slow bound was not credited in the gap, some minutes of forty-eight.
    /// </summary>
    [Fact]
    public void BonnetProbesSilence_CostsAnHourWhileItLasts_AndMinutesForGood()
    {
        FoldedDay sound = FoldedDay.HeardThroughout("bonnet", FoldedDay.Clock(27, 1));

        Assert.Equal(RulingAt(sound, 25, 35).ReadyAt, RulingAt(Day, 25, 35).ReadyAt);
        Assert.InRange(CostAt(26, 5), TimeSpan.FromMinutes(40), TimeSpan.FromMinutes(75));
        Assert.InRange(CostAt(26, 20), CostAt(26, 5), TimeSpan.FromMinutes(100)); // it was given up at 26:08: that tells nothing
        Assert.InRange(CostAt(27, 0), TimeSpan.FromMinutes(3), TimeSpan.FromMinutes(12));

        TimeSpan CostAt(int hour, int minute) => RulingAt(Day, hour, minute).ReadyAt!.Latest!.Value - RulingAt(sound, hour, minute).ReadyAt!.Latest!.Value;
    }

    [Fact]
    public void WhatTheBonnetsSilenceHoldsUp_IsOverWhenItWasSaid_OnceItIsHeard()
    {
        DateTimeOffset then = RulingAt(Day, 26, 30).ReadyAt!.Latest!.Value;

        Assert.All(
            [RulingAt(Day, 25, 50), RulingAt(Day, 26, 5), RulingAt(Day, 26, 15), RulingAt(Day, 26, 25)],
            r => Assert.InRange(r.IfMended!.Latest!.Value, then.AddMinutes(-7), then.AddMinutes(7)));
        Assert.Null(RulingAt(Day, 26, 30).IfMended);
    }

    [Fact]
    public void Warnings_AreTheStorysAndNoOthers()
    {
        WarningKind[] kinds = [.. Day.Shop.Warnings.Values.Select(w => w.Subject.Kind).Distinct().Order()];

        Assert.Equal(
            [
                WarningKind.HumidityHigh, WarningKind.PanelCold, WarningKind.LevelDue, WarningKind.LevelClosing, WarningKind.ProbeSilent,
                WarningKind.PromiseAtRisk, WarningKind.AirspaceConflict, WarningKind.HumidityHighAhead, WarningKind.PanelColdAhead,
            ],
            kinds);
        Assert.Empty(Day.Shop.Standing);
    }

    [Fact]
    public void MainCar_IsReadyWithTheLastInspection_InTimeForThePromise()
    {
        ShopEvent.RulingTurned turned = Assert.Single(
            Day.Happened.Select(h => h.Event).OfType<ShopEvent.RulingTurned>(), t => t.Job == DemoDay.MainJob);
        Ruling ruling = JobReport.Of(Day.Shop, DemoDay.MainJob).Ruling;

        Assert.True(turned.IsReady);
        Assert.Equal(FoldedDay.Clock(32, 23), turned.At);
        Assert.True(ruling.IsReady);
        Assert.Empty(ruling.Holds);
        Assert.True(ruling.CollectFrom <= MainJob.PromisedAt);
    }

    [Fact]
    public void SecondCar_IsReadyBeforeItIsFetched_AndGone()
    {
        Assert.Equal(FoldedDay.Clock(13, 20), Day.Shop.Find(DemoDay.SecondJob)!.LeftAt);
        Assert.Contains(
            Day.Happened,
            h => h.Event is ShopEvent.RulingTurned { Job: DemoDay.SecondJob, IsReady: true } && h.At < FoldedDay.Clock(13, 20));
    }
}
