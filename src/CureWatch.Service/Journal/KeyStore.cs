using System.Security.Cryptography;
using CureWatch.Service.Disk;

namespace CureWatch.Service.Journal;

/// <summary>
/// The keys that seal what names a person: one a job, each a file of its own. A key is on disk before anything sealed with it; destroying
/// the file erases what it sealed, and the journal stays whole.
/// </summary>
/// <remarks>One thread makes keys; there is one writer.</remarks>
internal sealed class KeyStore(IDisk disk, string folder)
{
    /// <summary>Names the key of what people say that is about no car. No job may be called so.</summary>
    public const string OfNoJob = "jobs";

    private const string Ending = ".key";

    /// <summary>No id of a job.</summary>
    private const string TryName = "";

    private readonly Dictionary<string, PersonalKey> _known = new(StringComparer.Ordinal);

    /// <summary>The jobs whose key was asked for last and could not be had.</summary>
    private readonly SortedSet<string> _failed = new(StringComparer.Ordinal);

    /// <summary>Whether every key in the folder lasts. One whose making failed half-way, now or before the last start, may not.</summary>
    private bool _isFlushed;

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
        if (!key.IsWhole)
        {
            throw NoKey(key);
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
        _failed.RemoveWhere(job => Find(job) is not { IsWhole: false });
        if (_failed.Min is { } job && Find(job) is { } key)
        {
            throw NoKey(key);
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
            _known.Add(job, known); // another is read again: a backup may have the right one
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
        _known.Add(job, key);
        return key;
    }

    private static IOException NoKey(PersonalKey known) => new($"{known.File} is no key");

    private string PathOf(string job) => Path.Combine(folder, $"job-{job}{Ending}");
}
