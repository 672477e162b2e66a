using System.Globalization;
using CsCheck;
using CureWatch.Service.Settings;

namespace CureWatch.Service.Tests.Settings;

public class InstantsTests
{
    // Equivalent notations of one instant; the first three are the examples of RFC 3339, section 5.8.
    [Theory]
    [InlineData("1985-04-12T23:20:50.52Z", "1985-04-12T23:20:50.52Z")]
    [InlineData("1996-12-19T16:39:57-08:00", "1996-12-20T00:39:57Z")]
    [InlineData("1937-01-01T12:00:27.87+00:20", "1937-01-01T11:40:27.87Z")]
    [InlineData("2026-03-02T08:00Z", "2026-03-02T08:00:00Z")]
    [InlineData("2026-03-02T08:00+01:00", "2026-03-02T07:00:00Z")]
    [InlineData("2024-02-29T23:59:59.1234567+14:00", "2024-02-29T09:59:59.1234567Z")]
    [InlineData("2026-03-02T08:00:00.123456789Z", "2026-03-02T08:00:00.1234567Z")]
    [InlineData("2026-03-02T08:00:00-00:00", "2026-03-02T08:00:00Z")]
    public void Instant_WithOffset_IsReadInUtc(string text, string utc)
    {
        Assert.True(Instants.TryParse(text, out DateTimeOffset instant));
        Assert.Equal(DateTimeOffset.Parse(utc, CultureInfo.InvariantCulture), instant);
        Assert.Equal(TimeSpan.Zero, instant.Offset);
    }

    [Theory]
    [InlineData("")]
    [InlineData("2026-03-02")]
    [InlineData("2026-03-02T08:00:00")]
    [InlineData("2026-03-02 08:00:00Z")]
    [InlineData("2026-03-02T08:00:00z")]
    [InlineData("2026-03-02T8:00:00Z")]
    [InlineData("2026-03-02T08:00:00,5Z")]
    [InlineData("2026-03-02T08:00:00.Z")]
    [InlineData("2026-03-02T08:00:00.1234567890Z")]
    [InlineData("2026-03-02T08:00:00.5")]
    [InlineData("2026-03-02T08:00:00+0100")]
    [InlineData("2026-03-02T08:00:00+01:60")]
    [InlineData("2026-03-02T08:00:00+14:01")]
    [InlineData("2026-03-02T08:00:00Z ")]
    [InlineData(" 2026-03-02T08:00:00Z")]
    [InlineData("2026-03-02T08:00:00+01:00Z")]
    [InlineData("2026-02-29T08:00:00Z")]
    [InlineData("2026-13-01T08:00:00Z")]
    [InlineData("2026-00-01T08:00:00Z")]
    [InlineData("2026-03-00T08:00:00Z")]
    [InlineData("2026-03-02T24:00:00Z")]
    [InlineData("2026-03-02T08:60:00Z")]
    [InlineData("2026-03-02T08:00:60Z")]
    [InlineData("1899-12-31T08:00:00Z")]
    [InlineData("2200-01-01T08:00:00Z")]
    [InlineData("02/03/2026 08:00")]
    [InlineData("2026-03-02T08:0\u0660:00Z")]
    [InlineData("2026-03-02T08:00:")]
    public void Text_ThatIsNoInstant_IsRefused(string text) => Assert.False(Instants.TryParse(text, out _));

    [Fact]
    public void Instant_WrittenByTheRoundTripFormat_ComesBackWhole() =>
        Gen.Select(Gen.DateTime[new DateTime(1901, 1, 1), new DateTime(2199, 1, 1)], Gen.Int[-14 * 60, 14 * 60]).Sample((local, minutes) =>
        {
            var written = new DateTimeOffset(DateTime.SpecifyKind(local, DateTimeKind.Unspecified), TimeSpan.FromMinutes(minutes));
            return Instants.TryParse(written.ToString("o", CultureInfo.InvariantCulture), out DateTimeOffset read) && read == written;
        });

    [Fact]
    public void Text_CutOrWithOneCharacterChanged_NeverThrows() =>
        Gen.Select(Gen.Int[0, 32], Gen.Char).Sample((at, c) =>
        {
            const string Text = "2026-03-02T08:00:00.123+01:00";
            string cut = Text[..Math.Min(at, Text.Length)];
            _ = Instants.TryParse(cut, out _);
            _ = Instants.TryParse(cut + c + Text[Math.Min(at + 1, Text.Length)..], out _);
        });
}
