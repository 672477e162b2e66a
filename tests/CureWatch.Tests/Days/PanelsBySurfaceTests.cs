using System.Collections.Immutable;
using CureWatch.Bays;
using CureWatch.Curing;
using CureWatch.Handover;
using CureWatch.Panels;
using CureWatch.Planning;
using CureWatch.Readings;
using CureWatch.Tests.Bays;
using CureWatch.Warnings;

namespace CureWatch.Tests.Days;

/// <summary>Several panel probes and several surfaces in one bay: which probe tells of which surface.</summary>
public class PanelsBySurfaceTests
{
    // The coldest panel by the door was voted out by the two others, and the water that was to come on it went unseen.
    [Theory]
    [InlineData(true)]
    [InlineData(false)]
    public void ProbesOnSurfacesByName_ThatDiffer_AreAllBelieved_ThoseOnNoneAreNot(bool areNamed)
    {
        var day = new PanelDay(Material.Steel, areNamed ? ["bonnet", "roof", "sill"] : [null, null, null]);
        day.Run(60, (probe, _) => probe == 2 ? 11.9 : 15.1 + (0.3 * probe));
        Assert.Equal(areNamed, day.Shop.Bays["bay-1"].Logs[3].OutvotedAt is null);
    }

    // The probe was taken for silent, though two others told the same panel's temperature all the time.
    [Fact]
    public void ProbeThatIsVotedOut_IsNotMissed_WhereOthersTellTheSame()
    {
        var day = new PanelDay(Material.Steel, [null, null, null]);
        day.Run(90, (probe, _) => probe == 2 ? 19.5 : 15.1 + (0.3 * probe));
        Assert.NotNull(day.Shop.Bays["bay-1"].Logs[3].OutvotedAt);
        Assert.DoesNotContain(day.Reasons("bonnet"), r => r.Kind == StartReasonKind.PanelSilent);
    }

    // The one probe shows the lamps over both: neither was warned of, nor held.
    [Fact]
    public void OneProbe_UnderLampsOverTwoSurfaces_WarnsOfBoth_AndHoldsBoth()
    {
        var day = new PanelDay(Material.Film, [null], heatMaxC: 60);
        day.Run(10, (_, _) => 20).Tell(Did.Applied).Run(15, (_, _) => 20).Tell(Did.Levelled).Run(20, (_, _) => 20).Tell(Did.LampOn);
        day.Run(24, (_, minute) => 20 + (9.5 * (minute - 20)));
        Assert.Equal(["bonnet", "roof", "sill"], day.Shop.Standing.Keys.Where(s => s.Kind == WarningKind.LampOverLimit).Select(s => s.Surface).Order());
        day.Run(30, (_, _) => 85);
        Assert.Equal(["bonnet", "roof", "sill"], JobReport.Of(day.Shop, "job-1").Ruling.Holds.Where(h => h.Kind == HoldKind.Heat).Select(h => h.Surface).Distinct().Order());
        Assert.All(day.Shop.Find("job-1")!.Stories, s => Assert.NotEmpty(s.Living));
    }

    // While it shows the lamp over the bonnet, it says nothing of how warm the roof is: that is modelled, and told so.
    [Fact]
    public void ProbeUnderALamp_MeasuresNoOtherSurface()
    {
        var day = new PanelDay(Material.Steel, [null], airC: 10.6);
        day.Run(30, (_, _) => 10.6);
        Assert.DoesNotContain(day.Reasons("roof"), r => r.Kind == StartReasonKind.PanelCold);
        day.Tell(Did.LampOn, "bonnet").Run(40, (_, minute) => 10.6 + (3 * (minute - 30)));
        Assert.Contains(day.Reasons("roof"), r => r.Kind == StartReasonKind.PanelCold);
    }

    /// <summary>A bay of 50 % with panel probes on one material, and a car of three such surfaces.</summary>
    private sealed class PanelDay
    {
        private static readonly DateTimeOffset Start = new(2026, 5, 4, 8, 0, 0, TimeSpan.Zero);

        private readonly int _probes;
        private readonly double _airC;
        private int _minute = -1;

        public PanelDay(Material material, string?[] on, double? heatMaxC = 70, double airC = 16)
        {
            (_probes, _airC) = (on.Length, airC);
            ImmutableArray<ProbeMount> mounts =
            [
                new(TestShop.Air("air-1"), null, Place.Outside), .. on.Select((s, i) => new ProbeMount(TestShop.Panel($"panel-{i}"), material, Place.Outside, s)),
            ];
            var plan = new ShopPlan("shop", OpeningHours.Always(TimeZoneInfo.Utc), TimeSpan.Zero, [new BayPlan("bay-1", 1013.25, "bay-1", [], mounts)])
            {
                Habits = WorkHabits.Usual with { ColdestArrivalC = 40 },
            };
            Shop = Shop.Opening(plan, [TestShop.Paint(heatMaxC: heatMaxC)], Start.AddMinutes(-1));
            ImmutableArray<Surface> surfaces = [.. new[] { "bonnet", "roof", "sill" }.Select(s => new Surface(s, material, null, Place.Outside, "paint", 1, 1, 1))];
            Take(new Message.JobStarted(new Job("job-1", "bay-1", null, null, surfaces), Start.AddMinutes(-1)));
        }

        public Shop Shop { get; private set; }

        public PanelDay Run(int until, Func<int, int, double> panelC)
        {
            while (_minute < until)
            {
                _minute++;
                Take(new Message.ReadingCame(new RawReading("bay-1", "air-1", Now, Now, _airC, 50, null)));
                for (int i = 0; i < _probes; i++)
                {
                    Take(new Message.ReadingCame(new RawReading("bay-1", $"panel-{i}", Now, Now, null, null, panelC(i, _minute))));
                }
            }

            return this;
        }

        public PanelDay Tell(Did did, string? surface = null)
        {
            foreach (string one in surface is not null || did == Did.LampOn ? [surface!] : new[] { "bonnet", "roof", "sill" })
            {
                Take(new Message.Tapped("job-1", did is Did.Applied or Did.Levelled
                    ? new Tap($"t-{_minute}-{one}-{did}", Now, Now, one, did, Layer: 1, Section: 1)
                    : new Tap($"t-{_minute}-{did}", Now, Now, one, did)));
            }

            return this;
        }

        public ImmutableArray<StartReason> Reasons(string surface) => StartReport.Of(Shop, "job-1", surface).Decision.Answers.Single().Reasons;

        private DateTimeOffset Now => Start.AddMinutes(_minute);

        private void Take(Message message) => Shop = ShopFold.Take(Shop, message).Shop;
    }
}
