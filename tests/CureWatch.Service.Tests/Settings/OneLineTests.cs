using CureWatch.Service.Settings;

namespace CureWatch.Service.Tests.Settings;

public class OneLineTests
{
    [Theory]
    [InlineData("plain", "plain")]
    [InlineData("evil\nwarn: forged", "evil warn: forged")]
    [InlineData("\u001b[2Jgone\r\n\t\u202eback", "[2Jgone back")]
    [InlineData("", "")]
    public void Text_OfAnybody_StaysOnOneLine(string text, string expected) => Assert.Equal(expected, OneLine.Of(text, 20));

    [Fact]
    public void Text_ThatIsLong_IsCutBetweenCharacters()
    {
        Assert.Equal("abcd…", OneLine.Of("abcdefgh", 5));
        Assert.Equal("abc…", OneLine.Of("abc\U0001F600defgh", 5));
    }
}
