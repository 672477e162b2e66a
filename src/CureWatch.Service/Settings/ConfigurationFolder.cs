using System.Collections.Immutable;

namespace CureWatch.Service.Settings;

/// <summary>The files of a configuration folder, each named below the folder as the person named that.</summary>
/// <param name="Shop">The shop, whether the file is there or not.</param>
/// <param name="Service">How the service runs; null where the file is absent, which it may be.</param>
/// <param name="Products">The product sheets, in the order of their names.</param>
internal sealed record ConfigurationFolder(string Shop, string? Service, ImmutableArray<string> Products)
{
    private const string UsualName = "config";

    /// <summary>The folder where nobody names one: <c>config</c> in the working directory, else beside the program.</summary>
    public static string Usual => Directory.Exists(UsualName) ? UsualName : Path.Combine(AppContext.BaseDirectory, UsualName);

    /// <summary>Every file there is to read, in a fixed order.</summary>
    public IReadOnlyList<string> Files => Service is null ? [Shop, .. Products] : [Service, Shop, .. Products];

    /// <summary>Whether there is no such folder. One that is there and cannot be read may hold anything.</summary>
    public static bool IsAbsent(string directory)
    {
        try
        {
            _ = Directory.GetFileSystemEntries(directory);
            return false;
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException or ArgumentException)
        {
            return e is DirectoryNotFoundException && !Path.Exists(directory);
        }
    }

    /// <returns>The folder, or null where it cannot be read.</returns>
    public static ConfigurationFolder? Find(string directory, Faults faults)
    {
        try
        {
            _ = Directory.GetFileSystemEntries(directory);   // "exists" is no answer where the folder may not be read
            string service = Path.Combine(directory, "curewatch.json");
            string products = Path.Combine(directory, "products");
            string[] sheets = Directory.Exists(products) ? Directory.GetFiles(products) : [];
            return new ConfigurationFolder(
                Path.Combine(directory, "shop.json"),
                File.Exists(service) ? service : null,
                [.. sheets.Where(f => f.EndsWith(".json", StringComparison.OrdinalIgnoreCase)).Order(StringComparer.Ordinal)]);
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException or ArgumentException)
        {
            string seen = e is DirectoryNotFoundException ? "no such directory" : e.Message;
            faults.Add(directory, "directory", seen, "a directory that can be read");
            return null;
        }
    }
}
