using CureWatch.Bays;
using CureWatch.Curing;
using CureWatch.Planning;
using CureWatch.Products;
using CureWatch.Reports;
using static CureWatch.Tests.Bays.SharedAir;

namespace CureWatch.Tests.Bays;

/// <summary>No lamp is advised, or reckoned with, while a coat in its air gives off solvent, whoever's it is. Common practice, no source.</summary>
public class LampInSharedAirTests
{
    [Fact]
    public void Lamp_BeginsOnceNoCoatInItsAirGivesOffSolvent()
    {
        WayBack alone = Lamp(Promised().Shop)!;
        Shop beside = Beside(isHere: true);
        WayBack then = Lamp(beside)!;
        CoatAtRisk open = CoatsAtRisk.Of(beside, new Present(beside, beside.Now), beside.Jobs["job-b"], (_, _) => null).Single();
        Assert.True(open.SolventUntil > beside.Now);
        Assert.True(alone.Until < then.Until && LitFrom(then) >= open.SolventUntil, $"{alone.Until} {then.Until} {open.SolventUntil}");
        Assert.Equal(alone.Until, Lamp(Beside(isHere: false))!.Until);
    }

    // What nobody measures gives off solvent for as long as it may by its slow bound; in What if it is reckoned so too.
    [Fact]
    public void Lamp_BesideABayThatNobodyMeasures_WaitsForItAsLongAsThatMayTake()
    {
        TestShop shop = Promised((hall, from, to) => hall.Steady(from, to));
        WayBack alone = Lamp(shop.Shop)!;
        shop.Car("job-b", "bay-2", 4).Told("job-b", 4, Did.Applied);
        CoatAtRisk open = CoatsAtRisk.Of(shop.Shop, new Present(shop.Shop, shop.Shop.Now), shop.Shop.Jobs["job-b"], (_, _) => null).Single();
        Assert.True(LitFrom(alone) < open.SolventUntil && LitFrom(Lamp(shop.Shop)!) >= open.SolventUntil);
        Assert.Empty(WhatIf.Of(shop.Shop, "job-a", new Hypothesis { Lamp = ("roof", 10) }).Beyond);
        Assert.Contains("the lamp is left out", Assert.Single(WhatIf.Of(Late(shop), "job-a", new Hypothesis { Lamp = ("roof", 10) }).Beyond).ToString(), StringComparison.Ordinal);
    }

    /// <summary>A quarter of an hour before lock-up, with solvent open until then.</summary>
    private static Shop Late(TestShop shop) => shop.Steady(4.1, 9.5).Car("job-c", "bay-2", 9.5).Told("job-c", 9.5, Did.Applied).Shop;

    private static DateTimeOffset LitFrom(WayBack way) => way.Until!.Value - TimeSpan.FromMinutes(way.LampMinutes.Single().Minutes);

    private static WayBack? Lamp(Shop shop) => PromiseAdvice.Of(shop, "job-a")!.Ways.SingleOrDefault(w => w.Kind == WayKind.Lamp);

    /// <summary>Levelled at nine under a lamp, dry at nine in the evening, and promised for four in the afternoon.</summary>
    private static TestShop Promised(Func<TestShop, double, double, TestShop>? read = null)
    {
        read ??= SharedAir.Both;
        TestShop shop = read(Hall(equipment: [Equipment.Lamp], sheet: Slow()), 0, 1)
            .Car("job-a", "bay-1", 0.5, promisedAt: TestShop.At(8)).Told("job-a", 0.95, Did.Applied).Told("job-a", 1, Did.Levelled);
        return read(shop, 1, 4);
    }

    private static Shop Beside(bool isHere) => Promised().Car("job-b", isHere ? "bay-2" : "store", 4).Told("job-b", 4, Did.Applied).Shop;

    /// <summary>It flashes for half an hour, and takes a lamp from an hour after its levelling on.</summary>
    private static ProductSheet Slow()
    {
        ProductSheet paint = TestShop.Paint();
        return paint with
        {
            Lamp = [new LampBand(55, 65, 0.4, TimeSpan.FromHours(1), 30, [Stage.KeepDry])],
            Stages =
            [
                .. paint.Stages.Select(s => s.Stage switch
                {
                    Stage.Flash => TestShop.Row(Stage.Flash, Mechanism.Evaporation, 0.4, 0.5),
                    Stage.LevelBy => TestShop.Row(Stage.LevelBy, Mechanism.Evaporation, 2) with { IfMissed = IfMissed.Hold },
                    _ => s,
                }),
            ],
        };
    }
}
