using System.Text.Json;
using CureWatch.Warnings;
using CureWatch.Words;

namespace CureWatch.Service.Documents;

/// <summary>A warning as JSON, with what to do.</summary>
internal static class WarningJson
{
    /// <summary>Writes into an object that is open.</summary>
    public static void Write(Utf8JsonWriter json, int number, Warning warning)
    {
        json.WriteNumber("number", number);
        json.WriteString("job", warning.Subject.Job);
        JobJson.WriteWarning(json, warning);
        AlarmRule rule = AlarmRule.Of(warning.Subject.Kind);
        WriteRule(json, rule, warning.Detail ?? rule.Cause);
    }

    /// <summary>Writes what people are told of a kind into an object that is open.</summary>
    /// <param name="json">The object.</param>
    /// <param name="rule">The kind's rule.</param>
    /// <param name="cause">What brought it about this time, which may say more than the rule.</param>
    public static void WriteRule(Utf8JsonWriter json, AlarmRule rule, Sentence cause)
    {
        json.WriteNumber("priority", rule.Priority);
        json.WriteString("cause", cause);
        json.WriteString("consequence", rule.Consequence);
        json.WriteString("action", rule.Action);
    }
}
