using CureWatch.Service.Demo;

namespace CureWatch.Service.Tests.Demo;

public class HallTests
{
    [Fact]
    public void State_IsTheSame_HoweverOftenItIsAsked()
    {
        Hall often = new(), seldom = new();
        HallState last = often.At(TimeSpan.Zero);
        for (int second = 0; second <= 7200; second += 7)
        {
            last = often.At(TimeSpan.FromSeconds(second));
        }

        Assert.Equal(seldom.At(TimeSpan.FromSeconds(7196)), last);
    }

    [Fact]
    public void Panels_FollowTheAir_ThinOnesFirst()
    {
        HallState later = new Hall().At(HallPlan.CarArrives + TimeSpan.FromMinutes(20));

        Assert.True(later.Air1C > later.SteelC);
        Assert.True(later.SteelC > later.GlassC);
        Assert.True(later.GlassC > later.WheelsC);
        Assert.True(later.WheelsC > HallPlan.ParkedCarC);
    }

    [Fact]
    public void Washing_NextDoor_WetsThisBayToo()
    {
        var hall = new Hall();
        HallState before = hall.At(new TimeSpan(9, 35, 0)), after = hall.At(new TimeSpan(11, 0, 0));

        Assert.True(after.Vapour2Pa > after.Vapour1Pa);
        Assert.True(after.Vapour1Pa > before.Vapour1Pa + 500);
    }

    [Fact]
    public void Noise_StaysInItsBounds_AroundNothing()
    {
        double[] noise = [.. Enumerable.Range(0, 10_000).Select(n => Noise.At("bay-1/air/t", n))];

        Assert.All(noise, n => Assert.InRange(n, -1, 1));
        Assert.InRange(noise.Average(), -0.03, 0.03);
        Assert.NotEqual(Noise.At("bay-1/air/t", 1), Noise.At("bay-1/air/h", 1));
    }
}
