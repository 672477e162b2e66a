using System.Buffers;
using System.Collections.Immutable;
using System.Text;
using CureWatch.Readings;
using CureWatch.Service.Journal;
using CureWatch.Service.Mqtt;
using CureWatch.Service.Pump;

namespace CureWatch.Fuzz.Targets;

/// <summary>A message of a probe: the first byte says on which topic and whether a broker kept it, the rest is its payload.</summary>
internal sealed class ReadingTarget : FuzzTarget
{
    private const int RetainedBit = 0x40;

    /// <summary>From 1900 to 2199, wherever on earth that was written down.</summary>
    private static readonly DateTimeOffset Earliest = new(1899, 12, 31, 0, 0, 0, TimeSpan.Zero);
    private static readonly DateTimeOffset Latest = new(2200, 1, 2, 0, 0, 0, TimeSpan.Zero);

    public override string Name => "reading";

    public override IEnumerable<byte[]> Seeds =>
    [
        .. from payload in Payloads
           from topic in Enumerable.Range(0, FuzzShop.Topics.Length)
           select (byte[])[(byte)('0' + topic), .. Encoding.UTF8.GetBytes(payload)],
        [(byte)'@', .. """{"at":"2026-03-02T07:59:00Z","temperatureC":20,"humidityPct":50}"""u8],
    ];

    protected override (long Fixed, long PerByte) Allowance => (12_000_000, 200);

    private static string[] Payloads =>
    [
        """{"temperatureC":20.5,"humidityPct":50,"at":"2026-03-02T07:59:00.25+01:00","sequence":7}""",
        """{"a":[{"t":"68.5"},5.0e1],"ts":1772438340,"n":8,"\u0061b":{"deep":[null,true]}}""",
        """{"x/y":[71,{"h":40}],"one":{"t":12.5},"two":{"t":-3},"at":"2026-03-02T07:59:00Z","n":1}""",
        "68.25",
        """{"two":{"t":"1e1"},"at":1772438340000}""",
    ];

    protected override void TryOn(byte[] input)
    {
        if (input.Length == 0)
        {
            return;
        }

        ImmutableArray<ReadingDecoder> probes = FuzzShop.Topics[(input[0] & 0x0F) % FuzzShop.Topics.Length];
        bool isRetained = (input[0] & RetainedBit) != 0;
        foreach (ReadingDecoder decoder in probes)
        {
            Decoded decoded = decoder.Decode(input.AsSpan(1), isRetained);
            if (decoded.Reading is { } reading)
            {
                BrokenPromiseException.Unless(!decoded.SaysNothing, "a reading says nothing");
                BrokenPromiseException.Unless(!isRetained || reading.MeasuredAt is not null, "a kept message without its time was taken");
                CheckRange(reading);
                CheckPacked(reading);
                CheckFold(reading);
                WrittenReading.Check(reading, input.AsMemory(1));
            }
            else
            {
                BrokenPromiseException.Unless(
                    decoded.Refusal is Disbelief.Malformed or Disbelief.RetainedWithoutTime, $"{decoded.Refusal} is for others to say");
            }
        }
    }

    private static void CheckRange(Entry.Reading reading)
    {
        BrokenPromiseException.Unless(
            new[] { reading.AirC, reading.HumidityPct, reading.PanelC }.All(n => n is null || double.IsFinite(n.Value)), "a number that is none");
        BrokenPromiseException.Unless(
            reading is { PanelC: null, AirC: not null, HumidityPct: not null } or { PanelC: not null, AirC: null, HumidityPct: null }, "half a reading");
        BrokenPromiseException.Unless(
            reading.MeasuredAt is null || (reading.MeasuredAt >= Earliest && reading.MeasuredAt < Latest), "a time that nobody can mean");
        BrokenPromiseException.Unless(reading.Sequence is null or (>= 0 and < 1L << 53), "a number of a reading that JSON cannot hold");
    }

    private static void CheckPacked(Entry.Reading reading)
    {
        var bytes = new ArrayBufferWriter<byte>();
        PackedReading.Write(reading, bytes);
        BrokenPromiseException.Unless(PackedReading.Read(bytes.WrittenSpan, reading.Sequence is not null) == reading, "the journal holds another reading");
    }

    private static void CheckFold(Entry.Reading reading)
    {
        int more = CountIn(FuzzShop.Take([reading], FuzzShop.Now)) - CountIn(FuzzShop.Register);
        BrokenPromiseException.Unless(more == 1, $"a reading was counted {more} times");
    }

    private static int CountIn(Register register) => register.Shop!.Tally.Accepted + register.Shop.Tally.Rejected.Values.Sum();
}
