using CureWatch.Products;
using CureWatch.Words;

namespace CureWatch.Service.Settings;

/// <summary>The order in which a coat passes its stages, checked at every climate for which a sheet gives both times.</summary>
internal static class StageOrder
{
    public static void Check(IReadOnlyDictionary<Stage, IReadOnlyList<RowOfSheet>> rows)
    {
        CheckPair(rows, Stage.RecoatFrom, Stage.RecoatBy, mayBeEqual: false);
        CheckPair(rows, Stage.KeepDry, Stage.NoWash, mayBeEqual: true);
        CheckPair(rows, Stage.NoWash, Stage.FullCure, mayBeEqual: true);
        if (!rows.ContainsKey(Stage.NoWash))
        {
            CheckPair(rows, Stage.KeepDry, Stage.FullCure, mayBeEqual: true);
        }

        foreach ((RowOfSheet flash, RowOfSheet levelBy) in AtSameClimate(rows, Stage.Flash, Stage.LevelBy))
        {
            if (levelBy.Row.From < flash.Row.From)
            {
                levelBy.Place.Refuse(Times(levelBy.Row), $"at least flash at the same climate, which is from {flash.Row.From:c}");
            }
        }
    }

    private static void CheckPair(IReadOnlyDictionary<Stage, IReadOnlyList<RowOfSheet>> rows, Stage first, Stage second, bool mayBeEqual)
    {
        foreach ((RowOfSheet earlier, RowOfSheet later) in AtSameClimate(rows, first, second))
        {
            bool inOrder = mayBeEqual
                ? later.Row.From >= earlier.Row.From && later.Row.To >= earlier.Row.To
                : later.Row.From > earlier.Row.From && later.Row.To > earlier.Row.To;
            if (!inOrder)
            {
                string limit = WireName<Stage>.Of(first), times = Times(earlier.Row);
                later.Place.Refuse(
                    Times(later.Row),
                    mayBeEqual ? (Sentence)$"at least {limit} at the same climate, which is {times}" : $"above {limit} at the same climate, which is {times}");
            }
        }
    }

    private static IEnumerable<(RowOfSheet First, RowOfSheet Second)> AtSameClimate(
        IReadOnlyDictionary<Stage, IReadOnlyList<RowOfSheet>> rows, Stage first, Stage second) =>
        from a in rows.GetValueOrDefault(first) ?? []
        from b in rows.GetValueOrDefault(second) ?? []
        where a.Row.Temperature == b.Row.Temperature && a.Row.Humidity == b.Row.Humidity
        select (a, b);

    private static string Times(SheetRow row) => row.From == row.To ? $"{row.From:c}" : $"{row.From:c} to {row.To:c}";
}
