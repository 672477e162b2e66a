using CureWatch.Service.Disk;
using CureWatch.Service.Journal;

namespace CureWatch.Service.Tests.Journal;

/// <summary>A segment that is taken from under its writer: nothing more is told to be on the disk.</summary>
public sealed class LostSegmentTests : IDisposable
{
    private readonly Entries _entries = new();
    private readonly JournalWriter _writer;

    public LostSegmentTests()
    {
        _writer = new JournalWriter(LocalDisk.Instance, _entries.Journal, _entries.Codec, JournalEnd.Empty);
        Write();
    }

    public void Dispose()
    {
        _writer.Dispose();
        _entries.Dispose();
    }

    [Fact]
    public void Segment_ThatWasDeleted_IsWrittenNoMore_OnceItWasLookedFor()
    {
        File.Delete(_entries.LastSegment);
        _writer.Look();
        Assert.Throws<FileNotFoundException>(Write);
    }

    [Fact]
    public void Segment_InWhosePlaceAnOlderCopyIs_IsWrittenNoMore_OnceItWasLookedFor()
    {
        string copy = _entries.LastSegment + ".copy";
        File.Copy(_entries.LastSegment, copy);
        Write();
        File.Move(copy, _entries.LastSegment, overwrite: true);
        _writer.Look();
        Assert.EndsWith("has lost its end.", Assert.Throws<IOException>(Write).Message, StringComparison.Ordinal);
    }

    [Fact]
    public void Segment_ThatWasCutOff_IsWrittenNoMore()
    {
        File.WriteAllBytes(_entries.LastSegment, File.ReadAllBytes(_entries.LastSegment)[..^1]);
        Assert.EndsWith("has lost its end.", Assert.Throws<IOException>(Write).Message, StringComparison.Ordinal);
    }

    [Fact]
    public void Segment_ThatWasMovedAwayAndBack_IsGoneOnWith()
    {
        string path = _entries.LastSegment;
        File.Move(path, path + ".away");
        _writer.Look();
        Assert.Throws<FileNotFoundException>(Write);
        _writer.Forget();
        File.Move(path + ".away", path);
        Write();
        Assert.Equal(2, _entries.Read().Reader.End.Last);
    }

    private void Write()
    {
        _writer.Append(new Entry.ClockReached(), Entries.At.AddMinutes(_writer.Last));
        _writer.Flush();
    }
}
