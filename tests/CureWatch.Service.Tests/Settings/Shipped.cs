using Json.Schema;

namespace CureWatch.Service.Tests.Settings;

/// <summary>The configuration that ships beside the program.</summary>
internal static class Shipped
{
    public static string Folder { get; } = Path.Combine(AppContext.BaseDirectory, "config");

    public static string SchemaFile(string name) => Path.Combine(Folder, "schema", $"{name}.schema.json");

    public static JsonSchema Schema(string name) => JsonSchema.FromText(File.ReadAllText(SchemaFile(name)));
}
