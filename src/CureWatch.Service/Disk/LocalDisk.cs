using System.Runtime.InteropServices;
using Microsoft.Win32.SafeHandles;

namespace CureWatch.Service.Disk;

/// <summary>The disk of this machine.</summary>
internal sealed partial class LocalDisk : IDisk
{
    /// <summary>LOCK_EX and LOCK_NB in sys/file.h, the same everywhere.</summary>
    private const int LockExclusive = 2, LockNonBlocking = 4;

    private LocalDisk()
    {
    }

    public static LocalDisk Instance { get; } = new();

    public IDiskFile Open(string path, FileUse use)
    {
        (FileMode mode, FileAccess access, FileShare share) = use switch
        {
            FileUse.Read => (FileMode.Open, FileAccess.Read, FileShare.ReadWrite | FileShare.Delete),
            FileUse.ReadAlone => (FileMode.Open, FileAccess.Read, FileShare.None),
            FileUse.Write => (FileMode.Open, FileAccess.ReadWrite, FileShare.Read),
            FileUse.Make => (FileMode.CreateNew, FileAccess.ReadWrite, FileShare.Read),
            FileUse.MakeAnew or FileUse.MakeSecret => (FileMode.Create, FileAccess.ReadWrite, FileShare.Read),
            FileUse.Hold => (FileMode.OpenOrCreate, FileAccess.ReadWrite, FileShare.None),
            _ => throw new ArgumentOutOfRangeException(nameof(use), use, null),
        };
        if (use == FileUse.MakeSecret)
        {
            MakeSecret(path);
            mode = FileMode.Open;
        }

        SafeFileHandle handle = File.OpenHandle(path, mode, access, share);
        try
        {
            return new LocalFile(handle, use is FileUse.Hold or FileUse.ReadAlone ? HoldFolderOf(path) : null);
        }
        catch (IOException)
        {
            handle.Dispose();
            throw;
        }
    }

    public bool Exists(string path) => Path.Exists(path);

    public IReadOnlyList<string> NamesIn(string folder) => [.. Directory.EnumerateFileSystemEntries(folder).Select(e => Path.GetFileName(e))];

    public void MakeFolder(string path) => Directory.CreateDirectory(path);

    public void Move(string from, string to) => File.Move(from, to, overwrite: false);

    public void Delete(string path) => File.Delete(path);

    /// <summary>Windows does that by itself.</summary>
    public void FlushFolder(string folder)
    {
        if (OperatingSystem.IsWindows())
        {
            return;
        }

        using SafeFileHandle handle = OpenFolder(folder, ToOneself);
        if (handle.IsInvalid || Sync(handle) != 0)
        {
            throw new IOException($"{folder} could not be flushed to disk: {Marshal.GetPInvokeErrorMessage(Marshal.GetLastPInvokeError())}");
        }
    }

    public long FreeBytes(string folder) => new DriveInfo(Path.GetFullPath(folder)).AvailableFreeSpace;

    /// <remarks>Only a stream can be told a mode, so one makes the file, empty, and is closed before anything is in it.</remarks>
    private static void MakeSecret(string path)
    {
        var options = new FileStreamOptions { Mode = FileMode.Create, Access = FileAccess.Write };
        if (!OperatingSystem.IsWindows())
        {
            options.UnixCreateMode = UnixFileMode.UserRead | UnixFileMode.UserWrite;
        }

        new FileStream(path, options).Dispose();
    }

    /// <summary>
    /// Except on Windows a file that is held may be deleted, and another made in its place and held too; the folder it lies in may not. A disk that keeps no
    /// such holds, as of a network, is left to the file.
    /// </summary>
    private static SafeFileHandle? HoldFolderOf(string path)
    {
        if (OperatingSystem.IsWindows())
        {
            return null;
        }

        SafeFileHandle folder = OpenFolder(Path.GetDirectoryName(Path.GetFullPath(path))!, ToOneself);
        if (!folder.IsInvalid && Lock(folder, LockExclusive | LockNonBlocking) != 0 && Marshal.GetLastPInvokeError() == HeldElsewhere)
        {
            folder.Dispose();
            throw new IOException($"The folder of {path} is held by another process.");
        }

        return folder;
    }

    /// <summary>Not handed on to what this process starts: O_CLOEXEC in fcntl.h of macOS and of Linux.</summary>
    private static int ToOneself => OperatingSystem.IsMacOS() ? 0x100_0000 : 0x8_0000;

    /// <summary>EWOULDBLOCK in errno.h of macOS and of Linux.</summary>
    private static int HeldElsewhere => OperatingSystem.IsMacOS() ? 35 : 11;

    [LibraryImport("libc", EntryPoint = "flock", SetLastError = true)]
    private static partial int Lock(SafeFileHandle handle, int operation);

    [LibraryImport("libc", EntryPoint = "open", SetLastError = true, StringMarshalling = StringMarshalling.Utf8)]
    private static partial SafeFileHandle OpenFolder(string path, int flags);

    [LibraryImport("libc", EntryPoint = "fsync", SetLastError = true)]
    private static partial int Sync(SafeFileHandle handle);

    /// <param name="handle">The file.</param>
    /// <param name="held">What is held with it; null where nothing is.</param>
    private sealed class LocalFile(SafeFileHandle handle, SafeFileHandle? held) : IDiskFile
    {
        public long Length => RandomAccess.GetLength(handle);

        public int Read(Span<byte> bytes, long offset)
        {
            int read = 0;
            while (read < bytes.Length && RandomAccess.Read(handle, bytes[read..], offset + read) is > 0 and var more)
            {
                read += more;
            }

            return read;
        }

        public void Write(ReadOnlySpan<byte> bytes, long offset)
        {
            try
            {
                RandomAccess.Write(handle, bytes, offset);
            }
            catch (ArgumentOutOfRangeException e)
            {
                throw new IOException("The file would become longer than it may be.", e); // a full disk too, to whoever writes
            }
        }

        public void SetLength(long length) => RandomAccess.SetLength(handle, length);

        public void Flush() => RandomAccess.FlushToDisk(handle);

        public void Dispose()
        {
            handle.Dispose();
            held?.Dispose();
        }
    }
}
