using System.Collections.Concurrent;
using System.Diagnostics.Tracing;

namespace CureWatch.Service.Telemetry;

/// <summary>Tells that a collector does not take what it is sent, once, and that it does again: the exporter itself tells it only to those who listen.</summary>
internal sealed class CollectorWatch(ILogger<CollectorWatch> log) : EventListener, IHostedService
{
    private const string Exporter = "OpenTelemetry-Exporter-OpenTelemetryProtocol";
    private const string Success = "ExportSuccess";

    private readonly ConcurrentDictionary<Uri, byte> _failing = new();

    public Task StartAsync(CancellationToken cancellationToken) => Task.CompletedTask;

    public Task StopAsync(CancellationToken cancellationToken) => Task.CompletedTask;

    /// <summary>Called for each source there is, and while the base is made.</summary>
    protected override void OnEventSourceCreated(EventSource eventSource)
    {
        if (eventSource.Name == Exporter)
        {
            EnableEvents(eventSource, EventLevel.Informational);
        }
    }

    protected override void OnEventWritten(EventWrittenEventArgs eventData)
    {
        if (eventData.EventSource.Name != Exporter || eventData.Payload is not [var address, var what, ..] || !Uri.TryCreate($"{address}", UriKind.Absolute, out Uri? collector))
        {
            return;
        }

        if (eventData.EventName == Success)
        {
            if (_failing.TryRemove(collector, out _))
            {
                Log.CollectorReached(log, collector);
            }
        }
        else if (eventData.Level <= EventLevel.Error && _failing.TryAdd(collector, 0))
        {
            Log.CollectorFails(log, collector, $"{what}".Split('\n')[0].Trim());
        }
    }
}
