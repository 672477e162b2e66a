using CureWatch.Panels;
using CureWatch.Products;
using CureWatch.Service.Board;
using CureWatch.Service.Settings;
using CureWatch.Service.Tongues;
using CureWatch.Units;

namespace CureWatch.Service.Tests.Tongues;

/// <summary>Holds the books of phrases against what the program says, read out of its compiled code.</summary>
public class PhraseTests
{
    private static readonly SpokenPhrases[] Programs = [SpokenPhrases.Of(typeof(Tongue).Assembly), SpokenPhrases.Of(typeof(Celsius).Assembly)];

    private static IEnumerable<string> Said => Programs.SelectMany(p => p.Said).Concat(ScriptWords.Phrases).Where(IsWords).Distinct();

    [Fact]
    public void WhatIsSaid_IsReadOutOfTheCode()
    {
        Assert.Contains("Start a car in {0}", Programs[0].Said);
        Assert.Contains("Start another car", Programs[0].Said); // chosen between, then asked for
        Assert.Contains("ddd HH:mm", Programs[1].Texts);
        Assert.Contains("The service has not answered since {0}. Nothing here is newer than that; countdowns run on from what was known then. Look at the coats yourself.", ScriptWords.Phrases);
    }

    [Fact]
    public void EveryPhrase_IsInGerman() => Assert.Empty(Said.Where(p => !Has(p)).Order(StringComparer.Ordinal));

    [Fact]
    public void EveryNameOfAThing_IsInGerman() => Assert.DoesNotContain(
        Wire<Material>().Concat(Wire<Place>()).Concat(Wire<Stage>()).Select(w => w.Replace('-', ' ')), w => !Has(w));

    [Fact]
    public void NoPhraseOfThePages_IsStale()
    {
        HashSet<string> known = [.. Said, .. Programs.SelectMany(p => p.Texts), .. Wire<Material>(), .. Wire<Place>(), .. Wire<Stage>(), .. Enum.GetValues<Warnings.WarningKind>().Select(BoardWords.Of), .. Enum.GetValues<Handover.HoldKind>().Select(BoardWords.Of)];
        known.UnionWith([.. known.Select(k => k.Replace('-', ' '))]);
        Assert.Empty(PhraseBook.Read("Pages.de.resources").Concat(PhraseBook.Read("Refusals.de.resources")).Select(p => p.Key).Where(k => !known.Contains(k) && !known.Contains(Capital(k))).Order(StringComparer.Ordinal));
    }

    [Fact]
    public void CautionsOfTheSheetsThatShip_AndNoOthers_AreInGerman()
    {
        string[] cautions =
        [
            .. Directory.GetFiles(Path.Combine(AppContext.BaseDirectory, "config", "products"), "*.json")
                .SelectMany(f => ProductFile.Read(f, new Faults())!.Cautions).Distinct().Order(StringComparer.Ordinal),
        ];
        Assert.NotEmpty(cautions);
        Assert.Equal(cautions, PhraseBook.Read("Sheets.de.resources").Select(p => p.Key).Order(StringComparer.Ordinal));
    }

    private static bool IsWords(string phrase) => CureWatch.Words.Phrases.Places(phrase)
        .Aggregate(phrase, (left, place) => left.Replace($"{{{place}}}", "", StringComparison.Ordinal)).Any(char.IsLetter);

    private static bool Has(string phrase) => Language.German.Book.Phrases.ContainsKey(phrase) || Language.German.Book.Find(phrase) != phrase;

    private static string Capital(string phrase) => $"{char.ToUpperInvariant(phrase[0])}{phrase[1..]}";

    private static IEnumerable<string> Wire<T>()
        where T : struct, Enum => Enum.GetValues<T>().Select(WireName<T>.Of);
}
