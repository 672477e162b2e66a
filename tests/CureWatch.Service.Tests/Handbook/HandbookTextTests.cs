using System.Text.RegularExpressions;
using CureWatch.Handover;
using CureWatch.Service.Board;
using CureWatch.Service.Documents;
using CureWatch.Service.Handbook;
using CureWatch.Service.Tongues;
using CureWatch.Warnings;

namespace CureWatch.Service.Tests.Handbook;

/// <summary>What the handbook says is there and leads somewhere, in each language.</summary>
public partial class HandbookTextTests
{
    public static TheoryData<string> Languages => [.. Language.All.Select(l => l.Code)];

    [Theory]
    [MemberData(nameof(Languages))]
    public void Contents_NameEveryTextThatShips(string language) =>
        Assert.Equal(HandbookText.Shipped(Language.Find(language)!).Order(), In(language).InOrder.Select(s => s.Id).Append("contents").Order());

    [Theory]
    [MemberData(nameof(Languages))]
    public void EveryPage_HasATitleOfItsOwn_AndText(string language)
    {
        HandbookText text = In(language);
        Assert.Equal(text.InOrder.Count, text.InOrder.Select(s => s.Title).Distinct().Count());
        Assert.All(text.InOrder, s => Assert.True(s.Sections.Sum(p => p.Text.Length) > 300, s.Id));
    }

    [Theory]
    [MemberData(nameof(Languages))]
    public void EveryLink_LeadsToAPage_AndAPlaceOnIt(string language)
    {
        string[] links = [.. PagesOf(language).SelectMany(p => Link().Matches(p.Html).Select(m => m.Groups[1].Value))];
        Assert.True(links.Length > 50, $"{links.Length}");
        Assert.All(links, link => Assert.True(Leads(In(language), link), link));
    }

    [Theory]
    [MemberData(nameof(Languages))]
    public void EveryPicture_ShipsAndIsSmall_AndSaysWhatItShows(string language)
    {
        string[] pictures = [.. PagesOf(language).SelectMany(p => Picture().Matches(p.Html).Select(m => m.Value))];
        Assert.NotEmpty(pictures);
        Assert.All(pictures, picture => Assert.Matches("src=\"/assets/[0-9a-f]{12}/[a-z-]+\\.png\" loading=\"lazy\" alt=\"[^\"]{20,}\"", picture));
        Assert.All(
            typeof(HandbookText).Assembly.GetManifestResourceNames().Where(n => n.EndsWith(".png", StringComparison.Ordinal)),
            name =>
            {
                using Stream stream = typeof(HandbookText).Assembly.GetManifestResourceStream(name)!;
                Assert.InRange(stream.Length, 1_000, 60_000);
                Assert.Contains(pictures, p => p.Contains($"/{name}\"", StringComparison.Ordinal));
            });
    }

    // The content security policy forbids styles, scripts and whatever comes from elsewhere.
    [Theory]
    [MemberData(nameof(Languages))]
    public void NoPage_HasAStyle_AScript_OrAnythingFromElsewhere(string language) => Assert.All(
        PagesOf(language), p => Assert.DoesNotMatch("style=|<script|<svg|(src|href)=\"(https?:|//)|{{", p.Html));

    [Fact]
    public void HtmlInAText_IsShownAndNotTaken() =>
        Assert.Contains("&lt;img src=x onerror=alert(1)&gt;", Markup.Read("x", "# T\n\n<img src=x onerror=alert(1)>\n").Html, StringComparison.Ordinal);

    [Theory]
    [MemberData(nameof(Languages))]
    public void EveryWarning_IsThereWithWhatToDo(string language) => Assert.All(
        Enum.GetValues<WarningKind>(),
        kind =>
        {
            Tongue tongue = TongueOf(language);
            Section section = In(language).Find("warnings")!.Sections.Single(s => s.Heading == tongue[BoardWords.Of(kind)]);
            Assert.Contains(tongue[AlarmRule.Of(kind).Action], section.Text, StringComparison.Ordinal);
        });

    [Fact]
    public void WarningsAndCautions_AreInGermanThere()
    {
        string[] english = [.. In("en").Find("warnings")!.Sections.Concat(In("en").Find("cautions")!.Sections).SelectMany(s => Sentences(s.Text))];
        string[] german = [.. In("de").Find("warnings")!.Sections.Concat(In("de").Find("cautions")!.Sections).SelectMany(s => Sentences(s.Text))];
        Assert.True(english.Length > 150, $"{english.Length}");
        Assert.Empty(english.Intersect(german));
    }

    [Theory]
    [MemberData(nameof(Languages))]
    public void EveryHold_IsThereWithWhatLiftsIt(string language) => Assert.All(
        Enum.GetValues<HoldKind>(),
        kind => Assert.Matches($"(?i){TongueOf(language)[BoardWords.Of(kind)]}: .{{20}}", WordsOf(language, "car")));

    [Theory]
    [MemberData(nameof(Languages))]
    public void EveryCautionOfTheService_IsAmongTheCautions(string language) => Assert.All(
        new[] { Cautions.SolventVapour, Cautions.Lamp, Cautions.HeatAndShutDoors, Cautions.Airing },
        caution => Assert.Contains(TongueOf(language)[caution.ReplaceLineEndings(" ")], WordsOf(language, "cautions"), StringComparison.Ordinal));

    private static HandbookText In(string language) => HandbookText.In(Language.Find(language)!);

    private static Tongue TongueOf(string language) => new(Language.Find(language)!, isFahrenheit: false);

    private static string[] Sentences(string text) => text.Split(". ", StringSplitOptions.RemoveEmptyEntries);

    private static IEnumerable<Chapter> PagesOf(string language) => In(language).InOrder.Prepend(In(language).Contents);

    private static bool Leads(HandbookText text, string link)
    {
        string[] parts = link.Split('#');
        Chapter? page = parts[0] == "/handbook"
            ? text.Contents
            : parts[0].StartsWith("/handbook/", StringComparison.Ordinal) ? text.Find(parts[0]["/handbook/".Length..]) : null;
        return page is not null && (parts.Length == 1 || page.Sections.Any(s => s.Anchor == parts[1]));
    }

    private static string WordsOf(string language, string chapter) => string.Join(' ', In(language).Find(chapter)!.Sections.Select(s => $"{s.Heading} {s.Text}"));

    [GeneratedRegex("href=\"([^\"]*)\"")]
    private static partial Regex Link();

    [GeneratedRegex("<img [^>]*>")]
    private static partial Regex Picture();
}
