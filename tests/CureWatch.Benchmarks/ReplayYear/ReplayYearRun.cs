using System.Diagnostics;
using System.Globalization;
using System.Text.Json;
using CureWatch.Benchmarks.Harness;

namespace CureWatch.Benchmarks.ReplayYear;

/// <summary>How long the program takes to replay a bay's year from files: a reading a minute, twenty coats that are put on in its first hours.</summary>
internal static class ReplayYearRun
{
    public const string Verb = "replay-year";

    private const int UsualTimes = 3;
    private const int Minutes = 365 * 24 * 60;
    private const int Coats = 20;
    private static readonly (string Material, string Product)[] On =
        [("steel", "paint-oxide-demo"), ("glass", "glass-repel-demo"), ("casting", "wheel-silazane-demo"), ("plastic", "trim-dressing-demo")];

    /// <param name="options">How often; may be left out.</param>
    public static async Task RunAsync(string[] options)
    {
        using var shop = new LoadShop(bays: 1, probesPerBay: 1);
        Directory.CreateDirectory(shop.Data);
        string readings = Path.Combine(shop.Data, "readings.csv"), job = Path.Combine(shop.Data, "job.json");
        await File.WriteAllLinesAsync(readings, Enumerable.Range(0, Minutes).Select(Reading).Prepend("time,bay,probe,air_c,humidity_pct,panel_c"));
        await File.WriteAllTextAsync(job, Job());
        for (int times = options is [var text] ? int.Parse(text, CultureInfo.InvariantCulture) : UsualTimes; times > 0; times--)
        {
            Console.WriteLine(await ReplayAsync("--config", shop.Config, "--readings", readings, "--job", job));
        }
    }

    private static async Task<string> ReplayAsync(params string[] day)
    {
        long begun = Stopwatch.GetTimestamp();
        using Process replay = Process.Start(new ProcessStartInfo("dotnet", [typeof(Service.Commands.CommandLine).Assembly.Location, "replay", .. day]) { RedirectStandardOutput = true })!;
        string said = await replay.StandardOutput.ReadToEndAsync();
        await replay.WaitForExitAsync();
        double seconds = Stopwatch.GetElapsedTime(begun).TotalSeconds;
        return replay.ExitCode is not (0 or 1)
            ? throw new IOException($"The replay ended with {replay.ExitCode}: {said}")
            : string.Create(CultureInfo.InvariantCulture, $"a bay's year at a reading a minute, {Coats} coats: {seconds:0.0} s, {said.Length} characters said");
    }

    private static string Reading(int minute)
    {
        (double airC, double humidityPct) = BenchmarkDay.ClimateAt(minute);
        return string.Create(CultureInfo.InvariantCulture, $"{At(minute)},bay-0,air-0,{airC:0.0},{humidityPct:0.0},");
    }

    private static string Job() => JsonSerializer.Serialize(new
    {
        job = "year",
        bay = "bay-0",
        car = "a car that stays",
        surfaces = Enumerable.Range(0, Coats).Select(i => new { surface = $"surface-{i}", material = On[i % On.Length].Material, product = On[i % On.Length].Product }),
        taps = Enumerable.Range(0, Coats).SelectMany(i => new[] { Tap(i, "applied", 60 + (5 * i)), Tap(i, "levelled", 63 + (5 * i)) }),
    });

    private static object Tap(int surface, string did, int minute) => new { id = $"{did}-{surface}", at = At(minute), surface = $"surface-{surface}", did };

    private static string At(int minute) => Instant.Of(BenchmarkDay.Start.AddMinutes(minute));
}
