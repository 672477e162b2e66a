using CsCheck;
using CureWatch.Psychrometrics;
using CureWatch.Reports;
using CureWatch.Tests.Bays;
using CureWatch.Units;

namespace CureWatch.Tests.Reports;

public class ClimateCourseTests
{
    [Fact]
    public void Course_OfABayNobodyHeard_KnowsNothingAndExpectsNothing()
    {
        ClimateCourse course = ClimateCourse.Of(new TestShop().Shop, "bay-1");
        Assert.All(course.Past, p => Assert.Equal((null, null, null), (p.AirC, p.DewPointC, p.PanelC)));
        Assert.Empty(course.Ahead);
    }

    [Fact]
    public void Past_ReachesBackTwelveHoursInEqualSteps_AndEndsNow()
    {
        ClimateCourse course = ClimateCourse.Of(new TestShop().Steady(0, 3).Shop, "bay-1");
        Assert.Equal(course.At - ClimateCourse.Reach, course.Past[0].At);
        Assert.Equal(course.At, course.Past[^1].At);
        Assert.All(course.Past.Zip(course.Past.Skip(1)), p => Assert.Equal(ClimateCourse.Step, p.Second.At - p.First.At));
        Assert.Equal(9.27, course.Past[^1].DewPointC!.Value, 0.005); // 20 °C at 50 %: Magnus' formula of WMO-No. 8 has the same two decimals
    }

    [Fact]
    public void Past_WhereAProbeWasSilent_HasNoLine()
    {
        ClimateCourse course = ClimateCourse.Of(new TestShop().Steady(0, 1).Steady(3, 4).Shop, "bay-1");
        Assert.NotNull(Of(course, 1).AirC);
        Assert.Null(Of(course, 2).AirC);
        Assert.NotNull(Of(course, 3.5).AirC);
    }

    [Fact]
    public void Past_TellsWhatAPanelProbeSaid()
    {
        TestShop shop = new TestShop(probes: [TestShop.Air("air-1"), TestShop.Panel("panel-1")]).Steady(0, 1).ReadPanel(1, 14);
        Assert.Equal(14, ClimateCourse.Of(shop.Shop, "bay-1").Past[^1].PanelC!.Value, 1e-9);
    }

    [Fact]
    public void Ahead_BeginsWithWhatIsMeasuredNow_AndIsOrderedAndWidens() =>
        Gen.Select(Gen.Double[8, 28], Gen.Double[30, 80], Gen.Int[1, 40]).Sample(
            (airC, humidityPct, hours) =>
            {
                ClimateCourse course = ClimateCourse.Of(new TestShop().Steady(0, hours, airC, humidityPct).Shop, "bay-1");
                CourseAhead first = course.Ahead[0], last = course.Ahead[^1];
                Assert.Equal(course.At, first.At);
                Assert.Equal(airC, first.AirC.Likely, 0.01);
                Assert.Equal(DewPoint.Of(new Celsius(airC), new(humidityPct)).Degrees, first.DewPointC.Likely, 0.05);
                Assert.All(course.Ahead.SelectMany(a => new[] { a.AirC, a.DewPointC, a.PanelC }), b => Assert.True(b.Low <= b.Likely && b.Likely <= b.High, $"{b}"));
                Assert.True(last.AirC.High - last.AirC.Low >= first.AirC.High - first.AirC.Low);
                Assert.Equal(course.At + ClimateCourse.Reach, last.At);
            },
            30);

    private static CoursePoint Of(ClimateCourse course, double hour) => course.Past.MinBy(p => (p.At - TestShop.At(hour)).Duration());
}
