using System.Text.Json;
using CureWatch.Service.Commands;
using CureWatch.Warnings;

namespace CureWatch.Service.Api;

/// <summary>A warning as JSON, with what to do.</summary>
internal static class WarningJson
{
    /// <summary>Writes into an object that is open.</summary>
    public static void Write(Utf8JsonWriter json, int number, Warning warning)
    {
        AlarmRule rule = AlarmRule.Of(warning.Subject.Kind);
        json.WriteNumber("number", number);
        json.WriteString("job", warning.Subject.Job);
        JobJson.WriteWarning(json, warning);
        json.WriteNumber("priority", rule.Priority);
        json.WriteString("cause", rule.Cause);
        json.WriteString("consequence", rule.Consequence);
        json.WriteString("action", rule.Action);
    }
}
