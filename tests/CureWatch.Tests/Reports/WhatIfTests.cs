using System.Collections.Immutable;
using CureWatch.Bays;
using CureWatch.Curing;
using CureWatch.Products;
using CureWatch.Reports;
using CureWatch.Tests.Bays;
using CureWatch.TimeWindows;

namespace CureWatch.Tests.Reports;

public class WhatIfTests
{
    // 15 °C and 55 % heated to 22 °C are 35 % and cure 26 % faster, not 64 %: heat adds no water. By the priors E 50 kJ/mol and m 0.6,
    // ew(15) 1705.7 and ew(22) 2644.7 Pa: exp(50000/R·(1/288.15 − 1/295.15))·(1705.7/2644.7)^0.6 = 1.640 · 0.769 = 1.26. The hour it takes to warm up
    // costs a fifth of an hour of seventeen.
    [Fact]
    public void Heat_KeepsTheMoisture_SoItHelpsLessThanWarmthAlone()
    {
        PromisedCar car = new PromisedCar(40).Steady(0, 1, 15, 55).Coated(1).Steady(1, 1.5, 15, 55);
        double asItIs = HoursLeft(car, new Hypothesis()), heated = HoursLeft(car, new Hypothesis(AirC: 22));
        Assert.InRange(asItIs / heated, 1.22, 1.27);
        double bothHeld = HoursLeft(car, new Hypothesis(AirC: 22, HumidityPct: 55));
        Assert.InRange(asItIs / bothHeld, 1.5, 1.65);
    }

    [Fact]
    public void HeatedAir_SaysWhatBecomesOfItsMoisture_AndHowMuchFasterItCures()
    {
        PromisedCar car = new PromisedCar(40, [Equipment.FixedHeating]).Steady(0, 1, 15, 55).Coated(1).Steady(1, 1.5, 15, 55);
        AirIf air = WhatIf.Of(car.Shop, "job-1", new Hypothesis(AirC: 22)).Air!;
        Assert.Equal((22, 35.5), (air.AirC, Math.Round(air.HumidityPct, 1)));
        Assert.Equal(1.26, air.Pace!.Value, 0.02);
        Assert.Equal("The air of bay-1 would be at 22 °C and 35 %. Bonnet would cure about 26 % faster than now.", air.Text.ToString());
        Assert.Equal(1.64, WhatIf.Of(car.Shop, "job-1", new Hypothesis(AirC: 22, HumidityPct: 55)).Air!.Pace!.Value, 0.03);
        Assert.Contains("slower than now", WhatIf.Of(car.Shop, "job-1", new Hypothesis(AirC: 12)).Air!.Text.ToString(), StringComparison.Ordinal);
        Assert.Null(WhatIf.Of(car.Shop, "job-1", new Hypothesis(StartAt: PromisedCar.At(3))).Air);
    }

    // Open from 8 to 18: the heater that has to be attended is off at lock-up, and what is asked with it is reckoned so.
    [Fact]
    public void PortableHeater_HeatsUntilLockUpOnly_AndThatIsSaid()
    {
        PromisedCar Car(Equipment heater) => new PromisedCar(40, [heater]).Steady(0, 1, 14, 55).Coated(1).Steady(1, 6, 14, 55);
        WhatIf attended = WhatIf.Of(Car(Equipment.PortableHeater).Shop, "job-1", new Hypothesis(AirC: 22));
        Assert.Contains("until 18:00", Assert.Single(attended.Beyond).ToString(), StringComparison.Ordinal);
        Assert.Equal(22, attended.Air!.AirC);
        WhatIf built = WhatIf.Of(Car(Equipment.FixedHeating).Shop, "job-1", new Hypothesis(AirC: 22)), none = WhatIf.Of(Car(Equipment.FixedHeating).Shop, "job-1", new Hypothesis());
        Assert.True(built.Report.Ruling.ReadyAt!.Likely < attended.Report.Ruling.ReadyAt!.Likely);
        Assert.True(attended.Report.Ruling.ReadyAt!.Likely < none.Report.Ruling.ReadyAt!.Likely);
    }

    [Theory]
    [InlineData(60, Equipment.Humidifier, "nothing to moisten")]
    [InlineData(40, Equipment.Dehumidifier, "nothing to dry")]
    public void Moisture_TheBayHasNothingFor_IsSaid(double humidityPct, Equipment means, string says)
    {
        WhatIf Asked(ImmutableArray<Equipment> equipment) =>
            WhatIf.Of(new PromisedCar(40, equipment).Steady(0, 1).Coated(1).Steady(1, 2).Shop, "job-1", new Hypothesis(HumidityPct: humidityPct));
        Assert.Contains(says, Assert.Single(Asked([Equipment.FixedHeating]).Beyond).ToString(), StringComparison.Ordinal);
        Assert.Empty(Asked([means]).Beyond);
    }

    [Fact]
    public void Nothing_IsChanged()
    {
        PromisedCar car = new PromisedCar(40).Steady(0, 1).Coated(1).Steady(1, 2);
        Shop before = car.Shop;
        _ = WhatIf.Of(car.Shop, "job-1", new Hypothesis(22, 60, null, PromisedCar.At(30)));
        Assert.Same(before, car.Shop);
        Assert.Equal(JobReport.Of(car.Shop, "job-1").Ruling.ReadyAt, WhatIf.Of(car.Shop, "job-1", new Hypothesis()).Report.Ruling.ReadyAt);
    }

    // Told again in a copy, the same job stands as it stood.
    [Fact]
    public void SameSheet_IsTheSameAnswer()
    {
        PromisedCar car = new PromisedCar(40).Steady(0, 1).Coated(1).Steady(1, 4, 17).Tap(4, Did.Wetted, "bonnet").Tap(4.5, Did.Dried, "bonnet").Steady(4.5, 9, 14, 60);
        WhatIf same = WhatIf.Of(car.Shop, "job-1", new Hypothesis { Sheet = ("bonnet", "paint", 1) });
        Assert.Equal(JobReport.Of(car.Shop, "job-1").Ruling.ReadyAt, same.Report.Ruling.ReadyAt);
        Assert.Equal(JobReport.Of(car.Shop, "job-1").Ruling.Holds, same.Report.Ruling.Holds);
    }

    [Fact]
    public void AnotherRevision_HasItsOwnTimes()
    {
        PromisedCar car = new PromisedCar(40).Steady(0, 1).Coated(1).Steady(1, 4);
        ProductSheet quicker = TestShop.Paint() with
        {
            Revision = 2,
            Stages = [.. TestShop.Paint().Stages.Select(s => s.Stage == Stage.KeepDry ? TestShop.Row(Stage.KeepDry, Mechanism.Cure, 6) : s)],
        };
        car.Take(new Message.SheetAdded(quicker, PromisedCar.At(4)));
        DateTimeOffset asItIs = ReadyAt(car, new Hypothesis()), then = ReadyAt(car, new Hypothesis { Sheet = ("bonnet", "paint", 2) });
        Assert.Equal(12, (asItIs - PromisedCar.At(1)).TotalHours, 0.1);
        Assert.Equal(6, (then - PromisedCar.At(1)).TotalHours, 0.1);
    }

    // By the priors warmth gains more than the water it leaves behind costs.
    [Fact]
    public void Warmer_IsNeverLater()
    {
        PromisedCar car = new PromisedCar(40, sheet: PromisedCar.Rows()).Steady(0, 1, 14, 55).Coated(1).Steady(1, 3, 14, 55);
        DateTimeOffset before = DateTimeOffset.MaxValue;
        for (double airC = 14; airC <= 30; airC += 0.5)
        {
            TimeBounds readyAt = WhatIf.Of(car.Shop, "job-1", new Hypothesis(AirC: airC)).Report.Ruling.ReadyAt!;
            Assert.True(readyAt.Latest <= before, $"{airC} °C: {readyAt.Latest} after {before}");
            before = readyAt.Latest!.Value;
        }
    }

    [Fact]
    public void Cooler_IsLater()
    {
        PromisedCar car = new PromisedCar(40, sheet: PromisedCar.Rows()).Steady(0, 1).Coated(1).Steady(1, 3);
        Assert.True(ReadyAt(car, new Hypothesis(AirC: 12)) > ReadyAt(car, new Hypothesis()));
    }

    [Fact]
    public void BeyondTheSheet_IsSaid()
    {
        PromisedCar car = new PromisedCar(40, [Equipment.FixedHeating]).Steady(0, 1).Coated(1).Steady(1, 2);
        Assert.Empty(WhatIf.Of(car.Shop, "job-1", new Hypothesis(AirC: 24)).Beyond);
        Assert.NotEmpty(WhatIf.Of(car.Shop, "job-1", new Hypothesis(AirC: 35)).Beyond);
        Assert.NotEmpty(WhatIf.Of(car.Shop, "job-1", new Hypothesis(HumidityPct: 90)).Beyond);
        Assert.NotEmpty(WhatIf.Of(car.Shop, "job-1", new Hypothesis { Lamp = ("bonnet", 10) }).Beyond);
    }

    private static DateTimeOffset ReadyAt(PromisedCar car, Hypothesis hypothesis) => WhatIf.Of(car.Shop, "job-1", hypothesis).Report.Ruling.ReadyAt!.Likely!.Value;

    private static double HoursLeft(PromisedCar car, Hypothesis hypothesis) => (ReadyAt(car, hypothesis) - car.Shop.Now).TotalHours;
}
