using CureWatch.Panels;
using CureWatch.Service.Documents;
using CureWatch.Service.Tongues;
using CureWatch.Warnings;
using CureWatch.Words;

namespace CureWatch.Service.Tests.Tongues;

public class TongueTests
{
    private static readonly Tongue German = new(Language.German, isFahrenheit: true);

    [Fact]
    public void Tongue_InGerman_SaysPhrasesNumbersAndDays()
    {
        var at = new DateTimeOffset(2026, 11, 26, 16, 5, 0, TimeSpan.Zero);
        Assert.Equal("Abmelden", German["Sign out"]);
        Assert.Equal("Do 26. Nov. 16:05", German[$"{at:ddd d MMM HH:mm}"]);
        Assert.Equal("64,8 °F", German[new Figure.Temperature(18.2, "0.#")]);
        Assert.Equal("18.2 °C", Tongue.Plain[new Figure.Temperature(18.2, "0.#")]);
    }

    [Fact]
    public void Tongue_WithoutAPhrase_SaysItInEnglish()
    {
        Assert.Equal("Nobody has put this into German yet 7", German[$"Nobody has put this into German yet {7}"]);
        Assert.Equal("", German[(Sentence?)null]);
    }

    // The command line breaks its lines; a page does not.
    [Fact]
    public void Caution_BesideEachWarning_IsSaidInGerman()
    {
        string[] cautions =
        [
            .. Enum.GetValues<WarningKind>().SelectMany(kind => new Place?[] { null, Place.Outside }.Select(air => new Subject(kind) { Air = air }))
                .Select(Cautions.Beside).OfType<string>().Append(Cautions.Airing).Distinct(),
        ];
        Assert.True(cautions.Length > 4, $"{cautions.Length}");
        Assert.All(cautions, caution => Assert.StartsWith("Vorsicht: ", German[caution], StringComparison.Ordinal));
        Assert.All(cautions, caution => Assert.Equal(caution, Tongue.Plain[caution]));
    }

    [Theory]
    [InlineData("de", "de")]
    [InlineData("de-AT", "de")]
    [InlineData("EN-gb", "en")]
    [InlineData("fr", null)]
    [InlineData("", null)]
    [InlineData(null, null)]
    public void Language_OfACode_IsFoundWhateverItsRegion(string? code, string? found) => Assert.Equal(found, Language.Find(code)?.Code);

    /// <summary>Whatever stands in the books has the same figures as the English it stands for, and begins and ends alike.</summary>
    [Fact]
    public void Phrases_HaveTheFiguresOfTheirEnglish() => Assert.All(Language.German.Book.Phrases, p =>
    {
        Assert.Equal(Phrases.Places(p.Key), Phrases.Places(p.Value));
        Assert.Equal(p.Key.Length - p.Key.TrimStart().Length, p.Value.Length - p.Value.TrimStart().Length);
        Assert.Equal(p.Key.Length - p.Key.TrimEnd().Length, p.Value.Length - p.Value.TrimEnd().Length);
    });

    [Fact]
    public void Books_HaveNoPhraseTwice() => Assert.DoesNotContain(
        ((string[])["Sentences", "Pages", "Refusals"]).SelectMany(book => PhraseBook.Read($"{book}.de.resources")).CountBy(p => p.Key), p => p.Value > 1);
}
