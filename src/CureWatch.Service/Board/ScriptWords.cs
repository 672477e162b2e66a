using System.Text.Encodings.Web;
using System.Text.Json;
using System.Text.RegularExpressions;
using CureWatch.Service.Tongues;

namespace CureWatch.Service.Board;

/// <summary>What the pages' scripts say: they ask for it by its English, and a page carries what stands for that in its language.</summary>
internal static partial class ScriptWords
{
    /// <summary>As it stands in an attribute, which the renderer encodes.</summary>
    private static readonly JsonSerializerOptions Plain = new() { Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping };

    /// <summary>Whatever any script asks for.</summary>
    public static IReadOnlyList<string> Phrases { get; } =
        [.. BoardAssets.Scripts.SelectMany(s => Asked().Matches(s)).Select(m => m.Groups[1].Value).Distinct().Order(StringComparer.Ordinal)];

    /// <returns>The phrases as a JSON object; null where they are what the scripts have in them.</returns>
    public static string? Of(Tongue tongue) =>
        tongue.Language == Language.English ? null : JsonSerializer.Serialize(Phrases.ToDictionary(p => p, tongue.Phrase), Plain);

    [GeneratedRegex(@"spoken\(\s*""([^""]+)""")]
    private static partial Regex Asked();
}
