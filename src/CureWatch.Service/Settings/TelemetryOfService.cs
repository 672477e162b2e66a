namespace CureWatch.Service.Settings;

/// <summary>Whom the service tells how it works, as people write it.</summary>
internal static class TelemetryOfService
{
    private const string EndpointAllowed = "an address such as http://collector.example:4318, without user, query and fragment";

    private static readonly TimeSpan ShortestEvery = TimeSpan.FromSeconds(1);
    private static readonly TimeSpan LongestEvery = TimeSpan.FromHours(1);
    private static readonly NumberRange Share = NumberRange.From(0, 1, "");

    public static TelemetrySettings Read(JsonCursor telemetry)
    {
        _ = telemetry.Keys([], "otlp", "protocol", "every", "traceShare", "prometheus");
        string? endpoint = telemetry["otlp"].String(IsEndpoint, EndpointAllowed);
        TelemetrySettings usual = TelemetrySettings.Nobody;
        return new TelemetrySettings(
            endpoint is null ? null : new Uri(endpoint),
            telemetry["protocol"].OneOf<OtlpProtocol>() ?? usual.Protocol,
            telemetry["every"].Duration(ShortestEvery, LongestEvery) ?? usual.Every,
            telemetry["traceShare"].Number(Share) ?? usual.TraceShare,
            telemetry["prometheus"].Flag() ?? usual.Prometheus);
    }

    private static bool IsEndpoint(string text) =>
        Uri.TryCreate(text, UriKind.Absolute, out Uri? uri)
        && uri is { Scheme: "http" or "https", UserInfo: "", Query: "", Fragment: "", Host.Length: > 0 };
}
