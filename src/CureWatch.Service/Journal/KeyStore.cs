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

    /// <summary>Whether every key in the folder lasts. One whose making failed half-way, now or before the last start, may not.</summary>
    private bool _isFlushed;

    /// <summary>The key of a job; made now where there is none.</summary>
    /// <exception cref="IOException">It may not last: nothing may be sealed with it.</exception>
    public PersonalKey Of(string job)
    {
        if (!_isFlushed)
        {
            disk.FlushFolder(folder);
            _isFlushed = true;
        }

        return Find(job) is not { } known ? Make(job) : known.IsWhole ? known : throw new IOException($"{known.File} is no key");
    }

    /// <summary>Makes a key and throws it away.</summary>
    /// <exception cref="IOException">No key can be made.</exception>
    public void Try()
    {
        disk.Delete(PathOf(TryName));
        DurableFile.Create(disk, PathOf(TryName), RandomNumberGenerator.GetBytes(PersonalKey.Bytes), isSecret: true);
        disk.Delete(PathOf(TryName));
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
        _known.Add(job, known);
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

    private string PathOf(string job) => Path.Combine(folder, $"job-{job}{Ending}");
}
