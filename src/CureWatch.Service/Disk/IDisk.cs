namespace CureWatch.Service.Disk;

/// <summary>
/// Where everything is kept: paths and bytes in; bytes that stay, or an <see cref="IOException"/> (where it is forbidden, an
/// <see cref="UnauthorizedAccessException"/>). A name made, changed or removed in a folder lasts once that folder is flushed, a file's bytes once the
/// file is.
/// </summary>
internal interface IDisk
{
    IDiskFile Open(string path, FileUse use);

    /// <summary>Whether there is a file or a folder of that name that may be looked at.</summary>
    bool Exists(string path);

    /// <summary>The names of the files and folders in a folder.</summary>
    IReadOnlyList<string> NamesIn(string folder);

    /// <summary>Makes a folder where there is none; the one it is in has to be there.</summary>
    void MakeFolder(string path);

    /// <summary>Gives a file another name, in one step; nothing may have that name.</summary>
    void Move(string from, string to);

    /// <summary>Removes a file, if it is there.</summary>
    void Delete(string path);

    /// <summary>Makes the names in a folder last.</summary>
    void FlushFolder(string folder);

    /// <summary>How much more may be written [bytes].</summary>
    long FreeBytes(string folder);
}
