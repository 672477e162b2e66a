using System.Text;
using CureWatch.Readings;
using CureWatch.Service.Mqtt;
using CureWatch.Service.Settings;

namespace CureWatch.Service.Tests.Mqtt;

/// <summary>A decoder set up the short way.</summary>
internal static class Decoding
{
    public static ReadingDecoder Air { get; } = Of(Measures.Air);

    public static ReadingDecoder Panel { get; } = Of(Measures.Panel);

    public static ReadingDecoder Of(Measures measures, ProbeFields? fields = null, TemperatureUnit unit = TemperatureUnit.Celsius) =>
        new(new ProbeWiring("bay-1", "p", "t", fields, unit), measures);

    public static Decoded Decode(this ReadingDecoder decoder, string payload, bool isRetained = false) =>
        decoder.Decode(Encoding.UTF8.GetBytes(payload), isRetained);
}
