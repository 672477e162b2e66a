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
    private const string Ending = ".key";

    private readonly Dictionary<string, PersonalKey> _known = new(StringComparer.Ordinal);

    /// <summary>The key of a job; made now where there is none.</summary>
    public PersonalKey Of(string job) => Find(job) ?? Make(job);

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
        DurableFile.Create(disk, PathOf(job), secret, isSecret: true);
        var key = new PersonalKey(secret, PathOf(job));
        _known.Add(job, key);
        return key;
    }

    private string PathOf(string job) => Path.Combine(folder, $"job-{job}{Ending}");
}
