using System.Text;
using CureWatch.Service.Settings;

namespace CureWatch.Fuzz.Targets;

/// <summary>A file of readings.</summary>
internal sealed class ReadingsTarget : FuzzTarget
{
    /// <summary>The first hundred, and how many more.</summary>
    private const int MostFaults = 101;

    public override string Name => "readings";

    public override IEnumerable<byte[]> Seeds =>
    [
        Encoding.UTF8.GetBytes(string.Join('\n', Encoding.UTF8.GetString(Shipped.File("example", "readings.csv")).Split('\n').Take(8))),
        .. """
            time,received_at,bay,probe,air_c,humidity_pct,panel_c
            2026-03-02T08:00:04Z,2026-03-02T08:00:05Z,bay-1,air,14.29,59.8,
            2026-03-02T08:00:11+01:00,,"bay-1","bon""net",,,1.396e1

            """.Split("\n\n").Select(Encoding.UTF8.GetBytes),
    ];

    protected override (long Fixed, long PerByte) Allowance => (8_000_000, 2_000);

    protected override void TryOn(byte[] input)
    {
        var faults = new Faults();
        DateTimeOffset received = DateTimeOffset.MinValue;
        int line = 1;
        foreach (ReadingRow row in ScratchFile.Read("readings.csv", input, path => ReadingsFile.Read(path, faults).ToList()))
        {
            BrokenPromiseException.Unless(row.Line > line, $"line {row.Line} after line {line}");
            BrokenPromiseException.Unless(row.Bay.Length > 0 && row.Probe.Length > 0, "a row of nothing");
            BrokenPromiseException.Unless(row.Time.Offset == TimeSpan.Zero && row.Time.Year is >= 1899 and <= 2200, $"a row of {row.Time}");
            BrokenPromiseException.Unless(
                new[] { row.AirC, row.HumidityPct, row.PanelC }.All(n => n is null || double.IsFinite(n.Value)), "a number that is none");
            BrokenPromiseException.Unless(row.ReceivedAt is null || row.ReceivedAt >= received, "a row out of order");
            (line, received) = (row.Line, row.ReceivedAt ?? received);
        }

        FaultPromise.Check(isRead: faults.Count == 0, faults.All);
        BrokenPromiseException.Unless(faults.Count <= MostFaults, "faults without end");
    }
}
