using System.Collections.Concurrent;
using System.Security.Cryptography;
using CureWatch.Service.Disk;

namespace CureWatch.Service.Journal;

/// <summary>
/// The keys that seal what names a person: one a job, each a file of its own. A key is on disk before anything sealed with it; destroying
/// the file erases what it sealed, and the journal stays whole.
/// </summary>
/// <remarks>One thread makes keys; there is one writer. Others may ask what is doubtful.</remarks>
internal sealed class KeyStore(IDisk disk, string folder)
{
    /// <summary>Names the key of what people say that is about no car. No job may be called so.</summary>
    public const string OfNoJob = "jobs";

    private const string Ending = ".key";

    /// <summary>No id of a job.</summary>
    private const string TryName = "";

    /// <summary>The keys as they were when this store read or made them; one that is none yet is read again.</summary>
    private readonly ConcurrentDictionary<string, PersonalKey> _known = new(StringComparer.Ordinal);

    /// <summary>The jobs of which something was opened here, and those whose key was deleted and made anew since it was read.</summary>
    private readonly ConcurrentDictionary<string, byte> _opened = new(StringComparer.Ordinal), _renewed = new(StringComparer.Ordinal);

    /// <summary>The jobs of which something could not be opened, each with the last of it: what it is sealed with is the key to be had.</summary>
    private readonly ConcurrentDictionary<string, string> _unopened = new(StringComparer.Ordinal);

    /// <summary>The jobs whose key was asked for last and could not be had.</summary>
    private readonly SortedSet<string> _failed = new(StringComparer.Ordinal);

    /// <summary>Whether every key in the folder lasts. One whose making failed half-way, now or before the last start, may not.</summary>
    private bool _isFlushed;

    /// <summary>What was found when it was asked first.</summary>
    private int? _lost;

    /// <summary>Where they are.</summary>
    public string Folder => folder;

    /// <summary>Jobs of which something was sealed with a key that is not here any more.</summary>
    public IReadOnlyCollection<string> Unopened => [.. _unopened.Keys.Order(StringComparer.Ordinal)];

    /// <summary>
    /// Of how many jobs the keys are lost, as it was when this was asked first: of several jobs something was to be opened, and not one key is there. Who erases
    /// what names one person leaves the keys of the others.
    /// </summary>
    public int Lost => _lost ??= Unopened.Count(j => j != OfNoJob) is > 1 and var jobs && _opened.IsEmpty && !disk.NamesIn(folder).Any(n => n.EndsWith(Ending, StringComparison.Ordinal))
        ? jobs
        : 0;

    /// <summary>The files of keys that are there and have opened nothing of all that was to be opened: what they seal is not known here, even where they are put back since.</summary>
    public IEnumerable<string> Misfits => Unopened.Where(IsMisfit).Select(OnDisk).OfType<PersonalKey>().Select(k => k.File);

    /// <summary>The files of keys that are there and not the ones they were: they open nothing, or are others than this store has read.</summary>
    public IEnumerable<string> Wrong() =>
        from job in Unopened.Where(IsMisfit).Union(_known.Keys.Order(StringComparer.Ordinal))
        let key = OnDisk(job)
        where key is not null && !IsRight(job, key)
        select key.File;

    /// <returns>The file of a key that does not seal, or no longer, what this store has opened, or the folder of all where they are lost; null where none is.</returns>
    public string? Doubtful() => Misfits.Concat(Wrong()).Concat(Renewed).FirstOrDefault() ?? (Lost > 0 ? folder : null);

    /// <summary>The files of keys that were deleted and made anew since they were read: what they sealed before is known here until a start.</summary>
    public IEnumerable<string> Renewed => _renewed.Keys.Order(StringComparer.Ordinal).Select(PathOf);

    /// <summary>Whether bytes from elsewhere are what a file was that is wrong here. Of one that was made anew nobody here can tell.</summary>
    public bool Fits(string file, byte[] secret) =>
        _known.Keys.Union(_unopened.Keys).FirstOrDefault(job => PathOf(job) == file) is { } found && !_renewed.ContainsKey(found) && IsRight(found, new PersonalKey(secret, file));

    /// <returns>What was sealed; null where the key was destroyed, or is not the one it was sealed with.</returns>
    public byte[]? Open(string job, string seal)
    {
        byte[]? clear = Find(job)?.Open(seal);
        if (clear is null)
        {
            _unopened[job] = seal;
        }
        else
        {
            _opened[job] = 0;
        }

        return clear;
    }

    /// <summary>The key of a job as it is on the disk; made now where there is none.</summary>
    /// <exception cref="IOException">It may not last, or is not the one it was: nothing may be sealed with it.</exception>
    public PersonalKey Of(string job)
    {
        _failed.Add(job);
        if (!_isFlushed)
        {
            disk.FlushFolder(folder);
            _isFlushed = true;
        }

        PersonalKey key = OnDisk(job) ?? Make(job);
        Demand(job, key);
        _known.TryAdd(job, key);
        _failed.Remove(job);
        return key;
    }

    /// <summary>Makes a key and throws it away, and looks again at those that could not be had.</summary>
    /// <exception cref="IOException">No key can be made, or one is none yet.</exception>
    public void Try()
    {
        disk.Delete(PathOf(TryName));
        DurableFile.Create(disk, PathOf(TryName), RandomNumberGenerator.GetBytes(PersonalKey.Bytes), isSecret: true);
        disk.Delete(PathOf(TryName));
        _failed.RemoveWhere(job => OnDisk(job) is not { } key || IsRight(job, key));
        if (_failed.Min is { } job && OnDisk(job) is { } key)
        {
            Demand(job, key);
        }
    }

    /// <returns>The key, or null where there is none, or no longer.</returns>
    public PersonalKey? Find(string job)
    {
        if (_known.TryGetValue(job, out PersonalKey? known))
        {
            return known;
        }

        known = OnDisk(job);
        if (known?.IsWhole == true)
        {
            _known[job] = known; // another is read again: a backup may have the right one
        }

        return known;
    }

    private PersonalKey? OnDisk(string job) => PathOf(job) is var path && disk.Exists(path) ? new PersonalKey(DurableFile.Read(disk, path), path) : null;

    private PersonalKey Make(string job)
    {
        byte[] secret = RandomNumberGenerator.GetBytes(PersonalKey.Bytes);
        if (_known.ContainsKey(job))
        {
            _renewed[job] = 0; // before anybody finds it
        }

        _isFlushed = false;
        DurableFile.Create(disk, PathOf(job), secret, isSecret: true);
        _isFlushed = true;
        var key = new PersonalKey(secret, PathOf(job));
        (_known[job], _opened[job]) = (key, 0); // what it seals, it opens
        return key;
    }

    private bool IsMisfit(string job) => _unopened.ContainsKey(job) && !_opened.ContainsKey(job);

    /// <summary>Whether a key opens what there is of its job; where it was read before, it is the same.</summary>
    private bool IsRight(string job, PersonalKey key) => key.IsWhole
        && (IsMisfit(job) ? key.Open(_unopened[job]) is not null : !_known.TryGetValue(job, out PersonalKey? known) || known.IsSameAs(key));

    private void Demand(string job, PersonalKey key)
    {
        if (!IsRight(job, key))
        {
            throw new IOException(key.IsWhole ? $"{key.File} is not the key it was" : $"{key.File} is no key");
        }
    }

    private string PathOf(string job) => Path.Combine(folder, $"job-{job}{Ending}");
}
