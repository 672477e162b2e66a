using CsCheck;

namespace CureWatch.Service.Tests.Backups;

/// <summary>Archives by the hundred that chance has cut, flipped and forged.</summary>
public sealed class AnyArchiveTests : RestoredArchive
{
    /// <summary>The digest at the end sees every bit; without it, every bit of what counts is seen by what stands beside it.</summary>
    [Fact]
    public void AnyFlippedByte_IsSeen() => (
        from at in Gen.Int[0, Genuine.Length - 1]
        from flip in Gen.Byte[1, 255]
        select (at, flip)).Sample(
            c =>
            {
                byte[] bytes = [.. Genuine];
                bytes[c.at] ^= c.flip;
                AssertRefused(bytes, $"{Source}: ", "saw ");
            },
            iter: 150);

    [Fact]
    public void AnyCut_IsSeen() => Gen.Int[0, Genuine.Length - 1].Sample(
        length => AssertRefused(Genuine[..length], $"{Source}: end of file", "saw no end of a backup"), iter: 60);

    /// <summary>Whoever can reckon the digest may write any bytes anywhere: what comes of it is refused, or is a data folder that verifies.</summary>
    [Fact]
    public void AnyBytes_UnderARightDigest_AreRefusedOrWhole() => (
        from changes in Gen.Select(Gen.Int[0, Genuine.Length - 65], Gen.Byte).Array[1, 8]
        from nearTheEnd in Gen.Bool
        select (changes, nearTheEnd)).Sample(
            c =>
            {
                byte[] bytes = [.. Genuine];
                foreach ((int at, byte value) in c.changes)
                {
                    bytes[c.nearTheEnd ? bytes.Length - 65 - (at % Math.Min(2000, bytes.Length - 65)) : at] = value;
                }

                AssertRefusedOrWhole(Forged.Sealed(bytes));
            },
            iter: 150);
}
