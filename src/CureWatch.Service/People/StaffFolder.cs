using System.Globalization;
using System.Security.Cryptography;
using System.Text.Json;
using CureWatch.Service.Disk;

namespace CureWatch.Service.People;

/// <summary>
/// Where the staff list is kept: numbered files of which the newest counts, readable by their owner alone. They are in no backup: whoever gets hold of
/// one must not get PINs to guess at; after a restore the next start prints a set-up code again.
/// </summary>
internal sealed class StaffFolder(IDisk disk, string data)
{
    public const string Name = "people";

    private const string Ending = ".json";
    private const string KeyName = "pin.key";
    private const int KeyBytes = 32;
    private const int Digits = 10;

    private string Folder => Path.Combine(data, Name);

    /// <summary>The list as it was written last; nobody where there is none yet.</summary>
    /// <exception cref="InvalidDataException">The newest file is no staff list.</exception>
    public StaffList Read()
    {
        if (Numbers() is not [.., int newest])
        {
            return StaffList.Nobody;
        }

        string path = PathOf(newest);
        try
        {
            return JsonSerializer.Deserialize<StaffList>(DurableFile.Read(disk, path)) is { People.IsDefault: false, SignedIn.IsDefault: false } list
                ? list
                : throw new InvalidDataException(Broken(path));
        }
        catch (JsonException e)
        {
            throw new InvalidDataException(Broken(path), e);
        }
    }

    /// <summary>Writes the list; once this is done the power may go. An older one that cannot be deleted is left: the newest counts.</summary>
    public void Write(StaffList list)
    {
        DurableFile.MakeFolder(disk, Folder);
        IReadOnlyList<int> before = Numbers();
        DurableFile.Create(disk, PathOf(before is [.., int newest] ? newest + 1 : 1), JsonSerializer.SerializeToUtf8Bytes(list), isSecret: true);
        try
        {
            foreach (int old in before)
            {
                disk.Delete(PathOf(old));
            }
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            // The list is written: whoever is told now that it is not would change it twice. The next change tries again.
        }
    }

    /// <summary>The key that PINs are mixed with before they are hashed, made where there is none.</summary>
    public byte[] Key()
    {
        string path = Path.Combine(Folder, KeyName);
        if (!disk.Exists(path))
        {
            DurableFile.MakeFolder(disk, Folder);
            DurableFile.Create(disk, path, RandomNumberGenerator.GetBytes(KeyBytes), isSecret: true);
        }

        return DurableFile.Read(disk, path);
    }

    private static string Broken(string path) => $"{path} is no staff list. Stop the service, move the file away, and start again: a new set-up code is printed.";

    private string PathOf(int number) => Path.Combine(Folder, number.ToString($"D{Digits}", CultureInfo.InvariantCulture) + Ending);

    /// <summary>The numbers of the files, the newest last.</summary>
    private int[] Numbers() => disk.Exists(Folder)
        ? [.. disk.NamesIn(Folder).Where(n => n.EndsWith(Ending, StringComparison.Ordinal))
            .Select(n => int.TryParse(n.AsSpan(0, n.Length - Ending.Length), NumberStyles.None, CultureInfo.InvariantCulture, out int number) ? number : 0)
            .Where(n => n > 0).Order()]
        : [];
}
