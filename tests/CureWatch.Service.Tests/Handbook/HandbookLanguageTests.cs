using System.Globalization;
using System.Text.RegularExpressions;
using CureWatch.Service.Handbook;
using CureWatch.Service.Tongues;

namespace CureWatch.Service.Tests.Handbook;

/// <summary>A page says the same in every language: as far as can be told without reading it.</summary>
public partial class HandbookLanguageTests
{
    public static TheoryData<string> Texts => [.. HandbookText.Shipped(Language.English)];

    [Fact]
    public void EveryPage_IsThereInEveryLanguage() => Assert.All(
        Language.All, language => Assert.Equal(HandbookText.Shipped(Language.English).Order(), HandbookText.Shipped(language).Order()));

    [Fact]
    public void Pages_StandInTheSameOrder() =>
        Assert.Equal(HandbookText.In(Language.English).InOrder.Select(c => c.Id), HandbookText.In(Language.German).InOrder.Select(c => c.Id));

    [Theory]
    [MemberData(nameof(Texts))]
    public void Page_HasTheSameHeadingsListsAndPlaceholders(string id) => Assert.Equal(Shape(Language.English, id), Shape(Language.German, id));

    [Theory]
    [MemberData(nameof(Texts))]
    public void Page_LeadsToTheSamePlaces(string id) => Assert.Equal(All(Link(), Language.English, id), All(Link(), Language.German, id));

    // Only what one types or reads on a machine stays as it is.
    [Theory]
    [MemberData(nameof(Texts))]
    public void Page_HasTheSameCode(string id) => Assert.Equal(All(Code(), Language.English, id).Order(), All(Code(), Language.German, id).Order());

    [Theory]
    [MemberData(nameof(Texts))]
    public void Page_SaysTheSameNumbers(string id) =>
        Assert.Equal(Figures(Language.English, id, ".", ","), Figures(Language.German, id, ",", "."));

    // A button is called in the handbook as it is called on its screen.
    [Fact]
    public void WhatAScreenSays_IsSaidSoInGermanToo()
    {
        var tongue = new Tongue(Language.German, isFahrenheit: false);
        (string English, string German)[] said =
        [
            .. HandbookText.Shipped(Language.English).SelectMany(id => Set(Language.English, id).Zip(Set(Language.German, id)))
                .Where(pair => tongue[pair.First] != pair.First),
        ];
        Assert.True(said.Length > 40, $"{said.Length}");
        Assert.All(said, pair => Assert.Equal(tongue[pair.English], pair.German, ignoreCase: true));
    }

    [Theory]
    [MemberData(nameof(Texts))]
    public void Page_SetsAsManyWordsApart(string id) => Assert.Equal(Set(Language.English, id).Length, Set(Language.German, id).Length);

    [Fact]
    public void Numbers_AreComparedAsTheirLanguageWritesThem()
    {
        Assert.Equal(["1000", "2.5", "3.1.1", "10:30"], FiguresIn("1,000 coats, 2.5 K, `5`, 3.1.1 at 10:30", ".", ","));
        Assert.Equal(["1000", "2.5", "3.1.1", "10:30"], FiguresIn("1.000 Schichten, 2,5 K, `5`, 3.1.1 um 10:30.", ",", "."));
    }

    [Fact]
    public void Page_HasTheSameAnchors() => Assert.All(
        HandbookText.In(Language.English).InOrder,
        page => Assert.Equal(page.Sections.Select(s => s.Anchor), HandbookText.In(Language.German).Find(page.Id)!.Sections.Select(s => s.Anchor)));

    [Fact]
    public void PageWithAnotherNumberOfHeadings_IsNotTaken()
    {
        Chapter first = Markup.Read("x", "# T\n\n## One\n");
        Assert.Throws<InvalidOperationException>(() => Markup.Read("x", "# T\n\n## Eins\n\n## Zwei\n", first));
        Assert.Equal("one", Markup.Read("x", "# T\n\n## Eins\n", first).Sections[1].Anchor);
    }

    private static string[] Shape(Language language, string id) => [.. Mark().Matches(TextOf(language, id)).Select(m => m.Value)];

    /// <summary>What stands in bold letters or italics.</summary>
    private static string[] Set(Language language, string id) =>
        [.. Bold().Matches(Code().Replace(TextOf(language, id), "")).Select(m => m.Groups[2].Value.ReplaceLineEndings(" "))];

    private static string[] All(Regex what, Language language, string id) => [.. what.Matches(TextOf(language, id)).Select(m => m.Groups[1].Value)];

    private static IOrderedEnumerable<string> Figures(Language language, string id, string point, string thousands) =>
        FiguresIn(TextOf(language, id), point, thousands).Order(StringComparer.Ordinal);

    /// <summary>The figures of a text outside its code, as a program writes them.</summary>
    private static IEnumerable<string> FiguresIn(string text, string point, string thousands) => Figure().Matches(Code().Replace(text, "")).Select(m => m.Value)
        .Select(figure => double.TryParse(
            figure.Replace(thousands, "", StringComparison.Ordinal).Replace(point, ".", StringComparison.Ordinal),
            NumberStyles.AllowDecimalPoint,
            CultureInfo.InvariantCulture,
            out double number) && figure.Count(c => c == '.') < 2 ? number.ToString(CultureInfo.InvariantCulture) : figure);

    private static string TextOf(Language language, string id)
    {
        using Stream stream = typeof(HandbookText).Assembly.GetManifestResourceStream($"handbook/{language.Code}/{id}.md")!;
        using var reader = new StreamReader(stream);
        return reader.ReadToEnd();
    }

    [GeneratedRegex(@"^(#+|-|\d+\.|:::\w*|\{\{[a-z-]+\}\}|!)", RegexOptions.Multiline)]
    private static partial Regex Mark();

    [GeneratedRegex(@"(\*\*?)(\S.*?)\1", RegexOptions.Singleline)]
    private static partial Regex Bold();

    [GeneratedRegex(@"\]\(([^)]*)\)")]
    private static partial Regex Link();

    [GeneratedRegex("`([^`]*)`")]
    private static partial Regex Code();

    [GeneratedRegex(@"\d([\d.,:]*\d)?")]
    private static partial Regex Figure();
}
