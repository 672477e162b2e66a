using System.Text.RegularExpressions;

namespace CureWatch.Service.Settings;

/// <summary>The ids people give to shops, bays, probes, products, jobs and surfaces.</summary>
internal static partial class Ids
{
    public const string Allowed = "1 to 40 of a-z, 0-9 and '-', not starting with '-', and neither 'jobs' nor 'status'";

    /// <summary><c>jobs</c> and <c>status</c> stand beside the bays in MQTT topics.</summary>
    public static bool Allows(string id) => Form().IsMatch(id) && id is not ("jobs" or "status");

    [GeneratedRegex(@"\A[a-z0-9][a-z0-9-]{0,39}\z")]
    private static partial Regex Form();
}
