using CureWatch.Curing;
using CureWatch.Planning;
using CureWatch.Products;
using CureWatch.Reports;

namespace CureWatch.Tests.Bays;

/// <summary>What is left of a car goes on while somebody is there. Open from eight to six.</summary>
public class WorkOvernightTests
{
    /// <summary>Layer one is levelled at half past five and takes another an hour later: nobody is there then.</summary>
    [Fact]
    public void LayerThatWouldFallIntoTheNight_GoesOnInTheMorning()
    {
        PromisedCar car = Begun(levelledHour: 9.5, recoatByHours: 30);
        AwaitedLayer(car, PromisedCar.At(24), PromisedCar.At(25));
        Assert.DoesNotContain("takes it no more", car.Promise.Text.ToString(), StringComparison.Ordinal);
        Assert.True(car.Promise.Outlook.ReadyAt!.Latest > PromisedCar.At(36));
    }

    /// <summary>By the morning the layer below takes no more: both the promise and the plan say so.</summary>
    [Fact]
    public void LayerThatComesTooLateInTheMorning_IsToldToday()
    {
        PromisedCar car = Begun(levelledHour: 9.5, recoatByHours: 6);
        Assert.Contains("Layer 2 of bonnet would come only Tue 08:00, when the layer below takes it no more", car.Promise.Text.ToString(), StringComparison.Ordinal);
        CarDay day = Assert.Single(DayPlan.Of(car.Shop).Bays[0].Cars);
        Assert.False(day.Asked.Fits);
        Assert.Contains(day.Asked.Reasons, r => r.Kind == StartReasonKind.RecoatMissed);
    }

    [Fact]
    public void LayerInTheMiddleOfTheDay_WaitsForNoMorning() => AwaitedLayer(Begun(levelledHour: 2, recoatByHours: 6), PromisedCar.At(3), PromisedCar.At(4.5));

    /// <summary>Twenty hours between layers: no day holds both, so that lock-up is no limit, and the plan has them in two days.</summary>
    [Fact]
    public void WorkOfSeveralDays_IsNotTooLateForLockUp()
    {
        PromisedCar car = new PromisedCar(120, sheet: Sheet(20, 60), layers: 2).Steady(0, 1);
        Assert.True(Assert.Single(DayPlan.Of(car.Shop).Bays[0].Cars).Asked.Fits);
        Assert.DoesNotContain("does not fit", car.Promise.LastStart.Value?.Text.ToString() ?? "", StringComparison.Ordinal);
    }

    private static void AwaitedLayer(PromisedCar car, DateTimeOffset from, DateTimeOffset by)
    {
        CarDay day = Assert.Single(DayPlan.Of(car.Shop).Bays[0].Cars);
        LayerWork layer = Assert.Single(day.Work.Layers);
        Assert.InRange(layer.BeginsAt, from, by);
        Assert.Equal(layer.DryAt!.Latest, car.Promise.Outlook.ReadyAt!.Latest);
    }

    private static PromisedCar Begun(double levelledHour, double recoatByHours) =>
        new PromisedCar(60, sheet: Sheet(1, recoatByHours), layers: 2).Steady(0, levelledHour - 0.1)
            .Tap(levelledHour - 0.05, Did.Applied, layer: 1).Tap(levelledHour, Did.Levelled, layer: 1).Steady(levelledHour + 0.05, levelledHour + 0.3);

    private static ProductSheet Sheet(double recoatFromHours, double recoatByHours)
    {
        ProductSheet rows = PromisedCar.Rows();
        return rows with
        {
            Stages =
            [
                .. rows.Stages.Select(s => s.Stage switch
                {
                    Stage.RecoatFrom => Timed(s, recoatFromHours),
                    Stage.RecoatBy => Timed(s, recoatByHours),
                    _ => s,
                }),
            ],
        };
    }

    private static SheetStage Timed(SheetStage stage, double hours) => stage with
    {
        Rows = [.. stage.Rows.Select(r => r with { From = r.From / stage.Rows[2].From * TimeSpan.FromHours(hours), To = r.To / stage.Rows[2].To * TimeSpan.FromHours(hours) })],
    };
}
