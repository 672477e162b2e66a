using CureWatch.Psychrometrics;
using CureWatch.Units;

namespace CureWatch.Tests.Psychrometrics;

/// <summary>Every row of the IAPWS-95 table. The tolerances are what Sonntag 1990 is known to keep against it, with some room.</summary>
public class ReferenceTableTests
{
    [Fact]
    public void Table_IsReadWhole() => Assert.Equal(236, ReferenceTable.Rows.Count);

    [Fact]
    public void DewPoint_FromMinusTwentyUp_IsThatOfTheTable() => Assert.All(
        ReferenceTable.Rows.Where(r => r.DewPointC >= -20),
        r => Assert.Equal(r.DewPointC, DewPoint.Of(Air(r), Humidity(r)).Degrees, r.DewPointC >= 0 ? 0.003 : 0.015));

    [Fact]
    public void DewPoint_FromTheTablesPressure_IsThatOfTheTable() => Assert.All(
        ReferenceTable.Rows.Where(r => r.DewPointC >= -20),
        r => Assert.Equal(r.DewPointC, DewPoint.OfPressure(r.VapourPressurePa).Degrees, r.DewPointC >= 0 ? 0.003 : 0.015));

    [Fact]
    public void FrostPoint_FromDewPointsOfMinusTwentyUp_IsThatOfTheTable() => Assert.All(
        ReferenceTable.Rows.Where(r => r.DewPointC >= -20),
        r =>
        {
            double? frostPointC = FrostPoint.Of(Air(r), Humidity(r))?.Degrees;
            Assert.Equal(r.DewPointC < 0, frostPointC.HasValue);
            Assert.Equal(r.FrostPointC ?? 0, frostPointC ?? 0, 0.015);
        });

    [Fact]
    public void CondensationTemperature_IsTheHigherOfTheTablesTwo() => Assert.All(
        ReferenceTable.Rows.Where(r => r.DewPointC >= -20),
        r => Assert.Equal(
            Math.Max(r.DewPointC, r.FrostPointC ?? r.DewPointC), CondensationTemperature.Of(Air(r), Humidity(r)).Degrees, 0.015));

    [Fact]
    public void VapourPressure_IsThatOfTheTableWithinThreeInTenThousand() => Assert.All(
        ReferenceTable.Rows,
        r => Assert.Equal(1, Vapour.PressurePa(Air(r), Humidity(r)) / r.VapourPressurePa, 0.0003));

    [Fact]
    public void AbsoluteHumidity_IsThatOfTheTableWithinThreeInTenThousand() => Assert.All(
        ReferenceTable.Rows,
        r => Assert.Equal(
            1, MoistureContent.GramsPerCubicMetre(Air(r), Vapour.PressurePa(Air(r), Humidity(r))) / r.AbsoluteHumidityGm3, 0.0003));

    private static Celsius Air(ReferenceRow row) => new(row.AirC);

    private static RelativeHumidity Humidity(ReferenceRow row) => new(row.HumidityPct);
}
