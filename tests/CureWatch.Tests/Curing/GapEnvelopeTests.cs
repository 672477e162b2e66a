using CureWatch.Curing;
using CureWatch.Panels;
using CureWatch.Products;
using static CureWatch.Tests.Curing.Segments;

namespace CureWatch.Tests.Curing;

public class GapEnvelopeTests
{
    // Own integration in another language: 20 °C/50 %, then 17 °C/55 % two hours later, 4 K/h and 3 K/h (dew point) in between.
    [Theory]
    [InlineData(53e3, 0.7, 1.851070285348614, 2.0926475447774995)]
    [InlineData(50e3, 0.6, 1.854, 2.083)]
    public void Gap_BetweenTwoReadings_EarnsTheFastBoundItsEnvelope(double e, double m, double interpolated, double fast)
    {
        Credit credit = CureIntegral.Over(Law(e, m), Gap(2, At(20, 50), At(17, 55)));
        Assert.Equal(interpolated, credit.Likely, 5e-4);
        Assert.Equal(fast, credit.Fast, 5e-4);
    }

    [Fact]
    public void Gap_EarnsTheSlowBoundNothing() => Assert.Equal(0, CureIntegral.Over(Law(53e3, 0.7), Gap(2, At(20, 50), At(17, 55))).Slow);

    [Fact]
    public void Gap_StillOpen_EarnsTheFastBoundMoreThanAClosedOne()
    {
        ClimateSegment closed = Gap(2, At(20, 50), At(20, 50));
        ClimateSegment open = closed with { Unseen = closed.Unseen! with { Air = closed.Unseen.Air with { To = null } } };
        Assert.True(CureIntegral.Over(Law(53e3, 0.7), open).Fast > CureIntegral.Over(Law(53e3, 0.7), closed).Fast);
    }

    [Fact]
    public void Gap_TooShortForCure_CountsInFull()
    {
        ClimateSegment gap = Gap(0.25, At(20, 50), At(20, 50));
        gap = gap with { Unseen = gap.Unseen! with { IsGapForCure = false } };
        Assert.Equal(0.25, CureIntegral.Over(Law(53e3, 0.7), gap).Slow, 1e-9);
        Assert.Equal(0, CureIntegral.Over(Law(43e3, 0.2, Mechanism.Evaporation), gap).Slow);
    }

    private static ClimateSegment Gap(double hours, Exposure start, Exposure end)
    {
        ClimateSegment segment = Over(hours, start, end);
        var air = new Bracket(segment.Start, start.AirKelvins, start.VapourPressurePa, segment.End, end.AirKelvins, end.VapourPressurePa);
        return segment with { Unseen = new Unseen(air, null, IsGapForEvaporation: true, IsGapForCure: true) };
    }
}
