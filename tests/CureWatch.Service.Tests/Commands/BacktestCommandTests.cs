using System.Globalization;
using System.Text;
using System.Text.Json;

namespace CureWatch.Service.Tests.Commands;

public sealed class BacktestCommandTests : IDisposable
{
    private readonly string _file = Path.GetTempFileName();

    public void Dispose() => File.Delete(_file);

    // A day and a half of weather that an hourly forecast can know: warm afternoons. The clocks go back on the 25th, so that one hour comes twice.
    [Fact]
    public void DaysOfAnAutumn_AreForecastBetterThanHeld_OverTheHourThatComesTwice()
    {
        Write(Rows(new DateTimeOffset(2026, 10, 5, 0, 0, 0, TimeSpan.Zero), days: 28));

        Invocation run = Invocation.Of("backtest", "--readings", _file, "--bay", "hall", "--hours", "12", "--json");

        Assert.Equal(0, run.ExitCode);
        using var document = JsonDocument.Parse(run.Output);
        JsonElement root = document.RootElement;
        Assert.Equal(("hall", "post"), (root.GetProperty("bay").GetString(), root.GetProperty("probe").GetString()));
        JsonElement[] leads = [.. root.GetProperty("leads").EnumerateArray()];
        Assert.Equal(Enumerable.Range(1, 12), leads.Select(l => l.GetProperty("hours").GetInt32()));
        JsonElement six = leads[5].GetProperty("temperature");
        Assert.True(six.GetProperty("rmse").GetDouble() < six.GetProperty("persistenceRmse").GetDouble());
        Assert.InRange(six.GetProperty("coverage80").GetDouble(), 0.7, 0.9);
        Assert.True(leads[5].GetProperty("dewPoint").GetProperty("rmse").GetDouble() > 0);
    }

    [Fact]
    public void WithoutJson_ItIsATable()
    {
        Write(Rows(new DateTimeOffset(2026, 10, 5, 0, 0, 0, TimeSpan.Zero), days: 8));

        Invocation run = Invocation.Of("backtest", "--readings", _file, "--bay", "hall");

        Assert.Contains("  24 h", run.Output, StringComparison.Ordinal);
        Assert.Contains("probe post", run.Output, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("pit", "pit")]
    [InlineData("hall", "at least 73 hours")]
    public void BayNobodyMeasured_OrForTooShort_IsRefused(string bay, string told)
    {
        Write(Rows(new DateTimeOffset(2026, 10, 5, 0, 0, 0, TimeSpan.Zero), days: 2));

        Invocation run = Invocation.Of("backtest", "--readings", _file, "--bay", bay);

        Assert.Equal((2, ""), (run.ExitCode, run.Output));
        Assert.Contains(told, Assert.Single(run.Error.TrimEnd().Split('\n')), StringComparison.Ordinal);
    }

    // Nothing is lost in silence: a file that runs backwards is refused with the reason, and one of which a part came late says how much.
    [Fact]
    public void RowsThatRunBackwards_AreRefused_WithWhyTheyAreNotBelieved()
    {
        string[] rows = [.. Rows(new DateTimeOffset(2026, 10, 5, 0, 0, 0, TimeSpan.Zero), days: 8)];
        Write(rows.Reverse());

        Invocation run = Invocation.Of("backtest", "--readings", _file, "--bay", "hall", "--json");

        Assert.Equal((2, ""), (run.ExitCode, run.Output));
        Assert.Contains($"1 believed, {rows.Length - 1} late", Assert.Single(run.Error.TrimEnd().Split('\n')), StringComparison.Ordinal);
    }

    [Fact]
    public void RowsThatAreNotBelieved_AreCountedByReason_InBothForms()
    {
        string[] rows = [.. Rows(new DateTimeOffset(2026, 10, 5, 0, 0, 0, TimeSpan.Zero), days: 8)];
        Write([.. rows, .. rows.Take(70), rows[^1]]);

        Invocation run = Invocation.Of("backtest", "--readings", _file, "--bay", "hall", "--json");

        using var document = JsonDocument.Parse(run.Output);
        JsonElement readings = document.RootElement.GetProperty("readings");
        Assert.Equal(rows.Length, readings.GetProperty("accepted").GetInt32());
        Assert.Equal(
            [("duplicate", 1), ("late", 70)],
            readings.GetProperty("rejected").EnumerateArray().Select(r => (r.GetProperty("reason").GetString()!, r.GetProperty("count").GetInt32())));
        Assert.Contains(", 1 duplicate, 70 late", Invocation.Of("backtest", "--readings", _file, "--bay", "hall").Output, StringComparison.Ordinal);
    }

    // A series of temperatures alone was refused, and a row without humidity was gone without a word.
    [Fact]
    public void SeriesOfTemperatures_IsForecast_WithoutADewPoint()
    {
        string[] rows = [.. Rows(new DateTimeOffset(2026, 10, 5, 0, 0, 0, TimeSpan.Zero), days: 28)];
        Write(rows.Select(WithoutHumidity));

        Invocation run = Invocation.Of("backtest", "--readings", _file, "--bay", "hall", "--hours", "6", "--json");

        using var document = JsonDocument.Parse(run.Output);
        JsonElement six = document.RootElement.GetProperty("leads")[5];
        Assert.Equal(JsonValueKind.Null, six.GetProperty("dewPoint").GetProperty("rmse").ValueKind);
        Assert.True(six.GetProperty("temperature").GetProperty("rmse").GetDouble() < six.GetProperty("temperature").GetProperty("persistenceRmse").GetDouble());
        Assert.Equal(rows.Length, document.RootElement.GetProperty("readings").GetProperty("accepted").GetInt32());
    }

    [Fact]
    public void RowsWithoutHumidity_AmongOthersWithIt_AreCounted()
    {
        string[] rows = [.. Rows(new DateTimeOffset(2026, 10, 5, 0, 0, 0, TimeSpan.Zero), days: 8)];
        Write(rows.Select((r, i) => i % 10 == 0 ? WithoutHumidity(r) : r));

        Invocation run = Invocation.Of("backtest", "--readings", _file, "--bay", "hall", "--json");

        using var document = JsonDocument.Parse(run.Output);
        JsonElement rejected = Assert.Single(document.RootElement.GetProperty("readings").GetProperty("rejected").EnumerateArray());
        Assert.Equal(("malformed", (rows.Length + 9) / 10), (rejected.GetProperty("reason").GetString(), rejected.GetProperty("count").GetInt32()));
    }

    private static string WithoutHumidity(string row) => string.Join(',', row.Split(',').Select((cell, i) => i == 4 ? "" : cell));

    // A reading a day says nothing of hours: that is no answer full of gaps, but no answer.
    [Fact]
    public void RowsTooFarApart_ForAnyForecast_AreRefused()
    {
        Write(Rows(new DateTimeOffset(2026, 10, 5, 0, 0, 0, TimeSpan.Zero), days: 28).Where((_, i) => i % 72 == 0));

        Invocation run = Invocation.Of("backtest", "--readings", _file, "--bay", "hall", "--json");

        Assert.Equal((2, ""), (run.ExitCode, run.Output));
        Assert.Single(run.Error.TrimEnd().Split('\n'));
    }

    [Fact]
    public void Hours_BeyondThree_Days_AreRefused() =>
        Assert.Equal(2, Invocation.Of("backtest", "--readings", _file, "--bay", "hall", "--hours", "73").ExitCode);

    private void Write(IEnumerable<string> rows) =>
        File.WriteAllLines(_file, rows.Prepend("time,bay,probe,air_c,humidity_pct,panel_c"), new UTF8Encoding(false));

    /// <summary>Twenty minutes apart, as a thermometer in whole °F says it, told by a wall clock in Berlin, with an hour missing now and then.</summary>
    private static IEnumerable<string> Rows(DateTimeOffset from, int days)
    {
        TimeZoneInfo berlin = TimeZoneInfo.FindSystemTimeZoneById("Europe/Berlin");
        for (int step = 0; step < days * 72; step++)
        {
            if (step % 200 is > 150 and < 154)
            {
                continue;
            }

            DateTimeOffset at = from.AddMinutes(20 * step);
            double hour = step / 3.0;
            double celsius = 12 + (5 * Math.Cos(2 * Math.PI * (hour - 14) / 24)) + (2 * Math.Sin(hour / 17)) + Math.Sin(hour / 5.3);
            double fahrenheit = Math.Round((celsius * 9 / 5) + 32);
            string told = TimeZoneInfo.ConvertTime(at, berlin).ToString("yyyy-MM-ddTHH:mm:sszzz", CultureInfo.InvariantCulture);
            yield return string.Create(CultureInfo.InvariantCulture, $"{told},hall,post,{(fahrenheit - 32) * 5 / 9:0.00},{60 + (10 * Math.Sin(hour / 9)):0.0},");
        }
    }
}
