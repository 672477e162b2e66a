using CureWatch.Service.Settings;

namespace CureWatch.Service.Api;

/// <summary>What people say when a car leaves.</summary>
internal static class Departure
{
    private const int LongestText = 200;

    public static (string? By, string? Despite) Read(JsonCursor top)
    {
        _ = top.Keys([], "by", "despite");
        return (top["by"].Text(LongestText), top["despite"].Text(LongestText));
    }
}
