using System.Globalization;

namespace CureWatch.Benchmarks.Kills;

/// <summary>A shop of four bays in a folder of its own, whose probes are due so often that some fall silent now and then.</summary>
internal sealed class LoadedShop : IDisposable
{
    private const string Probes =
        """
        [{"probe":"air-0","measures":"air","every":"00:00:01"},{"probe":"air-1","measures":"air"},{"probe":"panel","measures":"panel"},
         {"probe":"seldom","measures":"outdoor","every":"00:00:01"}]
        """;

    private readonly DirectoryInfo _folder = Directory.CreateTempSubdirectory("curewatch-kills-");
    private readonly string[] _mqtt;

    /// <param name="brokerPort">Where an external broker listens; null for the embedded one.</param>
    public LoadedShop(int? brokerPort = null)
    {
        string products = Path.Combine(Config, "products");
        Directory.CreateDirectory(products);
        foreach (string sheet in Directory.EnumerateFiles(Path.Combine(AppContext.BaseDirectory, "config", "products")))
        {
            File.Copy(sheet, Path.Combine(products, Path.GetFileName(sheet)));
        }

        string bays = string.Join(',', Bays.Select(b => $$"""{"bay":"{{b}}","probes":{{Probes}}}"""));
        File.WriteAllText(Path.Combine(Config, "shop.json"), $$"""{"shop":"{{Shop}}","timeZone":"Etc/UTC","bays":[{{bays}}]}""");
        if (brokerPort is { } port)
        {
            File.WriteAllText(Path.Combine(Config, "curewatch.json"), $$"""{"mqtt":{"external":{"host":"127.0.0.1","port":{{port}} } } }""");
        }

        _mqtt = brokerPort is null ? ["--mqtt-port", "0"] : [];
    }

    public const string Shop = "kills";
    public const string Root = $"curewatch/v1/{Shop}";

    public static string[] Bays { get; } = ["bay-0", "bay-1", "bay-2", "bay-3"];

    public string Config => Path.Combine(_folder.FullName, "config");

    public string Data => Path.Combine(_folder.FullName, "data");

    public Child Run() => Child.Start(["run", "--config", Config, "--data", Data, "--port", "0", "--json", .. _mqtt]);

    /// <summary>A folder for something that is thrown away with the shop.</summary>
    public string Scratch(int number) => Path.Combine(_folder.FullName, number.ToString(CultureInfo.InvariantCulture));

    public void Dispose() => _folder.Delete(recursive: true);
}
