namespace CureWatch.Service.Disk;

/// <summary>A file that is open.</summary>
internal interface IDiskFile : IDisposable
{
    /// <summary>How long it is [bytes].</summary>
    long Length { get; }

    /// <returns>How many bytes were read; fewer than asked for only at the end.</returns>
    int Read(Span<byte> bytes, long offset);

    /// <summary>Writes all of it. It may be gone with the power until it is flushed.</summary>
    void Write(ReadOnlySpan<byte> bytes, long offset);

    void SetLength(long length);

    /// <summary>Makes what was written last.</summary>
    /// <exception cref="IOException">It may not be on the disk, and another try would not tell: write it again before you rely on it.</exception>
    void Flush();
}
