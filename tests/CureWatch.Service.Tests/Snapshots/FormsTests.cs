using CureWatch.Service.Snapshots;

namespace CureWatch.Service.Tests.Snapshots;

/// <summary>A snapshot may be read only where all that it was made of is the same: what its shape has to tell.</summary>
public sealed class FormsTests
{
    [Fact]
    public void Shape_OfAnEnumeration_HasTheNameOfEachNumber()
    {
        var forms = new Forms();
        forms.Of<DayOfWeek?>();
        Assert.Contains("System.DayOfWeek: Sunday 0,Monday 1,", string.Join('\n', forms.Shape), StringComparison.Ordinal);
    }

    [Fact]
    public void Shape_OfAValueWithoutReferences_GoesDownToItsPlainNumbers()
    {
        var forms = new Forms();
        forms.Of<(DateTimeOffset, int)>();
        string shape = string.Join('\n', forms.Shape);
        Assert.Contains("System.DateTimeOffset: _dateTime System.DateTime,", shape, StringComparison.Ordinal);
        Assert.Contains("System.DateTime: _dateData System.UInt64", shape, StringComparison.Ordinal);
    }
}
