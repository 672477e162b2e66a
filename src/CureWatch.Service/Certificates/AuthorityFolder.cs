using System.Security.Cryptography;
using CureWatch.Service.Disk;

namespace CureWatch.Service.Certificates;

/// <summary>
/// Where the shop's own authority is kept, readable by its owner alone. It is in no backup: whoever gets hold of one must not be able to pass for the
/// shop; after a restore a new one is made, which the phones install again.
/// </summary>
internal sealed class AuthorityFolder(IDisk disk, string data)
{
    public const string Name = "certificates";

    private const string FileName = "authority.p12";

    private string Folder => Path.Combine(data, Name);

    private string Kept => Path.Combine(Folder, FileName);

    /// <summary>The authority that the phones of the shop trust, made anew where there is none that vouches for these names, and for long enough.</summary>
    /// <param name="names">By which the board is opened.</param>
    /// <param name="now">The present.</param>
    /// <exception cref="InvalidDataException">The file is no authority.</exception>
    public ShopAuthority For(IReadOnlyList<ServedName> names, DateTimeOffset now)
    {
        if (Read() is { } kept)
        {
            using var tried = kept.Issue(names, now);
            if (kept.Until - now.UtcDateTime > ShopAuthority.OfAServer && kept.VouchesFor(tried, now))
            {
                return kept;
            }

            kept.Dispose();
            disk.Delete(Kept);
        }

        var made = ShopAuthority.New(names, now);
        DurableFile.MakeFolder(disk, Folder);
        DurableFile.Create(disk, Kept, made.Secret, isSecret: true);
        return made;
    }

    private ShopAuthority? Read()
    {
        if (!disk.Exists(Kept))
        {
            return null;
        }

        try
        {
            return ShopAuthority.Kept(DurableFile.Read(disk, Kept));
        }
        catch (CryptographicException e)
        {
            throw new InvalidDataException(
                $"{Kept} is no authority of this program ({e.Message}). Move it away and start again: a new one is made, which the phones install.", e);
        }
    }
}
