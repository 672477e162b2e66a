using System.Collections.Immutable;
using CureWatch.Products;

namespace CureWatch.Service.Settings;

/// <summary>The stages of a product sheet as people write them.</summary>
internal static class StagesOfSheet
{
    public static ImmutableArray<SheetStage> Read(JsonCursor stages)
    {
        var read = new List<SheetStage>();
        var rows = new Dictionary<Stage, IReadOnlyList<RowOfSheet>>();
        foreach (JsonCursor item in stages.Items(least: 1))
        {
            _ = item.Keys(["stage", "rows"], "drivenBy", "ifMissed");
            if (item["stage"].OneOf<Stage>() is { } stage)
            {
                IReadOnlyList<RowOfSheet> ofStage = RowOfSheet.ReadAll(item["rows"], stage);
                if (!rows.TryAdd(stage, ofStage))
                {
                    item["stage"].Refuse("each stage once");
                }

                read.Add(new SheetStage(stage, DrivenBy(item, stage), [.. ofStage.Select(r => r.Row)], WhenMissed(item, stage)));
            }
        }

        StageOrder.Check(rows);
        return [.. read];
    }

    private static Mechanism DrivenBy(JsonCursor item, Stage stage)
    {
        Mechanism usual = stage is Stage.Flash or Stage.LevelBy ? Mechanism.Evaporation : Mechanism.Cure;
        return item["drivenBy"].OneOf<Mechanism>() ?? usual;
    }

    private static IfMissed WhenMissed(JsonCursor item, Stage stage)
    {
        JsonCursor ifMissed = item["ifMissed"];
        if (stage != Stage.LevelBy && !ifMissed.IsAbsent)
        {
            ifMissed.Refuse($"ifMissed in {WireName<Stage>.Of(Stage.LevelBy)} only");
        }

        return ifMissed.OneOf<IfMissed>() ?? IfMissed.Hold;
    }
}
