using System.Globalization;

namespace CureWatch.Benchmarks.Harness;

/// <summary>An instant as probes write it.</summary>
internal static class Instant
{
    public static string Of(DateTimeOffset at) => at.UtcDateTime.ToString("yyyy-MM-dd'T'HH:mm:ss.ffff'Z'", CultureInfo.InvariantCulture);
}
