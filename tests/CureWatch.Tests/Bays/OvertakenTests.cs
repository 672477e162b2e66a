using CureWatch.Curing;
using CureWatch.Warnings;

namespace CureWatch.Tests.Bays;

public class OvertakenTests
{
    [Fact]
    public void Warnings_OfOneCoat_AreOvertakenByTheOneThatSaysMore()
    {
        TestShop shop = new TestShop().Steady(0, 1).Tap(1, Did.Applied);
        HashSet<string> told = [];
        for (double hour = 1; hour < 1.5; hour += 0.01)
        {
            shop.Until(hour);
            WarningKind[] stand = [.. shop.Shop.Standing.Keys.Where(s => s.Job is not null).Select(s => s.Kind).Order()];
            WarningKind[] left = [.. shop.Shop.Standing.Keys.Where(s => s.Job is not null && !shop.Shop.IsOvertaken(s)).Select(s => s.Kind)];
            Assert.True(left.Length <= 1, string.Join(", ", left));
            told.Add($"{string.Join(" + ", stand)}: {string.Join(", ", left)}");
        }

        Assert.Contains("LevelDue + LevelClosing: LevelClosing", told);
        Assert.Contains("LevelMissed: LevelMissed", told);
    }
}
