using System.Diagnostics.Metrics;
using CureWatch.Service.People;
using CureWatch.Service.Pump;
using CureWatch.Service.Settings;
using OpenTelemetry.Exporter;
using OpenTelemetry.Metrics;
using OpenTelemetry.Resources;
using OpenTelemetry.Trace;

namespace CureWatch.Service.Telemetry;

/// <summary>Registers what measures the service, and sends it where somebody wants to know.</summary>
internal static class TelemetryRegistration
{
    public const string MeterName = "CureWatch";
    public const string Metrics = "/metrics";

    private const string Variables = "OTEL_";
    private const string EndpointVariable = "OTEL_EXPORTER_OTLP_ENDPOINT";

    /// <summary>Measurements of .NET itself, under the names of OpenTelemetry's conventions.</summary>
    private static readonly string[] OfThePlatform = ["System.Runtime", "Microsoft.AspNetCore.Hosting", "Microsoft.AspNetCore.Server.Kestrel"];

    /// <summary>Measures, which costs next to nothing while nobody looks, and tells whom the settings or the environment name.</summary>
    public static IServiceCollection AddTelemetry(this IServiceCollection services, IConfigurationBuilder configuration, TelemetrySettings settings)
    {
        services.AddMetrics()
            .AddSingleton(p => p.GetRequiredService<IMeterFactory>().Create(MeterName))
            .AddSingleton<IFollower, ReadingMeter>()
            .AddSingleton<IFollower, StateMeter>()
            .AddSingleton<IFollower, Way>();
        var usual = Environment.GetEnvironmentVariables().Cast<System.Collections.DictionaryEntry>()
            .Select(v => new KeyValuePair<string, string?>((string)v.Key, (string?)v.Value))
            .Where(v => v.Key.StartsWith(Variables, StringComparison.Ordinal)).ToDictionary();
        bool isSent = settings.Otlp is not null || usual.ContainsKey(EndpointVariable);
        if (isSent || settings.Prometheus)
        {
            configuration.AddInMemoryCollection(usual);
            Tell(services, settings, isSent);
        }

        return services;
    }

    public static WebApplication MapTelemetry(this WebApplication app, TelemetrySettings settings)
    {
        if (settings.Prometheus)
        {
            app.MapPrometheusScrapingEndpoint(Metrics).LetsEverybody(); // who collects them has no PIN, and a shop that wants them said so
        }

        return app;
    }

    private static void Tell(IServiceCollection services, TelemetrySettings settings, bool isSent)
    {
        if (isSent)
        {
            services.AddHostedService<CollectorWatch>();
        }

        OpenTelemetry.OpenTelemetryBuilder builder = services.AddOpenTelemetry()
            .ConfigureResource(r => r.Clear()
                .AddService("curewatch", serviceVersion: typeof(TelemetryRegistration).Assembly.GetName().Version?.ToString(3), autoGenerateServiceInstanceId: false)
                .AddTelemetrySdk().AddEnvironmentVariableDetector()) // last, so that OTEL_SERVICE_NAME goes before ours
            .WithMetrics(metrics =>
            {
                metrics.AddMeter(MeterName).AddMeter(OfThePlatform);
                if (isSent)
                {
                    metrics.AddOtlpExporter((exporter, reader) =>
                    {
                        Send(exporter, settings, "v1/metrics");
                        reader.PeriodicExportingMetricReaderOptions.ExportIntervalMilliseconds = (int)settings.Every.TotalMilliseconds;
                    });
                }

                if (settings.Prometheus)
                {
                    metrics.AddPrometheusExporter();
                }
            });
        if (isSent && settings.TraceShare > 0)
        {
            builder.WithTracing(traces => traces
                .AddSource(Way.Name)
                .SetSampler(new TraceIdRatioBasedSampler(settings.TraceShare))
                .AddOtlpExporter(exporter => Send(exporter, settings, "v1/traces")));
        }
    }

    /// <summary>An address in the settings goes before the environment's. Over HTTP each kind has a path of its own, over gRPC none.</summary>
    private static void Send(OtlpExporterOptions exporter, TelemetrySettings settings, string path)
    {
        if (settings.Otlp is { } endpoint)
        {
            bool isHttp = settings.Protocol == OtlpProtocol.Http;
            exporter.Protocol = isHttp ? OtlpExportProtocol.HttpProtobuf : OtlpExportProtocol.Grpc;
            exporter.Endpoint = isHttp ? new Uri($"{endpoint.AbsoluteUri.TrimEnd('/')}/{path}") : endpoint;
        }
    }
}
