using CsCheck;
using CureWatch.Bays;
using CureWatch.Tests.Bays;
using CureWatch.Warnings;
using static CureWatch.Tests.Days.StuckDay;

namespace CureWatch.Tests.Days;

/// <summary>A probe that stands still is told: as advice while it is doubted, as a warning once it is proven stuck, never twice at once.</summary>
public class StillWarningsTests
{
    private static readonly WarningKind[] Kinds = [WarningKind.ProbeStandsStill, WarningKind.ProbeStuck];

    private static readonly Gen<StuckDay> AnyDay = Gen.Select(Gen.Int[0, 1_000_000], Gen.Bool, Gen.Bool, (seed, fine, hasTwin) => new StuckDay(seed, 0.1, fine ? 0.1 : 1, hasTwin));

    [Fact]
    public void WhatStandsStill_IsTold_AndNothingElse() =>
        Gen.Select(AnyDay, Gen.Int[0, (int)Kind.PanelStuck].Select(k => (Kind)k), Gen.Double[2, 15], Gen.Double[1, 6]).Sample(
            (day, kind, from, hours) =>
            {
                TestShop shop = day.Told(new Fault(kind, from, hours));
                BayState bay = shop.Shop.Bays["bay-1"];
                for (int i = 0; i < bay.Logs.Length; i++)
                {
                    int standing = Kinds.Count(k => shop.Shop.Standing.ContainsKey(ProbeBelief.Subject(k, bay, i)));
                    Assert.Equal(bay.Logs[i].Standing.IsStill && !ProbeBelief.IsKnownToBeAtFault(bay, i) ? 1 : 0, standing);
                }
            },
            iter: 12);

    [Fact]
    public void HumidityBesideATwinThatMoves_IsToldStuck_OnceAndUntilItMoves()
    {
        TestShop shop = new(probes: [TestShop.Air("air-1"), TestShop.Air("air-2")]);
        Live(shop, 0, 9, hour => hour is > 4 and < 7.5);
        Warning warning = Assert.Single(shop.Warnings(WarningKind.ProbeStuck));
        Assert.Equal("air-1", warning.Subject.Probe);
        Assert.Contains("air-2 beside it moved", warning.Detail?.ToString(), StringComparison.Ordinal);
        Assert.Contains("% RH for ", warning.Detail?.ToString(), StringComparison.Ordinal);
        Assert.NotNull(warning.ClearedAt);
        Assert.All(shop.Warnings(WarningKind.ProbeStandsStill), w => Assert.NotNull(w.ClearedAt));

        static void Live(TestShop shop, double from, double to, Func<double, bool> isStuck)
        {
            double held = 0;
            for (int minute = (int)(60 * from); minute <= 60 * to; minute++)
            {
                double hour = minute / 60.0, pct = Math.Round(50 - (3 * hour), 1);
                held = isStuck(hour) ? held : pct;
                double airC = 20 + (0.1 * (minute / 7 % 2)); // too little to speak against the humidity by itself
                shop.Read(hour, airC, held).Read(hour, airC, pct, "air-2");
            }
        }
    }

    // Nothing else tells: it is doubted by its habit alone, as advice, and no more is said once it goes on by a step.
    [Fact]
    public void ProbeThatIsOnlyStillerThanItIsUsedTo_IsAdvice_UntilItMoves()
    {
        TestShop shop = new();
        for (int minute = 0; minute <= 6 * 60; minute++)
        {
            double hour = minute / 60.0, moved = hour is > 3 and < 4.75 ? 3 : hour;
            shop.Read(hour, Math.Round(20 + (0.3 * Math.Sin(20 * moved)), 1), Math.Round(50 + Math.Sin(30 * moved), 1));
        }

        Warning advice = Assert.Single(shop.Warnings(WarningKind.ProbeStandsStill));
        Assert.Equal(3, AlarmRule.Of(advice.Subject.Kind).Priority);
        Assert.NotNull(advice.ClearedAt);
        Assert.False(advice.Wakes);
        Assert.Empty(shop.Warnings(WarningKind.ProbeStuck));
        Assert.Matches("^air-1 has said .* for .* since [0-9:]{5}: ", advice.Detail!.ToString());
    }
}
