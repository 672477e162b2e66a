using System.Runtime.InteropServices;
using Microsoft.Win32.SafeHandles;

namespace CureWatch.Service.Journal;

/// <summary>Files that are still there after the power went.</summary>
internal static partial class DurableFile
{
    /// <summary>What the name of a file ends with until it is whole; a start that was cut off may leave one.</summary>
    public const string Unfinished = ".new";

    /// <summary>Writes a new file; it is whole or not there at all.</summary>
    public static void Create(string path, ReadOnlySpan<byte> bytes, bool isSecret = false)
    {
        string unfinished = path + Unfinished;
        var options = new FileStreamOptions { Mode = FileMode.Create, Access = FileAccess.Write };
        if (isSecret && !OperatingSystem.IsWindows())
        {
            options.UnixCreateMode = UnixFileMode.UserRead | UnixFileMode.UserWrite;
        }

        using (var stream = new FileStream(unfinished, options))
        {
            stream.Write(bytes);
            stream.Flush(flushToDisk: true);
        }

        File.Move(unfinished, path, overwrite: false);
        SyncFolder(Path.GetDirectoryName(path)!);
    }

    /// <summary>Makes a new name in a folder last. Windows does that by itself.</summary>
    public static void SyncFolder(string folder) => SyncPath(folder);

    /// <summary>Makes what somebody else wrote to a file last, while they keep it open. On Windows only they could.</summary>
    public static void SyncFile(string path) => SyncPath(path);

    private static void SyncPath(string path)
    {
        if (OperatingSystem.IsWindows())
        {
            return;
        }

        using SafeFileHandle handle = Open(path, 0);
        if (handle.IsInvalid || Sync(handle) != 0)
        {
            throw new IOException($"{path} could not be flushed to disk (error {Marshal.GetLastPInvokeError()}).");
        }
    }

    [LibraryImport("libc", EntryPoint = "open", SetLastError = true, StringMarshalling = StringMarshalling.Utf8)]
    private static partial SafeFileHandle Open(string path, int flags);

    [LibraryImport("libc", EntryPoint = "fsync", SetLastError = true)]
    private static partial int Sync(SafeFileHandle handle);
}
