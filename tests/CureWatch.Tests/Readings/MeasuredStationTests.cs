using System.Globalization;
using CureWatch.Psychrometrics;
using CureWatch.Readings;
using CureWatch.Units;
using static CureWatch.Tests.Readings.Feed;

namespace CureWatch.Tests.Readings;

/// <summary>Hourly weather stations with the junk that came over the wire: Debian's libncarg-data 6.6.2 (see Measured/SOURCES.md).</summary>
public class MeasuredStationTests
{
    private static readonly Probe Station = Air with { Every = TimeSpan.FromHours(1) };

    private static readonly Row[] Rows =
    [
        .. from line in File.ReadLines(Path.Combine(AppContext.BaseDirectory, "Readings", "Measured", "stations-1995-03-18.csv")).Skip(1)
           let cells = line.Split(',')
           select new Row(cells[0], int.Parse(cells[1], CultureInfo.InvariantCulture), Number(cells[2]), Number(cells[3])),
    ];

    // Counted in the file itself: 40 dew points of 9999 or 107 °C, 6 above their temperature, air of 76, 204, 322 and 343 °C.
    [Fact]
    public void Junk_IsRefusedEachWithAReason_AndAllElseIsBelieved()
    {
        var refused = new List<(Row Row, Disbelief Why)>();
        int believed = 0, missing = 0;
        foreach (IGrouping<string, Row> station in Rows.GroupBy(r => r.Station))
        {
            var feed = new Feed(Station);
            foreach (Row row in station.OrderBy(r => r.Hour))
            {
                Disbelief? why = feed.Tell(60 * row.Hour, row.C, row.HumidityPct);
                (believed, missing) = (believed + (why is null ? 1 : 0), missing + (why == Disbelief.Malformed ? 1 : 0));
                if (why is { } reason and not Disbelief.Malformed)
                {
                    refused.Add((row, reason));
                }
            }
        }

        Assert.Equal(50, Rows.Count(IsJunk));
        Assert.All(refused, r => Assert.True(IsJunk(r.Row), $"{r.Row} refused as {r.Why}"));
        Assert.Equal(50, refused.Count);
        Assert.Equal(Rows.Length, believed + missing + refused.Count);
        Assert.Equal(Rows.Count(r => r.C is null || r.DewPointC is null), missing);
        Assert.Equal(Disbelief.Implausible, Assert.Single(refused, r => r.Row.C == 76).Why);
    }

    // The humidity a station would have told is worked out by another formula than ours: Wagner and Pruß 2002, J. Phys. Chem. Ref. Data 31, 387, eq. 2.5
    // (coefficients from memory; at 0.01 °C it gives 611.66 Pa). Below 0 °C it is extrapolated, where the two part by 0.011 K at −20 °C.
    [Fact]
    public void DewPoint_OfACompleteStation_IsTheOneItTold()
    {
        Assert.Equal(611.66, SaturationPa(0.01), 0.01);
        Row[] complete = [.. Rows.GroupBy(r => r.Station).Where(s => s.Count() == 24 && s.All(r => r.HumidityPct is > 0 and <= 100)).SelectMany(s => s)];
        Assert.True(complete.Length >= 24 * 25, $"{complete.Length}");
        Assert.All(complete, r => Assert.Equal(
            r.DewPointC!.Value, DewPoint.Of(new Celsius(r.C!.Value), new RelativeHumidity(r.HumidityPct!.Value)).Degrees, r.DewPointC >= 0 ? 0.005 : 0.02));
    }

    private static bool IsJunk(Row row) => row is { C: { } air, DewPointC: { } dew } && (air > 60 || dew > 60 || dew > air + 0.01);

    private static double SaturationPa(double celsius)
    {
        const double CriticalKelvins = 647.096, CriticalPa = 22.064e6;
        double kelvins = celsius + 273.15, v = 1 - (kelvins / CriticalKelvins);
        double sum = (-7.85951783 * v) + (1.84408259 * Math.Pow(v, 1.5)) + (-11.7866497 * Math.Pow(v, 3)) + (22.6807411 * Math.Pow(v, 3.5))
            + (-15.9618719 * Math.Pow(v, 4)) + (1.80122502 * Math.Pow(v, 7.5));
        return CriticalPa * Math.Exp(CriticalKelvins / kelvins * sum);
    }

    private static double? Number(string cell) => cell.Length == 0 ? null : double.Parse(cell, CultureInfo.InvariantCulture);

    private sealed record Row(string Station, int Hour, double? C, double? DewPointC)
    {
        public double? HumidityPct => 100 * (DewPointC is { } dew ? SaturationPa(dew) : null) / (C is { } air ? SaturationPa(air) : null);
    }
}
