using System.Text.RegularExpressions;
using CureWatch.Service.Journal;

namespace CureWatch.Service.Backups;

/// <summary>
/// The only names a backup may hold. No list of what is forbidden would be long enough: a name that leads elsewhere, another case, a folder and
/// a device are none of these.
/// </summary>
internal static partial class ArchiveNames
{
    /// <summary>What tells the other entries; the one that no data folder holds.</summary>
    public const string Manifest = "manifest.json";

    public const string Allowed =
        "manifest.json, demo, journal/<0 and 19 digits>.journal, journal/<0 and 19 digits>.retired, keys/job-<id>.key, photos/<64 hexadecimal digits>.jpg, snapshots/<0 and 19 digits>.snapshot, spelled so, each once";

    /// <summary>A key has 32 bytes and a mark a few words: what is longer is neither.</summary>
    private const int MostBytesOfAMark = 4096;
    private const int MostBytesOfAList = 64 << 20;
    private const int MostBytesOfAPhoto = 16 << 20;

    /// <summary>A segment and a snapshot are read into memory as one. Source (choice): thirty times the usual segment.</summary>
    private const long MostBytesOfAFile = 1L << 30;

    /// <returns>How long a file of that name is at most.</returns>
    public static long MostBytesOf(string name) => RoleOf(name) switch
    {
        "key" or "mark" => MostBytesOfAMark,
        "photo" => MostBytesOfAPhoto,
        "journal" or "snapshot" => MostBytesOfAFile,
        _ => MostBytesOfAList,
    };

    /// <returns>What a file is for; null where no backup holds one of that name.</returns>
    public static string? RoleOf(string name) =>
        name == DataFolder.DemoMark ? "mark"
        : Retired().IsMatch(name) ? "retirement"
        : Segment().IsMatch(name) ? "journal"
        : Key().IsMatch(name) ? "key"
        : Snapshot().IsMatch(name) ? "snapshot"
        : Photo().IsMatch(name) ? "photo"
        : null;

    [GeneratedRegex(@"\Ajournal/0[0-9]{19}\.journal\z")]
    private static partial Regex Segment();

    [GeneratedRegex(@"\Ajournal/0[0-9]{19}\.retired\z")]
    private static partial Regex Retired();

    [GeneratedRegex(@"\Akeys/job-[a-z0-9][a-z0-9-]{0,39}\.key\z")]
    private static partial Regex Key();

    [GeneratedRegex(@"\Aphotos/[0-9a-f]{64}\.jpg\z")]
    private static partial Regex Photo();

    [GeneratedRegex(@"\Asnapshots/0[0-9]{19}\.snapshot\z")]
    private static partial Regex Snapshot();
}
