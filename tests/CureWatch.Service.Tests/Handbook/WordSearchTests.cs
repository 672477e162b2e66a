using CureWatch.Service.Handbook;
using CureWatch.Service.Tongues;

namespace CureWatch.Service.Tests.Handbook;

public class WordSearchTests
{
    private static readonly WordSearch Search = new(
    [
        Markup.Read("lamps", "# Lamps\n\nA lamp burns skin.\n\n## Heat limits\n\nFilm may have 60 °C. The *lowest* limit rules.\n"),
        Markup.Read("probes", "# Fit probes\n\nAway from a lamp, and from heaters.\n\n## Salt test\n\nOver NaCl the air has 75.5 %; a façade does not. lamp lamp lamp\n"),
    ],
    joinsWords: false);

    [Fact]
    public void Word_IsFoundByItsBeginning_WithSomeOfItsText()
    {
        FoundPlace place = Assert.Single(Search.Find("heate").Places);
        Assert.Equal(("/handbook/probes", "Fit probes"), (place.Address, place.Name));
        Assert.Equal("Away from a lamp, and from heaters.", string.Concat(place.Excerpt.Select(p => p.Text)));
        Assert.Equal(["heaters"], place.Excerpt.Where(p => p.IsHit).Select(p => p.Text));
    }

    [Fact]
    public void WordInAHeading_GoesBeforeOneInText_HoweverOftenItIsThere() =>
        Assert.Equal(["Lamps", "Fit probes: Salt test", "Fit probes"], Search.Find("lamp").Places.Select(p => p.Name));

    [Theory]
    [InlineData("FACADE")]
    [InlineData("façade")]
    [InlineData("fac\u0327ade")] // the cedilla by itself
    [InlineData("  Façáde ?")]
    public void CaseAndDiacritics_DoNotMatter(string typed) =>
        Assert.Equal("/handbook/probes#salt-test", Assert.Single(Search.Find(typed).Places).Address);

    [Fact]
    public void EveryWord_HasToBeThere_AndMayStandInTheTitle()
    {
        Assert.Equal("/handbook/lamps#heat-limits", Assert.Single(Search.Find("lamps limit").Places).Address);
        Assert.True(Search.Find("lamps limit").HasEveryWord);
    }

    [Fact]
    public void WhereNoPlaceHasAll_ThoseThatHaveSomeAreSaidToBeThat()
    {
        Finding finding = Search.Find("salt unicorn");
        Assert.False(finding.HasEveryWord);
        Assert.Equal("Fit probes: Salt test", Assert.Single(finding.Places).Name);
    }

    [Theory]
    [InlineData("unicorn", 1)]
    [InlineData("unicorn zebra", 2)]
    [InlineData("", 0)]
    [InlineData("  %_*<>'\" ", 0)]
    public void WhatIsNotThere_IsNotFound(string typed, int words)
    {
        Finding finding = Search.Find(typed);
        Assert.Empty(finding.Places);
        Assert.Equal(words, finding.Words.Count);
    }

    [Fact]
    public void WhateverIsTyped_IsCutShort()
    {
        Assert.Equal(WordSearch.MostSigns, Assert.Single(Search.Find(new string('a', 1_000_000)).Words).Length);
        Assert.Equal(8, Search.Find(string.Join(' ', Enumerable.Range(10, 90))).Words.Count);
        Assert.Empty(Search.Find("\ud800\udfff\ud800").Places);
    }

    [Fact]
    public void Excerpt_IsCutOutOfALongText()
    {
        string text = string.Join(' ', Enumerable.Range(1, 200).Select(i => i == 100 ? "needle" : $"w{i}"));
        FoundPlace place = Assert.Single(new WordSearch([Markup.Read("x", $"# X\n\n{text}\n")], joinsWords: false).Find("needle").Places);
        string excerpt = string.Concat(place.Excerpt.Select(p => p.Text));
        Assert.StartsWith("… w92 w93", excerpt, StringComparison.Ordinal);
        Assert.EndsWith("w122 w123 …", excerpt, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("re-wet")]
    [InlineData("rewet")]
    [InlineData("wetted")]
    public void WordWithAHyphen_IsFoundWithItWithoutItAndByItsParts(string typed)
    {
        FoundPlace place = Assert.Single(new WordSearch([Markup.Read("x", "# X\n\nPress (re-wetted), then level.\n")], joinsWords: false).Find(typed).Places);
        Assert.Equal("Press (re-wetted), then level.", string.Concat(place.Excerpt.Select(p => p.Text)));
        Assert.Single(place.Excerpt, p => p.IsHit);
    }

    [Fact]
    public void OfManyPlaces_TheBestAreShown_AndAllAreCounted()
    {
        Finding finding = HandbookText.In(Language.English).Search.Find("a");
        Assert.Equal(WordSearch.MostPlaces, finding.Places.Count);
        Assert.True(finding.Count > 100, $"{finding.Count}");
    }

    [Theory]
    [InlineData("lamp", "lamps")]
    [InlineData("probes", "fitting-probes")]
    [InlineData("warning", "warnings")]
    public void PageAboutIt_GoesFirst(string typed, string chapter) => Assert.Equal(chapter, HandbookText.In(Language.English).Search.Find(typed).Places[0].Chapter.Id);

    // What people ask first, in their words.
    [Theory]
    [InlineData("dew point", "board")]
    [InlineData("undo", "undo")]
    [InlineData("PIN forgotten", "people")]
    [InlineData("water mark", "taps")]
    [InlineData("salt", "calibrating")]
    [InlineData("mosquitto", "broker")]
    [InlineData("power cut", "power-cut")]
    [InlineData("respirator", "cautions")]
    [InlineData("5 50 95", "windows")]
    [InlineData("re-wet", "phone")]
    [InlineData("calibration", "calibrating")]
    [InlineData("wifi", "power-cut")]
    public void Handbook_HasWhatPeopleAsk_AmongTheFirstThree(string typed, string chapter) =>
        Assert.Contains(chapter, HandbookText.In(Language.English).Search.Find(typed).Places.Take(3).Select(p => p.Chapter.Id));

    // German speech in the trade's words, with the umlauts as a keyboard without them has it.
    [Theory]
    [InlineData("taupunkt", "board")]
    [InlineData("Fühler", "fitting-probes")]
    [InlineData("Fuehler", "fitting-probes")]
    [InlineData("Fuhler", "fitting-probes")]
    [InlineData("rückgängig", "undo")]
    [InlineData("PIN vergessen", "people")]
    [InlineData("wasserfleck", "taps")]
    [InlineData("salz", "calibrating")]
    [InlineData("stromausfall", "power-cut")]
    [InlineData("atemschutz", "cautions")]
    [InlineData("neu benetzen", "phone")]
    [InlineData("kalibrieren", "calibrating")]
    [InlineData("wlan", "power-cut")]
    [InlineData("strahler", "lamps")]
    [InlineData("feierabend", "lock-up")]
    [InlineData("übergabe", "car")]
    [InlineData("Warnungen", "warnings")]
    public void GermanHandbook_HasWhatPeopleAsk_AmongTheFirstThree(string typed, string chapter) =>
        Assert.Contains(chapter, HandbookText.In(Language.German).Search.Find(typed).Places.Take(3).Select(p => p.Chapter.Id));

    [Theory]
    [InlineData("groesse")]
    [InlineData("Große")]
    [InlineData("GRÖSSE")]
    [InlineData("Bauteilgröße")]
    [InlineData("BAUTEIL")]
    public void WrittenOutUmlautsAndSharpS_AreTheLettersTheyStandFor(string typed) =>
        Assert.Single(new WordSearch([Markup.Read("x", "# X\n\nDie Bauteilgröße zählt.\n")], joinsWords: true).Find(typed).Places);

    [Theory]
    [InlineData("härte", true, 1)]
    [InlineData("härte", false, 0)]
    [InlineData("end", false, 1)]
    [InlineData("här", true, 0)] // three letters stand inside too many words
    public void WordInsideAnother_IsFoundWhereTheLanguageJoinsThem(string typed, bool joinsWords, int places) =>
        Assert.Equal(places, new WordSearch([Markup.Read("x", "# X\n\nBis zur Endhärte.\n")], joinsWords).Find(typed).Count);
}
