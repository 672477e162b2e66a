using System.Collections.Immutable;
using System.Text.Json;
using CureWatch.Bays;
using CureWatch.Planning;
using CureWatch.Service.Settings;

namespace CureWatch.Service.Documents;

/// <summary>What is to be done next on a car, and what is to be done then. Writes into an object that is open.</summary>
internal static class NextJson
{
    public static void Write(Utf8JsonWriter json, ImmutableArray<ToldAct> acts)
    {
        Write(json, "next", acts.Length > 0 ? acts[0] : null);
        Write(json, "then", acts.Length > 1 ? acts[1] : null);
    }

    /// <summary>What to take care of where product is handled or a lamp was on, beside the suggestion to do so.</summary>
    public static IEnumerable<string> CautionsOf(ToldAct told) =>
        (told.Act.LetCool ? [Cautions.Lamp] : Enumerable.Empty<string>())
            .Concat(told.Act.Kind is ActKind.Apply or ActKind.ReWet ? Cautions.Of(told.Sheet) : []);

    private static void Write(Utf8JsonWriter json, string name, ToldAct? told)
    {
        if (told is not { Act: var act })
        {
            json.WriteNull(name);
            return;
        }

        json.WriteStartObject(name);
        json.WriteString("act", WireName<ActKind>.Of(act.Kind));
        json.WriteString("text", told.Text);
        json.WriteString("surface", act.Surface.Id);
        json.WriteNumber("layer", act.Layer);
        json.WriteWhole("section", act.Section);
        json.WriteString("product", act.Surface.SheetOf(act.Layer).Product);
        json.WriteInstant("from", act.From);
        json.WriteInstant("by", act.By);
        json.WriteBoolean("late", act.IsLate);
        json.WriteBoolean("judgeByEye", act.JudgeByEye);
        json.WriteBoolean("letCool", act.LetCool);
        json.WriteTexts("against", told.Against.Select(r => r.Text));
        json.WriteTexts("cautions", CautionsOf(told));
        json.WriteEndObject();
    }
}
