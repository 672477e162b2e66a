using System.Globalization;
using System.Text;
using CureWatch.Service.Settings;

namespace CureWatch.Service.Tests.Settings;

public sealed class ReadingsFileTests : IDisposable
{
    private const string Header = "time,bay,probe,air_c,humidity_pct,panel_c\n";

    private readonly Written _written = new();
    private readonly Faults _faults = new();

    public void Dispose() => _written.Dispose();

    [Fact]
    public void Row_IsReadWhole()
    {
        ReadingRow row = Read(
            "time,bay,probe,air_c,humidity_pct,panel_c,received_at\n2026-03-02T08:00:00.5+01:00,bay-1,air,-1.25,60,,2026-03-02T07:00:02Z\n").Single();

        Assert.Empty(_faults.All);
        Assert.Equal(new ReadingRow(2, At("2026-03-02T07:00:00.5Z"), At("2026-03-02T07:00:02Z"), "bay-1", "air", -1.25, 60, null), row);
    }

    [Fact]
    public void Row_SaysWhatNumberItsReadingHad_AndWhetherItsProbeHasAClock()
    {
        ReadingRow[] rows =
        [
            .. Read("time,bay,probe,air_c,humidity_pct,panel_c,sequence,clock\n2026-03-02T08:00Z,b,p,20,50,,41,none\n2026-03-02T08:01Z,b,p,20,50,,,\n"),
        ];
        Assert.Equal([(41, false), (null, true)], rows.Select(r => (r.Sequence, r.HasClock)));

        Assert.Empty(Read("time,bay,probe,air_c,humidity_pct,panel_c,sequence,clock\n2026-03-02T08:00Z,b,p,20,50,,-1,own\n"));
        Assert.Equal(["line 2, column sequence", "line 2, column clock"], _faults.All.Select(f => f.Place));
    }

    [Fact]
    public void Columns_MayComeInAnyOrder()
    {
        ReadingRow row = Read("panel_c,probe,time,bay,received_at,humidity_pct,air_c\n12.5,door,2026-03-02T08:00Z,bay-1,,,\n").Single();

        Assert.Equal(new ReadingRow(2, At("2026-03-02T08:00:00Z"), null, "bay-1", "door", null, null, 12.5), row);
    }

    // RFC 4180, section 2: rule 1 (CRLF), 2 (the last line break may be absent), 5 and 7 (quotes); LF and a byte order mark are tolerated.
    [Theory]
    [InlineData("time,bay,probe,air_c,humidity_pct,panel_c\r\n2026-03-02T08:00:00Z,bay-1,air,20,50,\r\n")]
    [InlineData("time,bay,probe,air_c,humidity_pct,panel_c\n2026-03-02T08:00:00Z,bay-1,air,20,50,")]
    [InlineData("\uFEFFtime,bay,probe,air_c,humidity_pct,panel_c\n2026-03-02T08:00:00Z,bay-1,air,20,50,\n")]
    [InlineData("\"time\",\"bay\",probe,air_c,humidity_pct,panel_c\n\"2026-03-02T08:00:00Z\",\"bay-1\",air,\"20\",50,\"\"\n")]
    [InlineData("time,bay,probe,air_c,humidity_pct,panel_c\n\n2026-03-02T08:00:00Z,bay-1,air,20,50,\n\n")]
    public void File_InAnyUsualNotation_IsRead(string text)
    {
        ReadingRow row = Read(text).Single();

        Assert.Empty(_faults.All);
        Assert.Equal(("bay-1", "air", 20, 50, null), (row.Bay, row.Probe, row.AirC, row.HumidityPct, row.PanelC));
    }

    [Fact]
    public void QuotedCell_KeepsItsCommasQuotesAndLineBreaks_AndLinesCountOn()
    {
        List<ReadingRow> rows = Read(
            Header + "2026-03-02T08:00:00Z,\"a,\"\"b\"\"\nc\",air,20,50,\n2026-03-02T08:00:00Z,bay-1,air,20,50,\n");

        Assert.Equal([(2, "a,\"b\"\nc"), (4, "bay-1")], rows.Select(r => (r.Line, r.Bay)));
    }

    [Fact]
    public void File_WithAHeaderAlone_HoldsNoReadings()
    {
        Assert.Empty(Read(Header));
        Assert.Empty(_faults.All);
    }

    [Theory]
    [InlineData("", "line 1", "nothing")]
    [InlineData("time,bay,probe,air_c,humidity_pct\n", "line 1, column panel_c", "nothing")]
    [InlineData("time,bay,probe,air_c,humidity_pct,panel_c,wind\n", "line 1", "wind")]
    [InlineData("Time,bay,probe,air_c,humidity_pct,panel_c\n", "line 1", "Time")]
    [InlineData("time,bay,probe,air_c,humidity_pct,panel_c,bay\n", "line 1, column bay", "bay")]
    [InlineData("time;bay;probe;air_c;humidity_pct;panel_c\n", "line 1", "time;bay;probe;air_c;humidity_pct;panel_c")]
    public void Header_OfAnotherKind_IsRefused(string text, string place, string seen)
    {
        Assert.Empty(Read(text));
        Assert.Contains((place, seen), _faults.All.Select(f => (f.Place, f.Seen)));
    }

    // One mistake is one fault: another separator, no header at all, a column under another name.
    [Theory]
    [InlineData("time;bay;probe;air_c;humidity_pct;panel_c\n")]
    [InlineData("time\tbay\tprobe\tair_c\thumidity_pct\tpanel_c\n")]
    [InlineData("2026-03-02T08:00:00Z,bay-1,air,20,50,\n")]
    [InlineData("\n\n")]
    [InlineData("time,bay,probe,air_f,humidity_pct,panel_c\n")]
    public void Header_WithOneMistake_IsOneFault(string text)
    {
        Assert.Empty(Read(text + "2026-03-02T08:00:00Z,bay-1,air,20,50,\n"));
        Assert.Contains("°C", Assert.Single(_faults.All).Allowed, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("2026-03-02T08:00:00,bay-1,air,20,50,", "time", "2026-03-02T08:00:00")]
    [InlineData(",bay-1,air,20,50,", "time", "nothing")]
    [InlineData("2026-03-02T08:00:00Z,,air,20,50,", "bay", "nothing")]
    [InlineData("2026-03-02T08:00:00Z,bay-1,,20,50,", "probe", "nothing")]
    [InlineData("2026-03-02T08:00:00Z,bay-1,air,\"20,5\",50,", "air_c", "20,5")]
    [InlineData("2026-03-02T08:00:00Z,bay-1,air,20,NaN,", "humidity_pct", "NaN")]
    [InlineData("2026-03-02T08:00:00Z,bay-1,air,20,50,∞", "panel_c", "∞")]
    [InlineData("2026-03-02T08:00:00Z,bay-1,air,20,50,-Infinity", "panel_c", "-Infinity")]
    [InlineData("2026-03-02T08:00:00Z,bay-1,air,1e999,50,", "air_c", "1e999")]
    [InlineData("2026-03-02T08:00:00Z,bay-1,air, 20,50,", "air_c", "20")]
    [InlineData("2026-03-02T08:00:00Z,bay-1,air,1 000,50,", "air_c", "1 000")]
    [InlineData("2026-03-02T08:00:00Z,bay-1,air,20 °C,50,", "air_c", "20 °C")]
    [InlineData("2026-03-02T08:00:00Z,bay-1,air,(20),50,", "air_c", "(20)")]
    public void Cell_ThatCannotBeUsed_IsNamedAndItsRowLeftOut(string line, string column, string seen)
    {
        List<ReadingRow> rows = Read(
            Header + "2026-03-02T08:00:00Z,bay-1,air,20,50,\n" + line + "\n2026-03-02T08:01:00Z,bay-1,air,20,50,\n");

        Assert.Equal([2, 4], rows.Select(r => r.Line));
        Assert.Equal(($"line 3, column {column}", seen), _faults.All.Select(f => (f.Place, f.Seen)).Single());
    }

    [Theory]
    [InlineData("2026-03-02T08:00:00Z,bay-1,air,20,50", "5 cells")]
    [InlineData("2026-03-02T08:00:00Z,bay-1,air,20,5,50,", "7 cells")]
    [InlineData("2026-03-02T08:00:00Z,\"bay-1,air,20,50,", "2 cells")]
    public void Row_OfAnotherWidth_IsRefused(string line, string seen)
    {
        Assert.Empty(Read(Header + line));
        Assert.Equal(("line 2", seen), _faults.All.Select(f => (f.Place, f.Seen)).Single());
    }

    [Fact]
    public void SeveralFaults_InOneRow_AreAllNamed()
    {
        Assert.Empty(Read(Header + "today,,air,warm,50,\n"));
        Assert.Equal(["line 2, column time", "line 2, column bay", "line 2, column air_c"], _faults.All.Select(f => f.Place));
    }

    [Fact]
    public void ValuesNoSensorCanMean_AreNoFaultsOfTheFile()
    {
        ReadingRow row = Read(Header + "2026-03-02T08:00:00Z,bay-1,air,-300,140,9999\n").Single();

        Assert.Empty(_faults.All);
        Assert.Equal((-300, 140, 9999), (row.AirC, row.HumidityPct, row.PanelC));
    }

    [Fact]
    public void ReceivedAt_GoingBackwards_IsRefused()
    {
        List<ReadingRow> rows = Read(
            "time,bay,probe,air_c,humidity_pct,panel_c,received_at\n"
            + "2026-03-02T08:05:00Z,b,p,20,50,,2026-03-02T08:05:01Z\n"
            + "2026-03-02T08:00:00Z,b,p,20,50,,2026-03-02T08:05:01Z\n"
            + "2026-03-02T08:06:00Z,b,p,20,50,,\n"
            + "2026-03-02T08:07:00Z,b,p,20,50,,2026-03-02T08:05:00Z\n"
            + "2026-03-02T08:08:00Z,b,p,20,50,,2026-03-02T08:08:00Z\n");

        Assert.Equal([2, 3, 4, 6], rows.Select(r => r.Line));
        Assert.Equal("line 5, column received_at", Assert.Single(_faults.All).Place);
    }

    [Fact]
    public void Faults_BeyondAHundred_AreCounted()
    {
        Assert.Empty(Read(Header + string.Concat(Enumerable.Repeat("now,bay-1,air,20,50,\n", 105))));

        Assert.Equal(101, _faults.Count);
        Assert.Equal("line 101, column time", _faults.All[99].Place);
        Assert.Equal("and 5 more", _faults.All[100].Seen);
    }

    [Fact]
    public void File_ThatIsMissing_IsAFault()
    {
        Assert.Empty(ReadingsFile.Read(Path.Combine(_written.Folder, "none.csv"), _faults));
        Assert.Equal("no such file", Assert.Single(_faults.All).Seen);
    }

    [Theory]
    [InlineData(" 20", true)]
    [InlineData("20 ", true)]
    [InlineData("20,5", false)]
    [InlineData("2 0", false)]
    public void Cell_WithBlanksAroundIt_IsToldSo(string cell, bool isPadded)
    {
        _ = Read($"{Header}2026-03-02T08:00:00Z,bay-1,air,\"{cell}\",50,\n");

        Assert.Equal(isPadded, Assert.Single(_faults.All).Allowed.EndsWith(", without blanks around it", StringComparison.Ordinal));
    }

    [Fact]
    public void File_ThatIsNone_IsAFaultInPlainWords()
    {
        Assert.Empty(ReadingsFile.Read(_written.Folder, _faults));
        Assert.Empty(ReadingsFile.Read("", _faults));
        Assert.Empty(ReadingsFile.Read("a\0b", _faults));
        Assert.Equal(["a folder", "no name of a file", "no name of a file"], _faults.All.Select(f => f.Seen));
        Assert.Equal("a file without a name", _faults.All[1].File);
    }

    [Theory]
    [InlineData(1)]
    [InlineData(100_000)]
    public void File_InAnotherEncoding_IsAFaultNearTheLine(int rowsBefore)
    {
        string path = _written.File("readings.csv", "");
        string before = Header + string.Concat(Enumerable.Repeat("2026-03-02T08:00:00Z,bay-1,air,20,50,\n", rowsBefore));
        File.WriteAllBytes(path, [.. Encoding.UTF8.GetBytes(before), 0xFC, (byte)'\n']);

        _ = ReadingsFile.Read(path, _faults).Count();

        Assert.Equal("bytes that are no UTF-8, here or below", Assert.Single(_faults.All).Seen);
    }

    [Fact]
    public void Names_AreKeptOnce_AndRowsCostNoMemory()
    {
        const string Row = "2026-03-02T08:00:00Z,bay-1,air,20.25,50.5,18.75\n";
        string few = _written.File("few.csv", Header + string.Concat(Enumerable.Repeat(Row, 1_000)));
        string many = _written.File("many.csv", Header + string.Concat(Enumerable.Repeat(Row, 21_000)));
        _ = AllocatedBy(few);

        Assert.InRange(AllocatedBy(many) - AllocatedBy(few), -200_000, 200_000);
    }

    private static long AllocatedBy(string path)
    {
        long before = GC.GetAllocatedBytesForCurrentThread();
        foreach (ReadingRow row in ReadingsFile.Read(path, new Faults()))
        {
            _ = row;
        }

        return GC.GetAllocatedBytesForCurrentThread() - before;
    }

    private static DateTimeOffset At(string text) => DateTimeOffset.Parse(text, CultureInfo.InvariantCulture);

    private List<ReadingRow> Read(string text) => [.. ReadingsFile.Read(_written.File("readings.csv", text), _faults)];
}
