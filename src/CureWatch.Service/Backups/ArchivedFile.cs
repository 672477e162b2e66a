namespace CureWatch.Service.Backups;

/// <summary>A file in a backup, as its manifest tells it.</summary>
/// <param name="Name">Its path below the data folder, with slashes.</param>
/// <param name="Bytes">How long it is.</param>
/// <param name="Sha256">SHA-256 of its content, in lower-case hexadecimal.</param>
internal sealed record ArchivedFile(string Name, long Bytes, string Sha256)
{
    /// <summary>What it is for.</summary>
    public string Role => ArchiveNames.RoleOf(Name)!;
}
