using System.Text;
using CureWatch.Products;
using CureWatch.Service.Settings;

namespace CureWatch.Service.Tests.Settings;

public class JsonCursorTests
{
    private readonly Faults _faults = new();

    [Fact]
    public void Keys_ThatAreUnknownMissingOrRepeated_AreAllNamed()
    {
        Top("""{"a":1,"a":2,"x/y~z":3}""").Keys(["a", "b"], "c");

        Assert.Equal(
            [("/a", "the key a again"), ("/x~1y~0z", "the key x/y~z"), ("/b", "nothing")],
            _faults.All.Select(f => (f.Place, f.Seen)));
        Assert.Equal("the keys a, b, c", _faults.All[1].Allowed);
    }

    [Fact]
    public void Keys_OfAFileOfAnotherKind_AreCountedFromTheHundredthOn()
    {
        string keys = string.Join(',', Enumerable.Range(0, 20_000).Select(i => $"\"k{i}\":{i}"));
        Top("{\"b\":{" + keys + "}}")["b"].Keys(["a"]);

        Assert.Equal(102, _faults.Count);
        Assert.Equal(("/b/k99", "the key k99"), (_faults.All[99].Place, _faults.All[99].Seen));
        Assert.Equal(("/b", "19900 more such keys"), (_faults.All[100].Place, _faults.All[100].Seen));
        Assert.Equal("/b/a", _faults.All[101].Place);
    }

    [Fact]
    public void SchemaKey_IsAllowedAtTheTopAlone()
    {
        JsonCursor top = Top("""{"$schema":"s","a":{"$schema":"s"}}""");

        Assert.True(top.Keys([], "a"));
        Assert.Empty(_faults.All);
        Assert.True(top["a"].Keys([]));
        Assert.Equal("/a/$schema", Assert.Single(_faults.All).Place);
    }

    [Fact]
    public void Keys_OfSomethingElse_AreRefused()
    {
        Assert.False(Top("[1]").Keys([]));
        Assert.Equal("[1]", Assert.Single(_faults.All).Seen);
    }

    [Fact]
    public void AbsentPlace_AnswersNullWithoutAFault()
    {
        JsonCursor absent = Top("{}")["a"]["b"];

        Assert.True(absent.IsAbsent);
        Assert.Null(absent.Id());
        Assert.Null(absent.Number(NumberRange.From(0, 1, "K")));
        Assert.Null(absent.Integer(0, 1));
        Assert.Null(absent.Duration(TimeSpan.Zero, TimeSpan.MaxValue));
        Assert.Null(absent.Instant());
        Assert.Null(absent.OneOf<Stage>());
        Assert.Null(absent.Text(9));
        Assert.Empty(absent.Items(least: 1));
        Assert.Empty(_faults.All);
    }

    [Theory]
    [InlineData("1.5", 1.5)]
    [InlineData("15e-1", 1.5)]
    [InlineData("10", 10)]
    public void Number_InsideItsRange_IsRead(string json, double value) =>
        Assert.Equal(value, Top($"[{json}]").Items()[0].Number(NumberRange.From(1, 10, "K")));

    [Theory]
    [InlineData("\"1.5\"")]
    [InlineData("0.999")]
    [InlineData("10.001")]
    [InlineData("1e999")]
    [InlineData("-1e999")]
    [InlineData("null")]
    [InlineData("true")]
    [InlineData("[1.5]")]
    public void Number_ThatIsNoneOrOutside_IsRefused(string json)
    {
        Assert.Null(Top($"[{json}]").Items()[0].Number(NumberRange.From(1, 10, "K")));

        Fault fault = Assert.Single(_faults.All);
        Assert.Equal(("/0", json, "a number 1 to 10 K"), (fault.Place, fault.Seen, fault.Allowed));
    }

    [Theory]
    [InlineData("0")]
    [InlineData("100")]
    public void Number_AtTheEndOfAnOpenRange_IsRefused(string json)
    {
        Assert.Null(Top($"[{json}]").Items()[0].Number(NumberRange.Between(0, 100, "%")));
        Assert.Equal("a number above 0, below 100 %", Assert.Single(_faults.All).Allowed);
    }

    [Theory]
    [InlineData("3", 3)]
    [InlineData("3.0", 3)]
    public void Integer_WithoutAFraction_IsRead(string json, int value) => Assert.Equal(value, Top($"[{json}]").Items()[0].Integer(1, 9));

    [Theory]
    [InlineData("3.5")]
    [InlineData("10")]
    [InlineData("0")]
    [InlineData("1e99")]
    [InlineData("\"3\"")]
    public void Integer_OfAnotherKind_IsRefused(string json)
    {
        Assert.Null(Top($"[{json}]").Items()[0].Integer(1, 9));
        Assert.Equal("a whole number 1 to 9", Assert.Single(_faults.All).Allowed);
    }

    [Theory]
    [InlineData("a")]
    [InlineData("7-up")]
    [InlineData("a234567890123456789012345678901234567890")]
    public void Id_InItsForm_IsRead(string id) => Assert.Equal(id, Top($"[\"{id}\"]").Items()[0].Id());

    [Theory]
    [InlineData("\"\"")]
    [InlineData("\"-a\"")]
    [InlineData("\"Bay\"")]
    [InlineData("\"bay_1\"")]
    [InlineData("\"bay\\n\"")]
    [InlineData("\"a2345678901234567890123456789012345678901\"")]
    [InlineData("\"jobs\"")]
    [InlineData("\"status\"")]
    [InlineData("1")]
    public void Id_OfAnotherForm_IsRefused(string json)
    {
        Assert.Null(Top($"[{json}]").Items()[0].Id());
        Assert.Equal(Ids.Allowed, Assert.Single(_faults.All).Allowed);
    }

    [Fact]
    public void EnumValue_IsReadByItsNameInHyphens()
    {
        Assert.Equal(Stage.LevelBy, Top("""["level-by"]""").Items()[0].OneOf<Stage>());
        Assert.Null(Top("""["LevelBy"]""").Items()[0].OneOf<Stage>());
        Assert.Equal(
            "flash | level-by | recoat-from | recoat-by | keep-dry | no-wash | full-cure", Assert.Single(_faults.All).Allowed);
    }

    [Theory]
    [InlineData("\"00:00:59\"")]
    [InlineData("\"01:00:01\"")]
    [InlineData("60")]
    [InlineData("\"1 min\"")]
    public void Duration_OutsideOrOfAnotherForm_IsRefused(string json)
    {
        Assert.Null(Top($"[{json}]").Items()[0].Duration(TimeSpan.FromMinutes(1), TimeSpan.FromHours(1)));
        Assert.Equal("a duration [d.]hh:mm:ss, 00:01:00 to 01:00:00", Assert.Single(_faults.All).Allowed);
    }

    [Theory]
    [InlineData("\" \"")]
    [InlineData("\"a\\u000ab\"")]
    [InlineData("\"abcdefghij\"")]
    [InlineData("7")]
    public void Text_BlankLongOrOfTwoLines_IsRefused(string json)
    {
        Assert.Null(Top($"[{json}]").Items()[0].Text(9));
        Assert.Single(_faults.All);
    }

    [Theory]
    [InlineData("[]", "0")]
    [InlineData("[1,2,3]", "3")]
    [InlineData("7", "7")]
    public void Items_TooFewTooManyOrNone_AreRefused(string json, string seen)
    {
        _ = Top(json).Items(least: 1, most: 2);

        Assert.Equal(seen, Assert.Single(_faults.All).Seen);
    }

    [Theory]
    [InlineData("{\n \"a\": 1,\n}", "line 3")]
    [InlineData("{\"a\": 1} // why", "line 1")]
    [InlineData("\n{\"a\": NaN}", "line 2")]
    [InlineData("{\"a\": 1,5}", "line 1")]
    [InlineData("", "line 1")]
    [InlineData("{\n\"a\":\"\\ud800\"}", "line 2")]
    [InlineData("{} {}", "line 1")]
    public void Document_ThatIsNoJson_NamesTheLine(string text, string place)
    {
        Assert.Null(JsonFile.Parse("f.json", Encoding.UTF8.GetBytes(text), _faults));
        Assert.Equal(place, Assert.Single(_faults.All).Place);
    }

    [Fact]
    public void Document_InAnotherEncoding_NamesTheLine()
    {
        Assert.Null(JsonFile.Parse("f.json", [.. "{\n\"a\":\""u8, 0xFC, .. "\"}"u8], _faults));
        Assert.Equal(("line 2", "bytes that are no UTF-8"), _faults.All.Select(f => (f.Place, f.Seen)).Single());
    }

    [Fact]
    public void Document_WithAByteOrderMark_IsRead() =>
        Assert.True(JsonFile.Parse("f.json", [0xEF, 0xBB, 0xBF, .. "{}"u8], _faults)!.Keys([]));

    [Fact]
    public void File_ThatIsMissing_IsAFault()
    {
        Assert.Null(JsonFile.Open("nowhere/shop.json", _faults));
        Assert.Equal("nowhere/shop.json: file: saw no such file; allowed: a file that can be read", Assert.Single(_faults.All).ToString());
    }

    private JsonCursor Top(string json) => JsonFile.Parse("f.json", Encoding.UTF8.GetBytes(json), _faults)!;
}
