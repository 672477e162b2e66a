using CsCheck;
using CureWatch.Service.Mqtt;

namespace CureWatch.Service.Tests.Mqtt;

public class PacketGuardTests
{
    private const int Most = 300;

    /// <summary>Lengths of packets, and how many bytes the reader asks for at a time.</summary>
    private static readonly Gen<(int[] Packets, int Step)> Traffic = Gen.Select(Gen.Int[0, Most].Array[0, 20], Gen.Int[1, 50]);

    [Fact]
    public void Packets_NoLongerThanAllowed_PassUnchanged_HoweverTheyAreRead() => Traffic.Sample((packets, step) =>
    {
        byte[] sent = [.. packets.SelectMany(Packet)];
        Assert.Equal(sent, Read(sent, step));
    });

    [Fact]
    public void Packet_ThatIsLonger_EndsTheReading_BeforeItsBody() => Gen.Select(Traffic, Gen.Int[Most + 1, 268_435_455]).Sample((traffic, tooLong) =>
    {
        byte[] before = [.. traffic.Packets.SelectMany(Packet)];
        Assert.Throws<IOException>(() => Read([.. before, 0x30, .. Length(tooLong), 0, 0, 0], traffic.Step));
    });

    [Theory]
    [InlineData(new byte[] { 0x30, 0x80, 0x80, 0x80, 0x80 })]
    [InlineData(new byte[] { 0x30, 0xFF, 0xFF, 0xFF, 0xFF, 0xFF, 0xFF })]
    public void Length_WithoutEnd_EndsTheReading(byte[] sent) => Assert.Throws<IOException>(() => Read(sent, 1));

    [Fact]
    public void FirstPacket_IsHeardOnce_AndNotBeforeItIsWhole()
    {
        int heard = 0;
        byte[] first = Packet(20);
        Read(first[..^1], 7, () => heard++);
        Assert.Equal(0, heard);
        Read([.. first, .. first], 7, () => heard++);
        Assert.Equal(1, heard);
    }

    private static byte[] Packet(int length) => [0x30, .. Length(length), .. new byte[Math.Min(length, Most)]];

    private static byte[] Length(int length)
    {
        var bytes = new List<byte>();
        do
        {
            bytes.Add((byte)((length & 0x7F) | (length > 0x7F ? 0x80 : 0)));
            length >>= 7;
        }
        while (length > 0);
        return [.. bytes];
    }

    private static byte[] Read(byte[] sent, int step, Action? heard = null)
    {
        using var guard = new PacketGuard(new MemoryStream(sent), Most, _ => { }, heard ?? (() => { }));
        var read = new List<byte>();
        byte[] buffer = new byte[step];
        while (guard.Read(buffer, 0, step) is > 0 and var count)
        {
            read.AddRange(buffer[..count]);
        }

        return [.. read];
    }
}
