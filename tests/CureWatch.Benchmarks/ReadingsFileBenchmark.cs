using System.Globalization;
using BenchmarkDotNet.Attributes;
using CureWatch.Service.Settings;

namespace CureWatch.Benchmarks;

/// <summary>Ten weeks of one probe at a reading a minute, against cutting each line at its commas.</summary>
/// <remarks>The peer knows no quotes, checks no header and names no fault; it reads the same numbers.</remarks>
[MemoryDiagnoser]
public class ReadingsFileBenchmark
{
    private const int Rows = 100_000;

    private string _readings = "";

    [GlobalSetup]
    public void Write()
    {
        _readings = Path.GetTempFileName();
        File.WriteAllLines(_readings, Enumerable.Range(0, Rows).Select(Row).Prepend("time,bay,probe,air_c,humidity_pct,panel_c"));
    }

    [GlobalCleanup]
    public void Delete() => File.Delete(_readings);

    [Benchmark(Baseline = true)]
    public double Split()
    {
        double sum = 0;
        foreach (string line in File.ReadLines(_readings).Skip(1))
        {
            string[] cells = line.Split(',');
            var time = DateTimeOffset.Parse(cells[0], CultureInfo.InvariantCulture);
            double airC = double.Parse(cells[3], CultureInfo.InvariantCulture);
            double humidityPct = double.Parse(cells[4], CultureInfo.InvariantCulture);
            sum += time.Minute + airC + humidityPct;
        }

        return sum;
    }

    [Benchmark]
    public double Parse()
    {
        double sum = 0;
        foreach (ReadingRow row in ReadingsFile.Read(_readings, new Faults()))
        {
            sum += row.Time.Minute + row.AirC!.Value + row.HumidityPct!.Value;
        }

        return sum;
    }

    private static string Row(int minute)
    {
        DateTimeOffset at = BenchmarkDay.Start + TimeSpan.FromMinutes(minute);
        (double airC, double humidityPct) = BenchmarkDay.ClimateAt(minute);
        return string.Create(CultureInfo.InvariantCulture, $"{at:yyyy-MM-ddTHH:mm:ssZ},bay-1,air-1,{airC:0.0},{humidityPct:0.0},");
    }
}
