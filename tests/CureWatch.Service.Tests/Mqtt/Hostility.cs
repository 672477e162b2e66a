using System.Globalization;
using System.Text;
using CureWatch.Service.Settings;

namespace CureWatch.Service.Tests.Mqtt;

/// <summary>Messages that mean no good, each with the reason it has to be counted under. The same seed gives the same.</summary>
internal sealed class Hostility(int seed, DateTimeOffset now)
{
    public const int PayloadBytes = 4096;

    private static readonly string[] WrongValues = ["null", "true", "[20]", "{}", "\"warm\"", "\"20,5\"", "NaN", "-Infinity", "1e400", "020", "0x14", "--5", "٢٠"];

    private readonly Random _random = new(seed);

    public IEnumerable<Message> Messages(int count) => Enumerable.Range(0, count).Select(_ => Next());

    private Message Next() => _random.Next(15) switch
    {
        0 => Probe("malformed", Truncated()),
        1 => Probe("malformed", $$"""{"temperatureC":{{WrongValue()}},"humidityPct":50}"""),
        2 => Probe("malformed", $$"""{"at":{{WrongValue()}},"temperatureC":20,"humidityPct":50}"""),
        3 => Probe("malformed", Binary(_random.Next(1, 300))),
        4 => Probe("malformed", ""),
        5 => Probe("malformed", Deep()),
        6 => Probe("malformed", [.. Encoding.UTF8.GetBytes("{\"temperatureC\":20,\"humidityPct\":50,\"x\":\""), 0xC3, 0x28, .. "\"}"u8]),
        7 => Probe("too-large", new string((char)_random.Next('0', '9'), _random.Next(PayloadBytes + 1, 20 * PayloadBytes))),
        8 => Probe("out-of-range", Reading(Ago(600), Huge(), 50)),
        9 => Probe("out-of-range", Reading(Ago(600), 20, Huge())),
        10 => Probe("future", Reading(now.AddSeconds(121 + (_random.NextDouble() * 1e9)), 20, 50)),
        11 => Probe("late", Reading(Ago(1e9).AddSeconds(-901), 20, 50)),
        12 => new Message($"{ShopRig.Root}/bay-{_random.Next(5)}/probe/{Word()}", Encoding.UTF8.GetBytes(Reading(now, 20, 50)), "unknown-probe"),
        13 => new Message(Foreign(), Binary(_random.Next(100)), "unknown-probe"),
        _ => Probe("retained-without-time", """{"temperatureC":20,"humidityPct":50}""") with { IsRetained = true },
    };

    private static Message Probe(string reason, string payload) => Probe(reason, Encoding.UTF8.GetBytes(payload));

    private static Message Probe(string reason, byte[] payload) => new(ShopRig.AirTopic, payload, reason);

    private static string Reading(DateTimeOffset at, double airC, double humidityPct) => string.Create(
        CultureInfo.InvariantCulture, $$"""{"at":"{{UtcText.Of(at)}}","temperatureC":{{airC:R}},"humidityPct":{{humidityPct:R}}}""");

    private string Truncated()
    {
        string whole = Reading(Ago(600), 20, 50);
        return whole[..^_random.Next(1, whole.Length - 1)];
    }

    private string WrongValue() => WrongValues[_random.Next(WrongValues.Length)];

    /// <summary>Never a number on its own, and never empty.</summary>
    private byte[] Binary(int length)
    {
        byte[] bytes = new byte[length + 1];
        _random.NextBytes(bytes);
        bytes[0] = 0xFF;
        return bytes;
    }

    private string Deep()
    {
        int depth = _random.Next(65, 1_000);
        return $$"""{"temperatureC":20,"humidityPct":50,"deep":{{new string('[', depth)}}{{new string(']', depth)}}}""";
    }

    private double Huge() => (_random.Next(2) == 0 ? 1 : -1) * Math.Pow(10, 3 + (_random.NextDouble() * 300));

    private DateTimeOffset Ago(double mostSeconds) => now.AddTicks(-(long)(_random.NextDouble() * mostSeconds * TimeSpan.TicksPerSecond) - 1);

    private string Word() => new([.. Enumerable.Range(0, _random.Next(1, 200)).Select(_ => (char)_random.Next('a', 'z'))]);

    private string Foreign() => _random.Next(3) switch
    {
        0 => $"{ShopRig.Root}/bay-1/climate",
        1 => $"{ShopRig.Root}/{Word()}",
        _ => Word(),
    };

    /// <summary>One of them.</summary>
    internal sealed record Message(string Topic, byte[] Payload, string Reason)
    {
        public bool IsRetained { get; init; }
    }
}
