using CsCheck;
using CureWatch.Curing;
using CureWatch.Warnings;

namespace CureWatch.Tests.Warnings;

/// <summary>The warning ahead of a heat limit, on surfaces that heat up as physics has it: T = T∞ − (T∞ − T₀)·e^(−t/τ).</summary>
public class HeatAheadTests
{
    private static readonly DateTimeOffset Start = new(2026, 5, 4, 8, 0, 0, TimeSpan.Zero);

    /// <summary>Final temperature [°C], time constant [min], how often it is read [min], the limit [°C].</summary>
    private static readonly Gen<(double FinalC, double Tau, double Every, double LimitC)> Lamps =
        Gen.Select(Gen.Double[25, 190], Gen.Double[3, 60], Gen.Double[0.1, 2], Gen.Double[45, 80]);

    [Fact]
    public void ALampThatPassesTheLimit_IsWarnedOf_BeforeItDoes_InTimeToSwitchItOff() => Lamps.Where(l => l.FinalC > l.LimitC + 0.5).Sample(lamp =>
    {
        double crosses = -lamp.Tau * Math.Log((lamp.FinalC - lamp.LimitC) / (lamp.FinalC - 20));
        if (WarnedAt(lamp, crosses) is { } warned)
        {
            Assert.True(warned <= crosses - 1 || warned <= FirstChance(lamp.Every), $"warned at {warned}, crosses at {crosses}");
        }
        else
        {
            Assert.True(crosses < FirstChance(lamp.Every), $"never warned, crosses at {crosses}");
        }
    });

    [Fact]
    public void ALampThatStaysWellBelow_IsNotWarnedOf() =>
        Lamps.Where(l => l.FinalC < l.LimitC - 2 && l.Every + 1 < l.Tau / 2).Sample(lamp => Assert.Null(WarnedAt(lamp, 300)));

    // By C·dT/dt = q − h(T − T_air): 0.8 mm steel under 600 W/m² absorbed, h 12: 60 °C in 6.6 min, 70 °C in the end, τ = 2952/12 s = 4.1 min.
    [Fact]
    public void SteelUnderAUsualLamp_IsWarnedOf_MinutesBeforeSixty() => Assert.InRange(WarnedAt((70, 4.1, 1, 60), 6.6)!.Value, 2, 5);

    [Fact]
    public void WhenItIsReached_IsNeverForetoldLater() => Lamps.Where(l => l.FinalC > l.LimitC + 0.5).Sample(lamp =>
    {
        double crosses = -lamp.Tau * Math.Log((lamp.FinalC - lamp.LimitC) / (lamp.FinalC - 20));
        for (int i = 2; i * lamp.Every < crosses; i++)
        {
            if (HeatAhead.Of(Readings(lamp, i), lamp.LimitC) is { } ahead)
            {
                Assert.True((ahead.At - Start).TotalMinutes <= crosses + 1e-6);
            }
        }
    });

    [Fact]
    public void ASurfaceThatCools_OrIsReadOnce_ForetellsNothing()
    {
        Assert.Null(HeatAhead.Of([Read(0, 60), Read(1, 55)], 62));
        Assert.Null(HeatAhead.Of([Read(0, 59)], 60));
        Assert.Null(HeatAhead.Of([], 60));
    }

    // 20.2 °C by way of kelvins is less than 20.2 °C: "on the way" at that pace took longer than there are instants.
    [Fact]
    public void ASurfaceAHairWarmerThanTheAir_ForetellsNothing()
    {
        double airC = 20.2 + 273.15 - 273.15;
        Assert.True(airC < 20.2);
        Assert.Null(HeatAhead.OfOne(new OwnReading(Start, airC, TimeSpan.Zero), new OwnReading(Start.AddMinutes(1), 20.2, TimeSpan.Zero), 70, Start.AddMinutes(1)));
        Assert.Null(HeatAhead.OfOne(new OwnReading(Start, airC, TimeSpan.Zero), new OwnReading(Start.AddMinutes(1), 20.3, TimeSpan.Zero), 70, Start.AddMinutes(1)));
    }

    [Fact]
    public void Noise_FasterThanHalfAMinute_IsNoHeat() =>
        Assert.Null(HeatAhead.Of([Read(0, 50), Read(0.5, 50), Read(0.58, 49), Read(0.6, 50)], 60));

    /// <summary>The first reading half a minute after the first.</summary>
    private static double FirstChance(double every) => 0.5 + every + 1e-9;

    private static double? WarnedAt((double FinalC, double Tau, double Every, double LimitC) lamp, double until)
    {
        for (int i = 0; i * lamp.Every < until; i++)
        {
            if (HeatAhead.Of(Readings(lamp, i), lamp.LimitC) is { IsUrgent: true })
            {
                return i * lamp.Every;
            }
        }

        return null;
    }

    private static OwnReading[] Readings((double FinalC, double Tau, double Every, double LimitC) lamp, int last) =>
    [
        .. Enumerable.Range(Math.Max(0, last - 400), Math.Min(last, 400) + 1)
            .Select(i => Read(i * lamp.Every, lamp.FinalC - ((lamp.FinalC - 20) * Math.Exp(-i * lamp.Every / lamp.Tau)))),
    ];

    private static OwnReading Read(double minute, double panelC) => new(Start + TimeSpan.FromMinutes(minute), panelC, OwnReading.ReachOfSpot);
}
