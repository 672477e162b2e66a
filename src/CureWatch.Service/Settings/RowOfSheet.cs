using CureWatch.Products;
using CureWatch.Units;

namespace CureWatch.Service.Settings;

/// <summary>A row of a product sheet as people write it, and where it stands.</summary>
internal sealed record RowOfSheet(SheetRow Row, JsonCursor Place)
{
    /// <summary>Many more than any sheet has: every row is held against those of the other stages. Source (choice).</summary>
    private const int MostRows = 100;

    private const string Times = "either at, or from and to";

    /// <returns>The rows without a fault.</returns>
    public static IReadOnlyList<RowOfSheet> ReadAll(JsonCursor rows, Stage stage) =>
        [.. rows.Items(1, MostRows).Select(r => Read(r, stage)).OfType<RowOfSheet>()];

    private static RowOfSheet? Read(JsonCursor row, Stage stage)
    {
        _ = row.Keys(["humidityPct"], [.. JsonCursor.DegreesOf("temperature"), "at", "from", "to"]);
        double? temperatureC = row.Celsius("temperature", SheetRanges.ClimateC, isNeeded: true);
        double? humidityPct = row["humidityPct"].Number(SheetRanges.HumidityPct);
        TimeSpan? at = Time(row["at"]), from = Time(row["from"]), to = Time(row["to"]);
        CheckWhichTimes(row, stage);
        if (from > to)
        {
            row["to"].Refuse($"at least from, which is {from!.Value:c}");
        }

        return temperatureC is { } t && humidityPct is { } h && (from ?? at) is { } shorter && (to ?? at) is { } longer
            ? new RowOfSheet(new SheetRow(new Celsius(t), new RelativeHumidity(h), shorter, longer), row)
            : null;
    }

    private static TimeSpan? Time(JsonCursor place) => place.Duration(SheetRanges.ShortestTime, SheetRanges.LongestTime);

    /// <summary>In flash, from and to are two milestones; in any other stage they are one milestone's range.</summary>
    private static void CheckWhichTimes(JsonCursor row, Stage stage)
    {
        JsonCursor at = row["at"], from = row["from"], to = row["to"];
        if (stage == Stage.Flash && !at.IsAbsent)
        {
            at.Refuse("from and to, in flash");
        }
        else if (!at.IsAbsent && !(from.IsAbsent && to.IsAbsent))
        {
            at.Refuse(Times);
        }
        else if (at.IsAbsent && (from.IsAbsent || to.IsAbsent))
        {
            JsonCursor missing = from.IsAbsent ? from : to;
            missing.Refuse(stage == Stage.Flash ? "from and to, in flash" : Times);
        }
    }
}
