using System.Globalization;
using System.Security.Cryptography;
using System.Security.Cryptography.X509Certificates;
using CureWatch.Service.Disk;

namespace CureWatch.Service.Certificates;

/// <summary>
/// Where the shop's own authority is kept, readable by its owner alone. It is in no backup: whoever gets hold of one must not be able to pass for the
/// shop; after a restore a new one is made, which the phones install again. Where one does not serve any more a newer one stands beside it: a computer
/// that came up once with its clock years ahead goes on with the one the phones know.
/// </summary>
internal sealed class AuthorityFolder(IDisk disk, string data)
{
    public const string Name = "certificates";

    private const string Stem = "authority";
    private const string Ending = ".p12";

    private string Folder => Path.Combine(data, Name);

    /// <summary>The authority that the phones of the shop trust, made anew where there is none that vouches for these names, and for long enough.</summary>
    /// <param name="names">By which the board is opened.</param>
    /// <param name="now">The present.</param>
    /// <exception cref="InvalidDataException">The file is no authority.</exception>
    public ShopAuthority For(IReadOnlyList<ServedName> names, DateTimeOffset now)
    {
        int number = 1;
        for (; disk.Exists(PathOf(number)); number++)
        {
            ShopAuthority kept = Read(PathOf(number));
            if (Serves(kept, names, now))
            {
                return kept;
            }

            kept.Dispose();
        }

        var made = ShopAuthority.New(names, now);
        DurableFile.MakeFolder(disk, Folder);
        DurableFile.Create(disk, PathOf(number), made.Secret, isSecret: true);
        return made;
    }

    /// <summary>A clock that is behind an authority's beginning says nothing against it.</summary>
    private static bool Serves(ShopAuthority kept, IReadOnlyList<ServedName> names, DateTimeOffset now)
    {
        if (kept.Until - now.UtcDateTime <= ShopAuthority.OfAServer)
        {
            return false;
        }

        using X509Certificate2 tried = kept.Issue(names, now);
        return kept.VouchesFor(tried, now > kept.From ? now : kept.From);
    }

    private string PathOf(int number) => Path.Combine(Folder, number == 1 ? $"{Stem}{Ending}" : string.Create(CultureInfo.InvariantCulture, $"{Stem}-{number}{Ending}"));

    private ShopAuthority Read(string path)
    {
        try
        {
            return ShopAuthority.Kept(DurableFile.Read(disk, path));
        }
        catch (CryptographicException e)
        {
            throw new InvalidDataException(
                $"{path} is no authority of this program ({e.Message}). Move it away and start again: a new one is made, which the phones install.", e);
        }
    }
}
