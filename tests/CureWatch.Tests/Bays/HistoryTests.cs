using CureWatch.Bays;
using CureWatch.Curing;
using CureWatch.Panels;
using CureWatch.Psychrometrics;
using CureWatch.Readings;
using CureWatch.Units;
using CureWatch.Warnings;

namespace CureWatch.Tests.Bays;

public class HistoryTests
{
    private const int MinutesOfTwoDays = 2 * 24 * 60;

    [Fact]
    public void Bay_WithoutACoat_RemembersTwoDaysAndNotMuchMore()
    {
        TestShop shop = new TestShop().Steady(0, 24 * 9);
        Trail<Sample> air = shop.Shop.Bays["bay-1"].Logs[0].Air;
        Assert.True(air[0].At <= TestShop.At((24 * 9) - 48));
        Assert.InRange(air.Count, MinutesOfTwoDays, (1.5 * MinutesOfTwoDays) + 600);
    }

    [Fact]
    public void Bay_WithACoat_RemembersItsWholeLife()
    {
        TestShop shop = new TestShop().Steady(0, 1).Tap(1, Did.Applied).Tap(1.05, Did.Levelled).Steady(1.05, 24 * 9);
        BayState bay = shop.Shop.Bays["bay-1"];
        Assert.True(bay.Logs[0].Air[0].At <= TestShop.At(1));
        Assert.All(bay.Climates.Values, c => Assert.True(c.Track.Segments[0].Start <= TestShop.At(1)));
        var earned = shop.Report.Surfaces[0].Coats[0].ReferenceHours;
        Assert.Equal((24 * 9) - 1.05, earned.Likely, 6); // 20 °C and 50 % are the reference climate of the sheet
    }

    [Fact]
    public void Bay_FloodedWithReadings_KeepsTheOldOnesByTheMinute()
    {
        const int PerMinute = 300;
        TestShop shop = new();
        for (int i = 0; i < PerMinute * 180; i++)
        {
            shop.Read(i / 60.0 / PerMinute, 20 + Math.Sin(i / 1e4), 50);
        }

        Assert.InRange(shop.Shop.Bays["bay-1"].Logs[0].Air.Count, 20 * PerMinute, (1.5 * 21 * PerMinute) + 800);
    }

    // A swing of the climate every ten minutes, a reading every five seconds: kept as it came for twenty minutes, by the minute after that.
    [Theory]
    [InlineData(1.0)]
    [InlineData(1.0004)] // between two readings
    [InlineData(1.0011)]
    public void Coat_UnderOldReadingsKeptByTheMinute_HasEarnedWhatItHadBefore(double levelledHour)
    {
        const double LastHour = 4;
        TestShop shop = new();
        var segments = new List<ClimateSegment>();
        Exposure? before = null;
        for (int i = 0; i <= LastHour * 720; i++)
        {
            double hour = i / 720.0;
            (double c, double pct) = (20 + (5 * Math.Sin(hour * 37)), 50 + (20 * Math.Cos(hour * 41)));
            shop.Read(hour, c, pct, panelC: c);
            if (i == 721)
            {
                shop.Tap(1, Did.Applied).Tap(levelledHour, Did.Levelled);
            }

            Exposure now = Curing.Segments.At(c, pct);
            if (hour > levelledHour && before is { } last)
            {
                var segment = ClimateSegment.Plain(TestShop.At((i - 1) / 720.0), TestShop.At(hour), last, now);
                DateTimeOffset levelled = TestShop.At(levelledHour);
                segments.Add(segment.Start < levelled ? segment.Between(levelled, segment.End) : segment);
            }

            before = now;
        }

        var law = shop.Shop.LawsOf(shop.Report.Job.Surfaces[0]).Cure.Law;
        double exact = segments.Sum(s => CureIntegral.Over(law, s).Likely);
        Assert.Equal(1, shop.Report.Surfaces[0].Coats[0].ReferenceHours.Likely / exact, 1e-9);
        Assert.True(shop.Shop.Bays["bay-1"].Climates.Values.First().Track.Segments.Count < segments.Count / 1.5, "nothing was kept by the minute");
    }

    // Fifty readings a second: followed by the second, so that what a coat earns and what is kept do not depend on how often a probe speaks.
    [Fact]
    public void Coat_UnderAProbeThatFloods_EarnsTheSame_AndItsClimateIsFollowedByTheSecond()
    {
        const int PerSecond = 50, Seconds = 1_500;
        const double Pa = 1_000;
        double Celsius(double hour) => 15 + (20 * hour);
        double Percent(double hour) => 100 * Pa / SaturationPressure.OverWaterPa(new Celsius(Celsius(hour)).Kelvins);
        TestShop shop = new TestShop().Read(0, 15, Percent(0), panelC: 15).Tap(0, Did.Applied).Tap(0, Did.Levelled);
        for (int i = 1; i <= Seconds * PerSecond; i++)
        {
            double hour = i / 3600.0 / PerSecond;
            shop.Read(hour, Celsius(hour), Percent(hour), panelC: Celsius(hour));
        }

        double end = Seconds / 3600.0;
        var law = shop.Shop.LawsOf(shop.Report.Job.Surfaces[0]).Cure.Law;
        double exact = CureIntegral.Over(law, Curing.Segments.Over(end, Curing.Segments.AtPressure(15, Pa), Curing.Segments.AtPressure(Celsius(end), Pa))).Likely;
        Assert.Equal(1, shop.Report.Surfaces[0].Coats[0].ReferenceHours.Likely / exact, 1e-6);
        Assert.InRange(shop.Shop.Bays["bay-1"].Climates.Values.First().Track.Segments.Count, Seconds / 60, Seconds + 2);
    }

    [Fact]
    public void Job_TwoDaysAfterItsCarLeft_IsClosedAndToldOnce()
    {
        TestShop shop = new TestShop().Steady(0, 1).Tap(1, Did.Applied).Tap(1.05, Did.Levelled).Steady(1.05, 20)
            .Take(new Message.CarLeft("job-1", TestShop.At(20))).Steady(20.1, 60).Tap(60, Did.Inspected, found: Found.Clear);
        Assert.Equal(3, shop.Shop.Find("job-1")!.Told.Length);
        shop.Until(67.9);
        Assert.NotNull(shop.Shop.Find("job-1"));
        shop.Until(68);
        Assert.Null(shop.Shop.Find("job-1"));
        JobReport last = Assert.Single(shop.Happened.OfType<ShopEvent.JobClosed>()).Last;
        Assert.Equal((3, TestShop.At(68)), (last.Told.Length, last.At));
        Assert.Null(ShopFold.NextDueAt(shop.Until(70).Shop) is { } due && due <= TestShop.At(70) ? due : null);
        int happened = shop.Happened.Count;
        shop.Tap(70, Did.Inspected, found: Found.Streak);
        Assert.DoesNotContain(shop.Happened.Skip(happened), e => e is ShopEvent.TapTakenDown);
    }

    // Nothing would ever clear it.
    [Fact]
    public void Job_ToldOfWaterAfterItsCarLeft_LeavesNoWarningBehind()
    {
        TestShop shop = new TestShop().Steady(0, 1).Tap(1, Did.Applied).Tap(1.05, Did.Levelled).Steady(1.05, 3)
            .Take(new Message.CarLeft("job-1", TestShop.At(3))).Tap(3.5, Did.Wetted);
        Assert.Empty(shop.Warnings(WarningKind.Wetted));
        shop.Until(60);
        Assert.Null(shop.Shop.Find("job-1"));
        Assert.DoesNotContain(shop.Shop.Standing.Keys, s => s.Job is not null);
    }

    [Fact]
    public void Climate_WhereWaterCameAndWent_IsKeptAsItCame()
    {
        TestShop shop = new TestShop().Steady(0, 1).Tap(1, Did.Applied).Tap(1.05, Did.Levelled)
            .Climate(1.05, 40, hour => (20, hour is > 4.05 and < 4.25 ? 100 : 50));
        BayState bay = shop.Shop.Bays["bay-1"];
        var spell = Assert.Single(bay.WetSpellsIn(Place.Outside));
        Trail<ClimateSegment> segments = bay.Climates.Values.Single().Track.Segments;
        Assert.True(segments.Count < 40 * 60 / 3);
        Assert.All([spell.From, spell.To!.Value], at => Assert.Contains(Enumerable.Range(0, segments.Count), i => segments[i].Start == at));
    }

    [Fact]
    public void Bay_WhoseJobIsClosed_LetsGoOfItsClimate()
    {
        TestShop shop = new TestShop().Steady(0, 1).Tap(1, Did.Applied).Tap(1.05, Did.Levelled).Steady(1.05, 20);
        Assert.NotEmpty(shop.Shop.Bays["bay-1"].Climates);
        shop.Take(new Message.CarLeft("job-1", TestShop.At(20))).Steady(20.1, 24 * 9);
        Assert.Empty(shop.Shop.Bays["bay-1"].Climates);
        Assert.True(shop.Shop.Bays["bay-1"].Logs[0].Air[0].At > TestShop.At(24 * 4));
    }

    [Fact]
    public void Warnings_OverBeforeAnythingThatIsHere_AreLetGo_AndNumbersGoOn()
    {
        TestShop shop = new TestShop().Take(new Message.CarLeft("job-1", TestShop.At(0)));
        for (int hour = 1; hour <= 900; hour++)
        {
            shop.Steady(hour, hour + 0.5); // and then silent for half an hour: one warning each
        }

        Shop after = shop.Shop;
        Assert.InRange(after.WarningsGiven, 800, 1_000);
        Assert.InRange(after.Warnings.Count, 1, 3 * 256);
        Assert.All(after.Standing.Values, number => Assert.Null(after.Warnings[number].ClearedAt));
        Assert.Equal(after.WarningsGiven - 1, after.Warnings.Keys.Last());
        Assert.All(after.Warnings.Values.Where(w => w.ClearedAt < TestShop.At(500)), w => Assert.Fail($"{w} is still there"));
    }
}
