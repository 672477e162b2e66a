using System.Collections.Frozen;
using System.Security.Cryptography;
using System.Text;
using CureWatch.Service.People;

namespace CureWatch.Service.Board;

/// <summary>Style sheets, scripts, icon and pictures, compiled in: they are there from a checkout, from a published folder and in one file alike.</summary>
internal static class BoardAssets
{
    private const string Worker = "worker.js";

    private static readonly FrozenDictionary<string, (string Type, byte[] Bytes)> Files = new[]
    {
        Load("board.css", "text/css; charset=utf-8"),
        Load("phone.css", "text/css; charset=utf-8"),
        Load("wall.css", "text/css; charset=utf-8"),
        Load("wall-set.css", "text/css; charset=utf-8"),
        Load("away.js", "text/javascript; charset=utf-8"),
        Load("board.js", "text/javascript; charset=utf-8"),
        Load("phone.js", "text/javascript; charset=utf-8"),
        Load("queue.js", "text/javascript; charset=utf-8"),
        Load("wipes.js", "text/javascript; charset=utf-8"),
        Load("clock.js", "text/javascript; charset=utf-8"),
        Load("newer.js", "text/javascript; charset=utf-8"),
        Load("again.js", "text/javascript; charset=utf-8"),
        Load("call.js", "text/javascript; charset=utf-8"),
        Load("photo.js", "text/javascript; charset=utf-8"),
        Load("wall.js", "text/javascript; charset=utf-8"),
        Load("pair.js", "text/javascript; charset=utf-8"),
        Load("handbook.css", "text/css; charset=utf-8"),
        Load("tongue.js", "text/javascript; charset=utf-8"),
        Load("aside.js", "text/javascript; charset=utf-8"),
        Load(Worker, "text/javascript; charset=utf-8"),
        Load("icon.svg", "image/svg+xml"),
    }.Concat(Pictures()).ToFrozenDictionary(f => f.Name, f => (f.Type, f.Bytes));

    /// <summary>One for all of them: a script names the others beside it, and none may be older than the page.</summary>
    private static readonly string Version = Convert.ToHexStringLower(
        SHA256.HashData([.. Files.OrderBy(f => f.Key, StringComparer.Ordinal).SelectMany(f => SHA256.HashData(f.Value.Bytes))]))[..12];

    /// <summary>The address of a file; with another content it is another address, so that it may be kept for ever.</summary>
    public static string Link(string name) => Files.ContainsKey(name) ? $"/assets/{Version}/{name}" : throw new ArgumentException($"No asset '{name}'.", nameof(name));

    /// <summary>The scripts, as they are served.</summary>
    public static IEnumerable<string> Scripts => Files.Where(f => f.Key.EndsWith(".js", StringComparison.Ordinal)).Select(f => Encoding.UTF8.GetString(f.Value.Bytes));

    public static void Map(IEndpointRouteBuilder app)
    {
        app.MapGet("/assets/{version}/{name}", Get).ExcludeFromDescription().LetsEverybody();

        // A worker answers for what is below its own address, and its browser asks there whether it is still the same.
        app.MapGet($"/{Worker}", () => Results.Bytes(Files[Worker].Bytes, Files[Worker].Type)).ExcludeFromDescription().LetsEverybody();
    }

    private static IResult Get(string version, string name, HttpContext context)
    {
        if (!Files.TryGetValue(name, out (string Type, byte[] Bytes) file) || version != Version)
        {
            return Results.NotFound();
        }

        context.Response.Headers.CacheControl = "public, max-age=31536000, immutable";
        return Results.Bytes(file.Bytes, file.Type);
    }

    private static IEnumerable<(string Name, string Type, byte[] Bytes)> Pictures() => typeof(BoardAssets).Assembly.GetManifestResourceNames()
        .Where(n => n.EndsWith(".png", StringComparison.Ordinal)).Select(n => Load(n, "image/png"));

    private static (string Name, string Type, byte[] Bytes) Load(string name, string type)
    {
        using Stream stream = typeof(BoardAssets).Assembly.GetManifestResourceStream(name)!;
        byte[] bytes = new byte[stream.Length];
        stream.ReadExactly(bytes);
        return (name, type, bytes);
    }
}
