using System.Globalization;
using System.Text;

namespace CureWatch.Benchmarks.Durable;

/// <summary>A shop of ten bays with two air probes each, in a folder of its own.</summary>
internal sealed class DurableShop : IDisposable
{
    private readonly DirectoryInfo _folder = Directory.CreateTempSubdirectory("curewatch-bench-");

    public DurableShop()
    {
        var bays = new StringBuilder();
        for (int i = 0; i < Load.Connections / 2; i++)
        {
            bays.Append(i == 0 ? "" : ",").Append(
                CultureInfo.InvariantCulture,
                $$"""{"bay":"bay-{{i}}","probes":[{"probe":"air-0","measures":"air"},{"probe":"air-1","measures":"air"}]}""");
        }

        Directory.CreateDirectory(Config);
        File.WriteAllText(Path.Combine(Config, "shop.json"), $$"""{"shop":"bench","timeZone":"Etc/UTC","bays":[{{bays}}]}""");
    }

    public string Config => Path.Combine(_folder.FullName, "config");

    public string Data => Path.Combine(_folder.FullName, "data");

    public static string TopicOf(int connection) => $"curewatch/v1/bench/bay-{connection / 2}/probe/air-{connection % 2}";

    public void Dispose() => _folder.Delete(recursive: true);
}
