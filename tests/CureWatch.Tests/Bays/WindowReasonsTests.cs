using CureWatch.Bays;
using CureWatch.Curing;
using CureWatch.Readings;
using CureWatch.Reports;
using CureWatch.TimeWindows;
using CureWatch.Warnings;

namespace CureWatch.Tests.Bays;

/// <summary>What is said beside a window of the probes that made it wider. Common practice, no source.</summary>
public class WindowReasonsTests
{
    // A window that was widened by two probes at odds had no reason beside it.
    [Fact]
    public void TwinsAtOdds_StandBesideTheWindow_AndNoOtherReason()
    {
        TestShop shop = Told((hour, shop) => shop.Read(hour, Air(hour), 50).Read(hour, Air(hour) + (hour is > 4 and < 7 ? 3 : 0), 50, "air-2"));
        WindowReason reason = Assert.Single(shop.Window(WindowStage.KeepDry).Because);
        Assert.Equal((WindowReasonKind.Disagreeing, "air-2"), (reason.Kind, reason.Probe));
        Assert.Equal(TestShop.At(4), reason.From, TimeSpan.FromMinutes(5));
        Assert.Equal(TestShop.At(7.5), reason.To!.Value, TimeSpan.FromMinutes(10));
        Assert.StartsWith("Air probe air-2 disagreed with air-1 from 12:0", reason.Text.ToString(), StringComparison.Ordinal);
        Assert.EndsWith("nobody can say which is right, so the worse of them counts.", reason.Text.ToString(), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(1.0, "its clock is ahead of this one")]
    [InlineData(-1.0, "it came too long after it was measured, or its clock is behind")]
    public void ProbeRefusedForItsClock_IsSaidToBeRefused_AndWhy(double aheadHours, string why)
    {
        TestShop shop = Told((hour, shop) => shop.Take(new Message.ReadingCame(new RawReading(
            "bay-1", "air-1", TestShop.At(hour + (hour is > 4 and < 7 ? aheadHours : 0)), TestShop.At(hour), Air(hour), 50, null))), "air-1");
        WindowReason reason = Assert.Single(shop.Window(WindowStage.KeepDry).Because);
        Assert.Equal($"Air probe air-1 was not believed from 12:00 to 15:00: {why}.", reason.Text.ToString());
        Assert.Equal(WindowReasonKind.Disbelieved, reason.Kind);
        Warning silent = Assert.Single(shop.Warnings(WarningKind.ProbeSilent), w => w.Subject.Bay == "bay-1");
        Assert.Equal($"air-1 sends, and what it sends is refused: {why}.", silent.Detail?.ToString());
    }

    // A line that was down for three hours is no clock that is behind, though the backlog comes too late.
    [Fact]
    public void ProbeNotHeard_WhoseBacklogComesLate_WasNotHeard()
    {
        TestShop shop = Told((hour, shop) => hour is > 4 and < 7 ? shop : hour >= 7 && hour < 7.01 ? Backlog(shop).Read(hour, Air(hour), 50) : shop.Read(hour, Air(hour), 50), "air-1");
        Assert.Equal(WindowReasonKind.Unheard, Assert.Single(shop.Window(WindowStage.KeepDry).Because).Kind);

        static TestShop Backlog(TestShop shop)
        {
            for (int minute = (4 * 60) + 1; minute < 6 * 60; minute++)
            {
                shop.Take(new Message.ReadingCame(new RawReading("bay-1", "air-1", TestShop.At(minute / 60.0), TestShop.At(7), Air(minute / 60.0), 50, null)));
            }

            return shop;
        }
    }

    // What a probe that sends and is refused says, the page and the interface say too.
    [Fact]
    public void ProbeRefusedForItsClock_IsReportedWithTheReason()
    {
        TestShop shop = new();
        for (int minute = 0; minute <= 60; minute++)
        {
            DateTimeOffset at = TestShop.At(minute / 60.0);
            shop.Take(new Message.ReadingCame(new RawReading("bay-1", "air-1", minute > 30 ? at.AddHours(1) : at, at, 20, 50, null)));
        }

        ProbeReport probe = BayReport.Of(shop.Shop, "bay-1").Probes[0];
        Assert.Equal((ProbeState.Silent, Disbelief.Future), (probe.State, probe.Refused?.Why));
    }

    private static double Air(double hour) => Math.Round(20 + Math.Sin(5 * hour), 1);

    private static TestShop Told(Func<double, TestShop, TestShop> tell, params string[] probes)
    {
        TestShop shop = new(probes: [.. (probes.Length > 0 ? probes : ["air-1", "air-2"]).Select(TestShop.Air)]);
        for (int minute = 0; minute <= 14 * 60; minute++)
        {
            double hour = minute / 60.0;
            tell(hour, shop);
            shop = minute == 60 ? shop.Tap(1, Did.Applied) : minute == 63 ? shop.Tap(hour, Did.Levelled) : shop;
        }

        return shop.Until(14);
    }
}
