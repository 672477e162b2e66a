using System.Buffers;
using System.Collections.Concurrent;
using System.Globalization;
using System.Text.Json;
using CureWatch.Bays;
using CureWatch.Service.Settings;
using MQTTnet;

namespace CureWatch.Service.Demo;

/// <summary>The warnings that are kept on the broker, as somebody hears who subscribed to them.</summary>
internal sealed class Earshot(Stirring stirring)
{
    private readonly ConcurrentDictionary<int, HeardWarning> _standing = new();

    /// <summary>The topics of every warning of the shop.</summary>
    public const string Filter = $"{DemoDay.Root}/+/warnings/+";

    public IEnumerable<HeardWarning> Standing => _standing.Values;

    /// <summary>Whether the warnings that stand in a shop are what is heard, no more and no fewer.</summary>
    public bool IsOf(Shop shop) => shop.Standing.Count == _standing.Count && shop.Standing.Values.All(_standing.ContainsKey);

    public void Hear(MqttApplicationMessage message)
    {
        int number = int.Parse(message.Topic.AsSpan(message.Topic.LastIndexOf('/') + 1), CultureInfo.InvariantCulture);
        if (message.Payload.IsEmpty)
        {
            _ = _standing.TryRemove(number, out _);
        }
        else
        {
            _standing[number] = Read(JsonElement.Parse(message.Payload.ToArray()));
        }

        stirring.Stir();
    }

    private static HeardWarning Read(JsonElement warning) => new(
        warning.GetProperty("kind").GetString()!,
        warning.GetProperty("job").GetString(),
        warning.GetProperty("surface").GetString(),
        Instants.TryParse(warning.GetProperty("raisedAt").GetString()!, out DateTimeOffset at) ? at : default);
}
