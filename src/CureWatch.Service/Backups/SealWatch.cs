using System.Collections.Immutable;
using System.Globalization;
using CureWatch.Service.Journal;
using CureWatch.Service.Pump;
using CureWatch.Service.Settings;
using CureWatch.Warnings;

namespace CureWatch.Service.Backups;

/// <summary>Tells which full segments of the journal are not what was sealed any more, and which backup has them, until they are sound again.</summary>
/// <param name="data">The data folder.</param>
/// <param name="backup">How nightly backups are made; null where none are.</param>
/// <param name="latest">The newest state, for the shop's name.</param>
/// <param name="troubles">Where it is told.</param>
/// <param name="rest">How long it waits after a piece was read.</param>
/// <param name="log">Where it is told what was found.</param>
internal sealed class SealWatch(
    DataFolder data, BackupSettings? backup, Latest latest, Troubles troubles, Func<int, CancellationToken, Task> rest, ILogger<SealWatch> log)
{
    /// <summary>So many are named, of others it is said how many there are.</summary>
    private const int Named = 3;

    private ImmutableSortedDictionary<long, SealedSegment> _damaged = ImmutableSortedDictionary<long, SealedSegment>.Empty;

    /// <summary>Whether any is damaged, as far as was looked.</summary>
    public bool HasDamage => !_damaged.IsEmpty;

    /// <summary>Looks at all of them.</summary>
    public Task LookAsync(CancellationToken cancelled) => LookAsync(null, cancelled);

    /// <summary>Looks whether those that were damaged are sound again.</summary>
    public Task LookAgainAsync(CancellationToken cancelled) => LookAsync(_damaged.Keys.ToImmutableHashSet(), cancelled);

    private async Task LookAsync(ImmutableHashSet<long>? only, CancellationToken cancelled)
    {
        var met = new HashSet<long>();
        await foreach (SealedSegment looked in new SealedSegments(data.Disk, data.Journal, rest).LookAsync(only, cancelled).ConfigureAwait(false))
        {
            met.Add(looked.Segment.First);
            Note(looked);
        }

        _damaged = _damaged.RemoveRange(_damaged.Keys.Where(first => !met.Contains(first))); // retired, or put right together with what it stood for
        Tell();
    }

    private void Note(SealedSegment looked)
    {
        SealedSegment? before = _damaged.GetValueOrDefault(looked.Segment.First);
        if (looked.Wrong == before?.Wrong)
        {
            return;
        }

        if (looked.Wrong is { } wrong)
        {
            Log.SegmentDamaged(log, looked.Segment.Path, wrong);
            _damaged = _damaged.SetItem(looked.Segment.First, looked);
        }
        else
        {
            Log.SegmentSound(log, looked.Segment.Path);
            _damaged = _damaged.Remove(looked.Segment.First);
        }

        Tell();
    }

    private void Tell()
    {
        if (_damaged.IsEmpty)
        {
            troubles.Clear(WarningKind.StorageDamage);
            return;
        }

        string others = _damaged.Count > Named ? $"; and {_damaged.Count - Named} more" : "";
        troubles.Raise(WarningKind.StorageDamage, string.Join("; ", _damaged.Values.Take(Named).Select(Says)) + others);
    }

    private string Says(SealedSegment damaged) => string.Create(
        CultureInfo.InvariantCulture,
        $"{damaged.Segment.Path} (entries {damaged.Segment.First} to {damaged.Last}): {damaged.Wrong}; {(HolderOf(damaged) is { } holder ? $"{holder} has it whole" : "no nightly backup here has it")}");

    /// <summary>A backup is only made of a journal that was read and found whole.</summary>
    private string? HolderOf(SealedSegment damaged)
    {
        if (backup is null || latest.Register.Shop is not { } shop)
        {
            return null;
        }

        try
        {
            return new BackupShelf(data.Disk, backup.Folder, shop.Plan.Shop).All().FirstOrDefault(b =>
                Archive.ManifestOf(data.Disk, b.Path) is { } manifest
                && manifest.Journal.First <= damaged.Segment.First && manifest.Journal.Last >= damaged.Last
                && manifest.Files.Any(f => f.Name == SourceFile.NameOf(data.Path, damaged.Segment.Path)))?.Path;
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException or ArgumentException)
        {
            return null;
        }
    }
}
