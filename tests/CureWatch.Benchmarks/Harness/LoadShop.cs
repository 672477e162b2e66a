using System.Globalization;
using System.Net.Http.Headers;
using System.Text;

namespace CureWatch.Benchmarks.Harness;

/// <summary>A shop of many bays, each with the same air probes and, in some, a car under coats; in a folder of its own.</summary>
internal sealed class LoadShop : IDisposable
{
    public const string Root = "curewatch/v1/bench";

    /// <summary>All that the service publishes about bays and cars.</summary>
    public static readonly string[] Outputs = [$"{Root}/+/climate", $"{Root}/+/warnings/+", $"{Root}/jobs/#"];

    private static readonly (string Id, string Material, string Product)[] Surfaces =
    [
        ("bonnet", "steel", "paint-oxide-demo"), ("screen", "glass", "glass-repel-demo"),
        ("wheels", "aluminium", "wheel-silazane-demo"), ("trim", "plastic", "trim-dressing-demo"),
    ];

    private readonly DirectoryInfo _folder = Directory.CreateTempSubdirectory("curewatch-bench-");

    public LoadShop(int bays, int probesPerBay)
    {
        (Bays, ProbesPerBay) = (bays, probesPerBay);
        string products = Path.Combine(Config, "products");
        Directory.CreateDirectory(products);
        foreach (string sheet in Directory.EnumerateFiles(Path.Combine(AppContext.BaseDirectory, "config", "products")))
        {
            File.Copy(sheet, Path.Combine(products, Path.GetFileName(sheet)));
        }

        string probes = string.Join(',', Enumerable.Range(0, probesPerBay).Select(p => $$"""{"probe":"air-{{p}}","measures":"air"}"""));
        string all = string.Join(',', Enumerable.Range(0, bays).Select(b => $$"""{"bay":"bay-{{b}}","probes":[{{probes}}]}"""));
        File.WriteAllText(Path.Combine(Config, "shop.json"), $$"""{"shop":"bench","timeZone":"Etc/UTC","bays":[{{all}}]}""");
    }

    public int Bays { get; }

    public int ProbesPerBay { get; }

    public string Config => Path.Combine(_folder.FullName, "config");

    public string Data => Path.Combine(_folder.FullName, "data");

    public string Journal => Path.Combine(Data, "journal");

    /// <summary>The topic of a probe, counted through all bays.</summary>
    public string TopicOf(int probe) => string.Create(CultureInfo.InvariantCulture, $"{Root}/bay-{probe / ProbesPerBay}/probe/air-{probe % ProbesPerBay}");

    /// <summary>Brings a car into each of the first bays, whose coats were levelled a few minutes ago and cure.</summary>
    public static async Task BringCarsAsync(Uri board, int cars, int coatsPerCar)
    {
        using var http = new HttpClient { BaseAddress = board };
        DateTimeOffset now = TimeProvider.System.GetUtcNow();
        for (int car = 0; car < cars && coatsPerCar > 0; car++)
        {
            string surfaces = string.Join(',', Surfaces.Select(s =>
                $$"""{"surface":"{{s.Id}}","material":"{{s.Material}}","product":"{{s.Product}}","sections":{{coatsPerCar / Surfaces.Length}}}"""));
            await PostAsync(http, "api/v1/jobs", $$"""{"job":"car-{{car}}","bay":"bay-{{car}}","surfaces":[{{surfaces}}]}""");
            await PostAsync(http, $"api/v1/jobs/car-{car}/taps", Tap(now.AddMinutes(-8), "applied"));
            await PostAsync(http, $"api/v1/jobs/car-{car}/taps", Tap(now.AddMinutes(-5), "levelled"));
        }
    }

    public void Dispose() => _folder.Delete(recursive: true);

    private static string Tap(DateTimeOffset at, string did) => $$"""{"at":"{{Instant.Of(at)}}","did":"{{did}}"}""";

    private static async Task PostAsync(HttpClient http, string path, string json)
    {
        using var content = new StringContent(json, Encoding.UTF8, new MediaTypeHeaderValue("application/json"));
        using HttpResponseMessage response = await http.PostAsync(new Uri(path, UriKind.Relative), content);
        if (!response.IsSuccessStatusCode)
        {
            throw new IOException($"{path}: {(int)response.StatusCode} {await response.Content.ReadAsStringAsync()}");
        }
    }
}
