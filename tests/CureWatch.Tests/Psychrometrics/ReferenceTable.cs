using System.Globalization;

namespace CureWatch.Tests.Psychrometrics;

/// <summary>A dew point by IAPWS-95, worked out with python3-iapws 1.5.2; how far it is trusted stands at the head of the file.</summary>
internal sealed record ReferenceRow(
    double AirC, double HumidityPct, double DewPointC, double VapourPressurePa, double AbsoluteHumidityGm3, double? FrostPointC);

internal static class ReferenceTable
{
    public static IReadOnlyList<ReferenceRow> Rows { get; } =
    [
        .. File.ReadLines(Path.Combine(AppContext.BaseDirectory, "Psychrometrics", "iapws95-dew-points.csv"))
            .Where(line => !line.StartsWith('#'))
            .Skip(1)
            .Select(line => line.Split(','))
            .Select(c => new ReferenceRow(
                Number(c[0]), Number(c[1]), Number(c[2]), Number(c[3]), Number(c[4]), c[5].Length == 0 ? null : Number(c[5]))),
    ];

    private static double Number(string cell) => double.Parse(cell, CultureInfo.InvariantCulture);
}
