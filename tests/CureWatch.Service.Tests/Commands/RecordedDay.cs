using System.Globalization;
using System.Text;

namespace CureWatch.Service.Tests.Commands;

/// <summary>A small recorded day in a folder of its own: one bay, one probe, one coat.</summary>
internal sealed class RecordedDay : IDisposable
{
    /// <summary>A shop to which no car comes colder than its bays.</summary>
    public const string Shop =
        """{"shop":"test-shop","timeZone":"Europe/Dublin","finishing":"01:15:00","work":{"coldestArrivalC":40},"bays":[{"bay":"bay-1","probes":[{"probe":"air-1","measures":"air"}]}]}""";

    public const string Sheet =
        """
        {"product":"paint","revision":1,"kind":"paint","stages":[
          {"stage":"flash","rows":[{"temperatureC":20,"humidityPct":50,"from":"00:01:00","to":"00:03:00"}]},
          {"stage":"level-by","rows":[{"temperatureC":20,"humidityPct":50,"at":"00:08:00"}]},
          {"stage":"keep-dry","rows":[{"temperatureC":20,"humidityPct":50,"at":"12:00:00"}]}]}
        """;

    public const string Job =
        """
        {"job":"job-1","bay":"bay-1","surfaces":[{"surface":"bonnet","material":"steel","product":"paint"}],
         "taps":[{"at":"2026-05-04T09:00:00Z","did":"applied"},{"at":"2026-05-04T09:04:00Z","did":"levelled"}]}
        """;

    private readonly string _folder = Directory.CreateTempSubdirectory("curewatch-").FullName;

    public RecordedDay()
    {
        Directory.CreateDirectory(Path.Combine(_folder, "products"));
        Write("shop.json", Shop);
        Write("products/paint.json", Sheet);
        Write("job.json", Job);
        WriteReadings(30, _ => (20, 50));
    }

    public string JobFile => Path.Combine(_folder, "job.json");

    public void Write(string name, string text) => File.WriteAllText(Path.Combine(_folder, name), text);

    public void WriteReadings(int hours, Func<double, (double C, double Pct)> climate)
    {
        var csv = new StringBuilder("time,bay,probe,air_c,humidity_pct,panel_c\n");
        for (int minute = 0; minute <= hours * 60; minute++)
        {
            (double c, double pct) = climate(minute / 60.0);
            DateTimeOffset at = new DateTimeOffset(2026, 5, 4, 8, 0, 0, TimeSpan.Zero).AddMinutes(minute);
            csv.Append(CultureInfo.InvariantCulture, $"{at:yyyy-MM-ddTHH:mm:ssZ},bay-1,air-1,{c:0.00},{pct:0.0},\n");
        }

        Write("readings.csv", csv.ToString());
    }

    public Invocation Replay(params string[] more) => Invocation.Of(
    [
        "replay", "--config", _folder, "--readings", Path.Combine(_folder, "readings.csv"), "--job", JobFile, .. more,
    ]);

    public void Dispose() => Directory.Delete(_folder, recursive: true);
}
