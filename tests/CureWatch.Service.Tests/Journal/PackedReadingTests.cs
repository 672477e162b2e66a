using System.Buffers;
using CureWatch.Service.Journal;

namespace CureWatch.Service.Tests.Journal;

/// <summary>The bytes of journals that were written before stay readable, and the same.</summary>
public class PackedReadingTests
{
    public static TheoryData<string, bool, bool> Golden { get; } = new()
    {
        { "07056261792D31036169720380EA23B3A9DE0800000000004034400000000000404940", false, true },
        { "08056261792D3106626F6E6E657400000000000009C0", false, false },
        { "07056261792D31036169720380EA23B3A9DE08000000000040344000000000004049400000010000000000", true, true },
    };

    [Theory]
    [MemberData(nameof(Golden))]
    public void Reading_OfEitherForm_IsWrittenAndReadAsEver(string bytes, bool isNumbered, bool isAir)
    {
        Entry.Reading reading = isAir
            ? new Entry.Reading("bay-1", "air", Entries.At.AddTicks(3), 20.25, 50.5, null, isNumbered ? 65_536 : null)
            : new Entry.Reading("bay-1", "bonnet", null, null, null, -3.125);
        var payload = new ArrayBufferWriter<byte>();
        PackedReading.Write(reading, payload);
        Assert.Equal(bytes, Convert.ToHexString(payload.WrittenSpan));
        Assert.Equal(reading, PackedReading.Read(Convert.FromHexString(bytes), isNumbered));
        Assert.Equal(isNumbered ? 2 : 1, EntryCodec.VersionOf(reading));
    }

    [Fact]
    public void Reading_CutShort_IsRefused()
    {
        using var entries = new Entries();
        byte[] whole = Convert.FromHexString("07056261792D31036169720380EA23B3A9DE08000000000040344000000000004049400000010000000000");
        var frame = new Frame(1, Entries.At, EntryKind.Reading, PackedReading.NumberedVersion, 1, EndsBatch: true, whole);
        Assert.All(
            Enumerable.Range(0, whole.Length),
            length => Assert.Throws<InvalidDataException>(() => entries.Codec.Read(frame with { Payload = whole.AsMemory(0, length) })));
    }

    [Fact]
    public void Reading_OfAFormToCome_IsRefused()
    {
        using var entries = new Entries();
        var frame = new Frame(1, Entries.At, EntryKind.Reading, 3, 1, EndsBatch: true, Convert.FromHexString("08056261792D3106626F6E6E657400000000000009C0"));
        Assert.Throws<InvalidDataException>(() => entries.Codec.Read(frame));
        Assert.Throws<InvalidDataException>(() => entries.Codec.Read(frame with { Kind = EntryKind.ClockReached, Version = 2 }));
    }
}
