using System.Globalization;
using CureWatch.Words;

namespace CureWatch.Tests.Words;

public class SentenceTests
{
    private static readonly DateTimeOffset At = new(2026, 11, 26, 7, 30, 0, TimeSpan.Zero);

    [Fact]
    public void Sentence_InEnglish_IsTheInterpolatedString()
    {
        string name = "bonnet";
        Sentence said = $"Wait {25} min: {name} is {new Figure.Temperature(9.04, "0.#")}, needs {new Figure.Difference(3, "0.#")}; {At:ddd d MMM HH:mm}, {TimeSpan.FromSeconds(75):m\\:ss}, {0.5:0.00}.";
        Assert.Equal("Wait 25 min: bonnet is 9 °C, needs 3 K; Thu 26 Nov 07:30, 1:15, 0.50.", said.ToString());
        Assert.Equal("Wait {0} min: {1} is {2}, needs {3}; {4}, {5}, {6}.", said.Template);
    }

    [Fact]
    public void Sentence_InAnotherTongue_HasItsWordsOrderNumbersAndDays()
    {
        var tongue = new Reversed(isFahrenheit: false);
        Sentence said = $"{"bonnet"} is {new Figure.Temperature(18.24, "0.#")} since {At:ddd HH:mm}";
        Assert.Equal("Seit Do 07:30: bonnet, 18,2 °C", said.SaidIn(tongue));
    }

    // 18.2 °C is 64.8 °F and 3 K is 5.4 °F, by the definition of the degree Fahrenheit: 1.8 of them a kelvin, 32 at 0 °C.
    [Fact]
    public void Temperature_InFahrenheit_HasAnOffset_AndADifferenceHasNone()
    {
        var tongue = new Reversed(isFahrenheit: true);
        Assert.Equal("64,8 °F", new Figure.Temperature(18.2, "0.#").SaidIn(tongue));
        Assert.Equal("5,4 °F", new Figure.Difference(3, "0.#").SaidIn(tongue));
        Assert.Equal("32 °F", new Figure.Temperature(0, "0.#").SaidIn(tongue));
    }

    [Fact]
    public void Sentence_InsideAnother_IsSaidInTheSameTongue()
    {
        Sentence inner = $"washing";
        Sentence said = $"{inner.Capital()} harms {Sentence.Names(" and ", ["bonnet", "roof"])}{(At.Year > 0 ? inner : $"")}";
        Assert.Equal("Washing harms bonnet and roofwashing", said.ToString());
        Assert.Equal("Waschen schadet bonnet und roof", ((Sentence)$"{inner.Capital()} harms {Sentence.Names(" and ", ["bonnet", "roof"])}").SaidIn(new Reversed(false)));
    }

    [Fact]
    public void Sentences_AreEqual_WhereTheirWordsAndFiguresAre()
    {
        static Sentence Of(string name, double degrees, params string[] others) =>
            $"{name} is {new Figure.Temperature(degrees, "0.#")} like {Sentence.Names(", ", others)}";
        Assert.Equal(Of("roof", 9, "a", "b"), Of("roof", 9, "a", "b"));
        Assert.Equal(Of("roof", 9, "a", "b").GetHashCode(), Of("roof", 9, "a", "b").GetHashCode());
        Assert.NotEqual(Of("roof", 9.01, "a", "b"), Of("roof", 9, "a", "b"));
        Assert.NotEqual(Of("roof", 9, "a", "c"), Of("roof", 9, "a", "b"));
        Assert.NotEqual((Sentence)$"{"roof"}.", (Sentence)$"{"roof"}");
    }

    [Fact]
    public void Join_OfOneOrNone_SaysThatOrNothing()
    {
        Assert.True(Sentence.Join(" ", []).IsNone);
        Assert.Equal("", Sentence.None.ToString());
        Assert.Equal("one", Sentence.Join(", ", [$"one"]).ToString());
        Assert.Equal("one, two", Sentence.Join(", ", [$"one", $"two"]).ToString());
        Assert.Equal("Roof", Sentence.Of(new Figure.Name("roof").Capital()).ToString());
    }

    [Fact]
    public void Sentence_OfTwoLiterals_IsOneTemplate()
    {
        Sentence said = $"{1} of " + $"{2}: " + $"{3} left";
        Assert.Equal("{0} of {1}: {2} left", said.Template);
        Assert.Equal([0, 1, 2], Phrases.Places(said.Template));
    }

    private sealed class Reversed(bool isFahrenheit) : ITongue
    {
        public NumberFormatInfo Numbers { get; } = new() { NumberDecimalSeparator = "," };

        public DateTimeFormatInfo Calendar { get; } = new() { AbbreviatedDayNames = ["So", "Mo", "Di", "Mi", "Do", "Fr", "Sa"] };

        public bool IsFahrenheit => isFahrenheit;

        public string Phrase(string english) => english switch
        {
            "{0} is {1} since {2}" => "Seit {2}: {0}, {1}",
            "{0} harms {1}" => "{0} schadet {1}",
            "washing" => "waschen",
            " and " => " und ",
            _ => english,
        };
    }
}
