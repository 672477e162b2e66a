using CureWatch.Service.Settings;
using CureWatch.Warnings;

namespace CureWatch.Service.Tests.Settings;

public class WireNameTests
{
    [Fact]
    public void EveryValue_WrittenAndRead_IsItself() =>
        Assert.All(Enum.GetValues<WarningKind>(), kind => Assert.Equal(kind, WireName<WarningKind>.Find(WireName<WarningKind>.Of(kind))));

    [Fact]
    public void EveryEnum_CountsFromZeroByOne()
    {
        // Those that fit a byte are of the journal, and have numbers there instead of names.
        IEnumerable<Type> ours = new[] { typeof(WarningKind).Assembly, typeof(WireName<>).Assembly }.SelectMany(a => a.GetTypes())
            .Where(t => t.IsEnum && Enum.GetUnderlyingType(t) != typeof(byte));
        Type[] enums = [typeof(DayOfWeek), .. ours];
        Assert.All(enums, type => Assert.Equal(typeof(int), Enum.GetUnderlyingType(type)));
        Assert.All(enums, type => Assert.Equal(Enumerable.Range(0, Enum.GetNames(type).Length), Enum.GetValuesAsUnderlyingType(type).Cast<int>()));
    }

    [Fact]
    public void NameNoValueHas_IsNoValue() => Assert.Null(WireName<WarningKind>.Find("Condensing"));
}
