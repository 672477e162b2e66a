using System.Globalization;
using CureWatch.Service.Disk;
using CureWatch.Service.Settings;

namespace CureWatch.Service.Backups;

/// <summary>The folder a shop's nightly backups are kept in, beside whatever else is there.</summary>
/// <param name="disk">The disk.</param>
/// <param name="folder">The folder.</param>
/// <param name="shop">The shop, whose id is in the names.</param>
internal sealed class BackupShelf(IDisk disk, string folder, string shop)
{
    private const string Stamp = "yyyyMMdd'T'HHmmss'Z'";
    private const string Ending = ".zip";

    /// <summary>What is to be kept for longer is not let go for want of room [nights]. Source (choice): a year.</summary>
    private const int MostNights = 366;

    private string Prefix => $"curewatch-{shop}-";

    /// <summary>Makes the folder where there is none, and clears away what an end in the middle left.</summary>
    public void Furnish()
    {
        DurableFile.MakeFolder(disk, folder);
        foreach (string name in Names(DurableFile.Unfinished))
        {
            disk.Delete(PathOf(name));
        }
    }

    /// <returns>The name of a backup that is begun now.</returns>
    public string PathOf(DateTimeOffset at) => Path.Combine(folder, $"{Prefix}{at.UtcDateTime.ToString(Stamp, CultureInfo.InvariantCulture)}{Ending}");

    public string PathOf(string name) => Path.Combine(folder, name);

    /// <returns>The name of the archive of a part of the journal.</returns>
    public string PathOf(long first, long last) => Path.Combine(folder, $"{Prefix}journal-{first:D20}-{last:D20}{Ending}");

    /// <returns>The backups with a name from here, which none gets before it was read back; the newest first.</returns>
    public IReadOnlyList<KeptBackup> All() => !disk.Exists(folder)
        ? []
        :
        [
            .. from name in Names(Ending)
               let at = DateTimeOffset.TryParseExact(
                   name[Prefix.Length..^Ending.Length], Stamp, CultureInfo.InvariantCulture, DateTimeStyles.AssumeUniversal, out DateTimeOffset found)
                   ? found
                   : (DateTimeOffset?)null
               where at is not null
               orderby at descending
               select Kept(PathOf(name), at.Value),
        ];

    /// <summary>Deletes the backups that are not to be kept, and of those only what is a backup of this very journal.</summary>
    /// <param name="settings">What is kept.</param>
    /// <param name="zone">Where days begin.</param>
    /// <param name="journal">The id of the journal.</param>
    /// <param name="now">The present: what is of a later time is left alone, and takes nobody's place.</param>
    /// <returns>What was deleted.</returns>
    public IReadOnlyList<KeptBackup> Rotate(BackupSettings settings, TimeZoneInfo zone, string journal, DateTimeOffset now)
    {
        List<KeptBackup> own = [.. All().Where(b => b.At <= now && IsOf(b, journal))];
        IReadOnlySet<DateTimeOffset> kept = Rotation.Kept(own.Select(b => b.At), settings, zone);
        List<KeptBackup> gone = [.. own.Where(b => !kept.Contains(b.At))];
        gone.ForEach(b => disk.Delete(b.Path));
        return gone;
    }

    /// <summary>
    /// Deletes, for want of room, backups of this very journal that would go in the nights to come, in that order. Never the newest; and none where all of
    /// them would not be enough: then something else fills the disk.
    /// </summary>
    /// <param name="settings">What is kept.</param>
    /// <param name="zone">Where days begin.</param>
    /// <param name="journal">The id of the journal.</param>
    /// <param name="now">The present.</param>
    /// <param name="lacking">How much room is needed [bytes].</param>
    /// <returns>What was deleted.</returns>
    public IReadOnlyList<KeptBackup> LetGo(BackupSettings settings, TimeZoneInfo zone, string journal, DateTimeOffset now, long lacking)
    {
        List<KeptBackup> own = [.. All().Where(b => b.At <= now && IsOf(b, journal))];
        List<DateTimeOffset> nights = [.. own.Select(b => b.At)];
        List<KeptBackup> gone = [];
        for (int night = 0; night < MostNights && own.Count > 1 && gone.Sum(b => b.Bytes) < lacking; night++)
        {
            nights.Add(now.AddDays(night));
            IReadOnlySet<DateTimeOffset> kept = Rotation.Kept(nights, settings, zone);
            gone.AddRange(own.Skip(1).Reverse().Where(b => !kept.Contains(b.At)).Except(gone).Take(1));
        }

        if (gone.Sum(b => b.Bytes) < lacking)
        {
            return [];
        }

        gone.ForEach(b => disk.Delete(b.Path));
        return gone;
    }

    private IEnumerable<string> Names(string ending) => disk.NamesIn(folder).Where(n =>
        n.Length > Prefix.Length + ending.Length && n.StartsWith(Prefix, StringComparison.Ordinal) && n.EndsWith(ending, StringComparison.Ordinal));

    private KeptBackup Kept(string path, DateTimeOffset at)
    {
        using IDiskFile file = disk.Open(path, FileUse.Read);
        return new KeptBackup(path, at, file.Length);
    }

    /// <summary>Whether a backup can be opened and is of a journal; one that cannot is for a person to look at.</summary>
    private bool IsOf(KeptBackup backup, string journal) => Archive.ManifestOf(disk, backup.Path)?.Journal.Id == journal;
}

/// <summary>A backup that is kept.</summary>
/// <param name="Path">The file.</param>
/// <param name="At">When it was begun.</param>
/// <param name="Bytes">How long it is.</param>
internal sealed record KeptBackup(string Path, DateTimeOffset At, long Bytes);
