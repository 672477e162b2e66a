using System.Collections.Concurrent;
using System.Diagnostics;
using System.Diagnostics.Metrics;
using System.Net;
using CureWatch.Service.Settings;
using CureWatch.Service.Telemetry;
using CureWatch.Service.Tests.Mqtt;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Hosting;
using Microsoft.AspNetCore.Http;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.Logging;
using OpenTelemetry.Metrics;
using OpenTelemetry.Trace;

namespace CureWatch.Service.Tests.Telemetry;

public sealed class TelemetryRegistrationTests : IAsyncDisposable
{
    private readonly ConcurrentQueue<(string Path, string? Type, byte[] Body)> _received = new();
    private readonly List<WebApplication> _apps = [];

    public async ValueTask DisposeAsync()
    {
        foreach (WebApplication app in _apps)
        {
            await app.DisposeAsync();
        }
    }

    [Fact]
    public async Task Collector_OverHttp_ReceivesMeasurementsAndTracesInProtobuf()
    {
        Uri collector = await CollectAsync();
        WebApplication app = await ServeAsync(TelemetrySettings.Nobody with { Otlp = collector, TraceShare = 1 });
        app.Services.GetRequiredService<Meter>().CreateCounter<long>("curewatch.test.counter").Add(7);
        using (var source = new ActivitySource(Way.Name))
        {
            source.StartActivity("journal batch")!.Dispose();
        }

        Assert.True(app.Services.GetRequiredService<MeterProvider>().ForceFlush());
        Assert.True(app.Services.GetRequiredService<TracerProvider>().ForceFlush());

        (string _, string? type, byte[] body) = Assert.Single(_received, r => r.Path == "/v1/metrics");
        Assert.Equal("application/x-protobuf", type);
        Assert.True(body.AsSpan().IndexOf("curewatch.test.counter"u8) > 0);
        Assert.True(body.AsSpan().IndexOf("service.name"u8) > 0);
        Assert.True(Assert.Single(_received, r => r.Path == "/v1/traces").Body.AsSpan().IndexOf("journal batch"u8) > 0);
    }

    [Fact]
    public async Task Collector_ThatIsNotReached_IsToldOnce_AndWhenItIsAgain()
    {
        Uri collector = await CollectAsync();
        WebApplication gone = _apps[^1];
        await gone.StopAsync(TestContext.Current.CancellationToken);
        var told = new ToldLog<CollectorWatch>();
        WebApplicationBuilder builder = Builder();
        builder.Services.AddSingleton<ILogger<CollectorWatch>>(told).AddTelemetry(builder.Configuration, TelemetrySettings.Nobody with { Otlp = collector });
        WebApplication app = await StartAsync(builder.Build());
        app.Services.GetRequiredService<Meter>().CreateCounter<long>("curewatch.test.counter").Add(7);
        MeterProvider meters = app.Services.GetRequiredService<MeterProvider>();

        meters.ForceFlush();
        meters.ForceFlush();
        Assert.Equal((1, 0), (told.Of(2700), told.Of(2701)));

        await CollectAsync(collector.Port);
        meters.ForceFlush();
        meters.ForceFlush();
        Assert.Equal((1, 1), (told.Of(2700), told.Of(2701)));
    }

    [Fact]
    public async Task Metrics_ArePrintedOnlyWhereTheyAreTurnedOn()
    {
        using var client = new HttpClient();
        WebApplication app = await ServeAsync(TelemetrySettings.Nobody with { Prometheus = true });
        app.Services.GetRequiredService<Meter>().CreateCounter<long>("curewatch.test.counter").Add(7);
        string text = await client.GetStringAsync(new Uri($"{app.Urls.First()}/metrics"), TestContext.Current.CancellationToken);
        Assert.Contains("curewatch_test_counter_total", text, StringComparison.Ordinal);

        WebApplication silent = await ServeAsync(TelemetrySettings.Nobody);
        using HttpResponseMessage none = await client.GetAsync(new Uri($"{silent.Urls.First()}/metrics"), TestContext.Current.CancellationToken);
        Assert.Equal(HttpStatusCode.NotFound, none.StatusCode);
        Assert.Null(silent.Services.GetService<MeterProvider>());
    }

    private async Task<WebApplication> ServeAsync(TelemetrySettings settings)
    {
        WebApplicationBuilder builder = Builder();
        builder.Services.AddTelemetry(builder.Configuration, settings);
        return await StartAsync(builder.Build().MapTelemetry(settings));
    }

    private async Task<Uri> CollectAsync(int port = 0)
    {
        WebApplication app = Builder(port).Build();
        app.Run(async context =>
        {
            using var body = new MemoryStream();
            await context.Request.Body.CopyToAsync(body, context.RequestAborted);
            _received.Enqueue((context.Request.Path, context.Request.ContentType, body.ToArray()));
            context.Response.StatusCode = StatusCodes.Status200OK;
        });
        return new Uri((await StartAsync(app)).Urls.First());
    }

    private async Task<WebApplication> StartAsync(WebApplication app)
    {
        _apps.Add(app);
        await app.StartAsync(TestContext.Current.CancellationToken);
        return app;
    }

    private static WebApplicationBuilder Builder(int port = 0)
    {
        WebApplicationBuilder builder = WebApplication.CreateEmptyBuilder(new WebApplicationOptions());
        builder.WebHost.UseKestrelCore().ConfigureKestrel(o => o.Listen(IPAddress.Loopback, port));
        builder.Services.AddRoutingCore().AddLogging();
        return builder;
    }
}
