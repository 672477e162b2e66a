using CureWatch.Service.Journal;

namespace CureWatch.Service.Tests.Journal;

/// <summary>Against the examples of RFC 3720, appendix B.4 (iSCSI), 32 bytes each.</summary>
public class Crc32CTests
{
    [Fact]
    public void Crc_OfThePublishedExamples_IsAsPublished()
    {
        Assert.Equal(0x8A9136AAu, Crc32C.Of(new byte[32]));
        Assert.Equal(0x62A8AB43u, Crc32C.Of([.. Enumerable.Repeat((byte)0xFF, 32)]));
        Assert.Equal(0x46DD794Eu, Crc32C.Of([.. Enumerable.Range(0, 32).Select(i => (byte)i)]));
        Assert.Equal(0x113FDB5Cu, Crc32C.Of([.. Enumerable.Range(0, 32).Select(i => (byte)(31 - i))]));
    }

    /// <summary>The check value that catalogues of checksums print for the digits 1 to 9.</summary>
    [Fact]
    public void Crc_OfAnOddLength_IsAsPublished() => Assert.Equal(0xE3069283u, Crc32C.Of("123456789"u8));
}
