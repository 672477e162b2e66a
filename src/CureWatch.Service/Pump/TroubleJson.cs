using System.Text.Json;
using CureWatch.Service.Documents;
using CureWatch.Service.Settings;
using CureWatch.Warnings;

namespace CureWatch.Service.Pump;

/// <summary>A trouble of the program itself as JSON, with what to do.</summary>
internal static class TroubleJson
{
    /// <summary>Writes all that stand into an object that is open.</summary>
    public static void WriteAll(Utf8JsonWriter json, IEnumerable<Trouble> troubles) =>
        json.WriteArray("troubles", troubles, t => Write(json, t));

    /// <summary>Writes into an object that is open.</summary>
    public static void Write(Utf8JsonWriter json, Trouble trouble)
    {
        json.WriteString("kind", WireName<WarningKind>.Of(trouble.Kind));
        json.WriteInstant("raisedAt", trouble.Since);
        WarningJson.WriteRule(json, trouble.Rule, trouble.Cause);
    }
}
