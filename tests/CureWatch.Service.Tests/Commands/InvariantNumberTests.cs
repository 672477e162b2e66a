namespace CureWatch.Service.Tests.Commands;

public class InvariantNumberTests
{
    [Theory]
    [InlineData("1,5")]
    [InlineData("1.000,5")]
    [InlineData("NaN")]
    [InlineData("∞")]
    [InlineData("Infinity")]
    [InlineData("1e400")]
    [InlineData("0x10")]
    [InlineData("twenty")]
    [InlineData("")]
    public void Text_ThatIsNoNumber_IsRefusedWithTheValueSeen(string text)
    {
        Invocation run = Invocation.Of("climate", "--air", text, "--humidity", "50");
        run.AssertRefused("--air");
        Assert.Contains($"saw '{text}'; allowed: a number written like 20.5", run.Error, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("--air", "-60.1", "-60 to 80")]
    [InlineData("--air", "80.1", "-60 to 80")]
    [InlineData("--humidity", "0", "above 0, up to 100")]
    [InlineData("--humidity", "100.1", "above 0, up to 100")]
    [InlineData("--panel", "101", "-60 to 100")]
    [InlineData("--pressure", "499", "500 to 1100")]
    public void Number_OutsideItsRange_IsRefusedWithTheRange(string option, string text, string range)
    {
        var values = new Dictionary<string, string> { ["--air"] = "20", ["--humidity"] = "50", [option] = text };
        Invocation run = Invocation.Of(["climate", .. values.SelectMany(v => new[] { v.Key, v.Value })]);
        run.AssertRefused(option);
        Assert.Contains(range, run.Error, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("-5")]
    [InlineData("-5.0")]
    [InlineData("-0.5e1")]
    public void Number_BelowZero_IsNoOption(string text)
    {
        Invocation run = Invocation.Of("climate", "--air", text, "--humidity", "50", "--json");
        Assert.Contains("\"airC\":-5,", run.Output, StringComparison.Ordinal);
    }
}
