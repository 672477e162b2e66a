using System.Text.Json;
using CureWatch.Bays;
using CureWatch.Learning;
using CureWatch.Service.Settings;

namespace CureWatch.Service.Documents;

/// <summary>What was learnt, the same over HTTP and in a replay. Each writes into an object that is open.</summary>
internal static class LearningJson
{
    public const string FarOff = "far-off";
    public const string Unwatched = "unwatched";

    public static void Write(Utf8JsonWriter json, LearningReport report)
    {
        json.WriteString("product", report.Product);
        json.WriteNumber("revision", report.Revision);
        json.WriteString("bay", report.Bay);
        json.WriteString("stage", WireName<TaughtStage>.Of(report.Stage));
        WriteEffect(json, report.Effect);
        json.WriteRounded("applied", report.Applied);
        json.WriteBoolean("disagrees", report.Disagrees);
        json.WriteNumber("taps", report.Effect?.Here ?? 0);
        json.WriteArray("ignored", new[] { (Reason: FarOff, Count: report.FarOff), (Reason: Unwatched, Count: report.Unwatched) }.Where(i => i.Count > 0), i =>
        {
            json.WriteString("reason", i.Reason);
            json.WriteNumber("count", i.Count);
        });
        json.WriteInstant("since", report.Since);
        json.WriteString("text", LearningWords.Of(report));
    }

    /// <summary>What a coat was begun with; null where that was the sheet alone.</summary>
    public static void WriteBegunWith(Utf8JsonWriter json, Learnt learnt)
    {
        json.WriteStartObject("learnt");
        WriteOne(json, "flash", learnt.Flash);
        WriteOne(json, "keepDry", learnt.KeepDry);
        json.WriteEndObject();
    }

    private static void WriteOne(Utf8JsonWriter json, string name, LearntEffect? effect)
    {
        if (effect is null)
        {
            json.WriteNull(name);
            return;
        }

        json.WriteStartObject(name);
        WriteEffect(json, effect);
        json.WriteNumber("taps", effect.Here);
        json.WriteEndObject();
    }

    private static void WriteEffect(Utf8JsonWriter json, LearntEffect? effect)
    {
        json.WriteRounded("factor", effect?.Factor);
        json.WriteRounded("low", effect?.Low);
        json.WriteRounded("high", effect?.High);
    }
}
