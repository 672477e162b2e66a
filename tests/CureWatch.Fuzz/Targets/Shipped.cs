using Json.Schema;

namespace CureWatch.Fuzz.Targets;

/// <summary>What ships beside the program.</summary>
internal static class Shipped
{
    private static readonly string Folder = Path.Combine(AppContext.BaseDirectory, "config");

    public static byte[] File(params string[] names) => System.IO.File.ReadAllBytes(Path.Combine([Folder, .. names]));

    public static IEnumerable<byte[]> Products =>
        Directory.GetFiles(Path.Combine(Folder, "products")).Order(StringComparer.Ordinal).Select(System.IO.File.ReadAllBytes);

    public static JsonSchema Schema(string name) => JsonSchema.FromText(
        System.Text.Encoding.UTF8.GetString(File("schema", $"{name}.schema.json")), new BuildOptions { SchemaRegistry = new SchemaRegistry() });
}
