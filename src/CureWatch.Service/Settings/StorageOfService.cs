using System.Globalization;
using System.Text.RegularExpressions;

namespace CureWatch.Service.Settings;

/// <summary>What is kept beside the data folder, as people write it. Every number here is a choice.</summary>
internal static partial class StorageOfService
{
    /// <summary>Before the shop opens, and at an hour that no change of the clocks skips in Europe or America.</summary>
    private static readonly TimeOnly UsualAt = new(3, 30);

    private const int UsualDaily = 7;
    private const int UsualWeekly = 4;
    private const int UsualMonthly = 12;
    private const int MostKept = 1000;

    /// <summary>No path is longer on the systems this runs on.</summary>
    private const int LongestPath = 4096;

    private static readonly TimeSpan ShortestKept = TimeSpan.FromDays(30);
    private static readonly TimeSpan LongestKept = TimeSpan.FromDays(9999);

    public static StorageSettings Read(JsonCursor storage)
    {
        _ = storage.Keys([], "backup", "keepJournal");
        JsonCursor keep = storage["keepJournal"].OrNothing;
        BackupSettings? backup = Backup(storage["backup"].OrNothing);
        TimeSpan? keepJournal = keep.Duration(ShortestKept, LongestKept);
        if (!keep.IsAbsent && backup is null)
        {
            keep.Refuse("null where storage.backup is null: no part of the journal goes before a verified backup has it");
        }

        return new StorageSettings(backup, keepJournal);
    }

    private static BackupSettings? Backup(JsonCursor backup)
    {
        if (!backup.Keys(["folder"], "at", "daily", "weekly", "monthly"))
        {
            return null;
        }

        const string Hour = "a time of day hh:mm";
        string? at = backup["at"].String(text => Time().IsMatch(text), Hour);
        return new BackupSettings(
            backup["folder"].Text(LongestPath) ?? "",
            at is null ? UsualAt : TimeOnly.ParseExact(at, "HH:mm", CultureInfo.InvariantCulture),
            backup["daily"].Integer(0, MostKept) ?? UsualDaily,
            backup["weekly"].Integer(0, MostKept) ?? UsualWeekly,
            backup["monthly"].Integer(0, MostKept) ?? UsualMonthly);
    }

    [GeneratedRegex(@"\A([01][0-9]|2[0-3]):[0-5][0-9]\z")]
    private static partial Regex Time();
}
