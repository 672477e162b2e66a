using CureWatch.Bays;
using CureWatch.Curing;
using CureWatch.Panels;
using CureWatch.Planning;

namespace CureWatch.Tests.Bays;

/// <summary>What keeps a car that came in cold from being begun, once its spot is too old to say it.</summary>
public class ColdCarStartTests
{
    /// <summary>How far it lags is not known well; that makes it no warmer than the air that warms it.</summary>
    [Theory]
    [InlineData(Material.Casting, 19)]
    [InlineData(Material.Glass, 24)]
    public void ColdPart_InAirThatItsSheetAllows_IsNeverTooHot(Material material, double airC)
    {
        var shop = new TestShop();
        Surface part = shop.Report.Job.Surfaces[0] with { Id = "part", Material = material };
        shop.Take(new Message.JobStarted(new Job("cold", "bay-1", null, null, [part]), TestShop.Start));
        bool wasTooCold = false;
        for (int minute = 0; minute < 150; minute++)
        {
            shop.Read(minute / 60.0, airC, 48);
            if (minute == 1)
            {
                DateTimeOffset at = TestShop.At(minute / 60.0);
                shop.Take(new Message.Tapped("cold", new Tap("spot", at, at, "part", Did.Measured, null, null, null, -3, null, null, null, null, null, null)));
            }

            IEnumerable<StartReasonKind> kinds = StartReport.Of(shop.Shop, "cold").Decision.Answers[0].Reasons.Select(r => r.Kind);
            Assert.DoesNotContain(StartReasonKind.PanelHot, kinds);
            wasTooCold |= minute > 31 && kinds.Contains(StartReasonKind.PanelCold);
        }

        Assert.True(wasTooCold);
    }
}
