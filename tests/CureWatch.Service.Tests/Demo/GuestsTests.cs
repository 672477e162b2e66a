using CureWatch.Bays;
using CureWatch.Service.Demo;

namespace CureWatch.Service.Tests.Demo;

public class GuestsTests
{
    private static readonly Shop Played = FoldedDay.Until(FoldedDay.Clock(11, 0)).Register.Shop!;

    private static readonly JobState OfThePlay = Played.Find(DemoDay.MainJob)!;

    [Fact]
    public void CarsOfThePlay_AreNobodysOwn() => Assert.False(Guests.AreAtWork(Played));

    [Fact]
    public void CarOfTheirOwn_CountsForAnHour_AfterItCameAndAfterEveryTap()
    {
        Assert.True(Guests.AreAtWork(With(came: -59)));
        Assert.False(Guests.AreAtWork(With(came: -60)));
        Assert.True(Guests.AreAtWork(With(came: -200, told: -59)));
        Assert.False(Guests.AreAtWork(With(came: -200, told: -60)));
    }

    [Fact]
    public void CarThatIsExpected_OrHasLeft_HoldsNobodyUp()
    {
        Assert.False(Guests.AreAtWork(With(came: 30)));
        Assert.False(Guests.AreAtWork(With(came: -10, left: -1)));
    }

    private static Shop With(double came, double? told = null, double? left = null)
    {
        var job = OfThePlay with
        {
            Job = OfThePlay.Job with { Id = "red-coupe", Visit = null },
            OpenedAt = At(came),
            LeftAt = left is { } minutes ? At(minutes) : null,
            Told = told is { } at ? [OfThePlay.Told[0] with { ReportedAt = At(at) }] : [],
        };
        return Played with { Jobs = Played.Jobs.Add("red-coupe", job) };
    }

    private static DateTimeOffset At(double minutes) => Played.Now.AddMinutes(minutes);
}
