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

    private readonly ConcurrentDictionary<string, PersonalKey> _known = new(StringComparer.Ordinal);

    /// <summary>The jobs of which something was opened here, and those of which something could not be.</summary>
    private readonly ConcurrentDictionary<string, byte> _opened = new(StringComparer.Ordinal), _unopened = new(StringComparer.Ordinal);

    /// <summary>The jobs whose key was asked for last and could not be had.</summary>
    private readonly SortedSet<string> _failed = new(StringComparer.Ordinal);

    /// <summary>Whether every key in the folder lasts. One whose making failed half-way, now or before the last start, may not.</summary>
    private bool _isFlushed;

    /// <summary>Jobs of which something was sealed with a key that is not here any more.</summary>
    public IReadOnlyCollection<string> Unopened => [.. _unopened.Keys.Order(StringComparer.Ordinal)];

    /// <summary>The files of keys that are there and have opened nothing of all that was to be opened.</summary>
    public IEnumerable<string> Misfits => Unopened.Where(IsMisfit).Select(Find).OfType<PersonalKey>().Select(k => k.File);

    /// <returns>The file of a key that is not the one it was: it opens nothing, or is another than this store has read; null where all are.</returns>
    public string? Doubtful() =>
        Misfits.FirstOrDefault() ?? _known.FirstOrDefault(k => disk.Exists(k.Value.File) && !k.Value.IsOf(DurableFile.Read(disk, k.Value.File))).Value?.File;

    /// <returns>What was sealed; null where the key was destroyed, or is not the one it was sealed with.</returns>
    public byte[]? Open(string job, string seal)
    {
        byte[]? clear = Find(job)?.Open(seal);
        (clear is null ? _unopened : _opened)[job] = 0;
        return clear;
    }

    /// <summary>The key of a job; made now where there is none.</summary>
    /// <exception cref="IOException">It may not last: nothing may be sealed with it.</exception>
    public PersonalKey Of(string job)
    {
        _failed.Add(job);
        if (!_isFlushed)
        {
            disk.FlushFolder(folder);
            _isFlushed = true;
        }

        PersonalKey key = Find(job) ?? Make(job);
        if (WrongOf(job, key) is { } wrong)
        {
            throw wrong;
        }

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
        _failed.RemoveWhere(job => Find(job) is not { } key || WrongOf(job, key) is null);
        if (_failed.Min is { } job && Find(job) is { } key)
        {
            throw WrongOf(job, key)!;
        }
    }

    /// <returns>The key, or null where there is none, or no longer.</returns>
    public PersonalKey? Find(string job)
    {
        if (_known.TryGetValue(job, out PersonalKey? known))
        {
            return known;
        }

        string path = PathOf(job);
        if (!disk.Exists(path))
        {
            return null;
        }

        known = new PersonalKey(DurableFile.Read(disk, path), path);
        if (known.IsWhole)
        {
            _known[job] = known; // another is read again: a backup may have the right one
        }

        return known;
    }

    private PersonalKey Make(string job)
    {
        byte[] secret = RandomNumberGenerator.GetBytes(PersonalKey.Bytes);
        _isFlushed = false;
        DurableFile.Create(disk, PathOf(job), secret, isSecret: true);
        _isFlushed = true;
        var key = new PersonalKey(secret, PathOf(job));
        (_known[job], _opened[job]) = (key, 0); // what it seals, it opens
        return key;
    }

    private bool IsMisfit(string job) => _unopened.ContainsKey(job) && !_opened.ContainsKey(job);

    private IOException? WrongOf(string job, PersonalKey key) =>
        !key.IsWhole ? new IOException($"{key.File} is no key") : IsMisfit(job) ? new IOException($"{key.File} is not the key it was") : null;

    private string PathOf(string job) => Path.Combine(folder, $"job-{job}{Ending}");
}
