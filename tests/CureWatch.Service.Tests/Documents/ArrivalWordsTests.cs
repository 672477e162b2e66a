using CureWatch.Bays;
using CureWatch.Curing;
using CureWatch.Panels;
using CureWatch.Service.Documents;
using CureWatch.TimeWindows;

namespace CureWatch.Service.Tests.Documents;

public class ArrivalWordsTests
{
    private static readonly DateTimeOffset Now = new(2026, 5, 4, 22, 0, 0, TimeSpan.Zero);

    [Fact]
    public void Instant_OfAnotherDay_IsSaidWithItsDay() => Assert.Equal(
        "bonnet (steel): dry enough Wed 06:00, likely 23:00.",
        ArrivalWords.Of(Arriving(new TimeBounds(Now, Now.AddHours(1), Now.AddHours(32))), Now, TimeZoneInfo.Utc).ToString());

    [Fact]
    public void WarmTheBay_IsNotSaidWithoutTheCaution()
    {
        SurfaceArrival never = Arriving(new TimeBounds(null, null, null)), dry = Arriving(TimeBounds.Known(Now));
        Assert.Contains("warm the bay", ArrivalWords.Of(never, Now, TimeZoneInfo.Utc).ToString(), StringComparison.Ordinal);
        Assert.Equal((Cautions.HeatAndShutDoors, null), (Cautions.Beside(never), Cautions.Beside(dry)));
    }

    private static SurfaceArrival Arriving(TimeBounds dryAt) => new(
        new Surface("bonnet", Material.Steel, null, Place.Outside, "paint", 1, 1, 1), ArrivalBasis.Outdoors, -3, 4, dryAt, false, null);
}
