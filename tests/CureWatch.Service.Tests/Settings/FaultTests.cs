using CureWatch.Service.Settings;

namespace CureWatch.Service.Tests.Settings;

public class FaultTests
{
    [Fact]
    public void Fault_IsOneLineWithFilePlaceSeenAndAllowed() =>
        Assert.Equal("shop.json: /bays/0/bay: saw 7; allowed: an id", new Fault("shop.json", "/bays/0/bay", "7", "an id").ToString());

    [Theory]
    [InlineData("a\nb")]
    [InlineData("a\r\n\t b")]
    [InlineData("a\u2028b")]
    [InlineData("a\u0085b")]
    [InlineData("a\u202e\u001bb")]
    public void Fault_WhateverWasSeen_StaysOneLine(string text) =>
        Assert.Equal("a b: a b: saw a b; allowed: a b", new Fault(text, text, text, text).ToString());

    [Theory]
    [InlineData("", "nothing")]
    [InlineData(" \n\u200b", "nothing that shows")]
    public void Seen_ThatLeavesNothing_IsSaidInWords(string seen, string said) => Assert.Equal(said, new Fault("f", "p", seen, "a").Seen);

    [Fact]
    public void Seen_ThatIsLong_IsCut()
    {
        string seen = new Fault("f", "p", new string('x', 79) + "🙂🙂", "a").Seen;

        Assert.Equal(new string('x', 79) + "…", seen);
    }

    [Fact]
    public void Seen_OfEightyCharacters_IsWhole() => Assert.Equal(80, new Fault("f", "p", new string('x', 80), "a").Seen.Length);

    [Fact]
    public void Seen_IsNeverCutThroughAPair()
    {
        string seen = new Fault("f", "p", new string('x', 78) + "🙂🙂", "a").Seen;

        Assert.Equal(new string('x', 78) + "…", seen);
    }
}
