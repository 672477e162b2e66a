using CureWatch.Service.Settings;

namespace CureWatch.Service.Mqtt;

/// <summary>Opens the shop to MQTT, by the broker inside or by one outside, and closes it again.</summary>
internal sealed class MqttService(MqttSettings settings, Outputs outputs, CatchUp catchUp, IServiceProvider services, ILogger<MqttService> log)
    : IHostedService, IDisposable
{
    /// <summary>A broker that is gone must not hold up the end. Source (choice).</summary>
    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(2);

    private readonly CancellationTokenSource _endPublishing = new(), _endLink = new();
    private EmbeddedBroker? _embedded;
    private Task _publishing = Task.CompletedTask, _linking = Task.CompletedTask;
    private bool _isOpen;

    /// <summary>Where clients reach the broker, once it is started.</summary>
    public string Address => _embedded is { } broker
        ? $"mqtt://127.0.0.1:{broker.Port}"
        : $"{(settings.External!.Tls ? "mqtts" : "mqtt")}://{settings.External.Host}:{settings.External.Port}";

    /// <exception cref="IOException">The embedded broker's port cannot be listened on.</exception>
    public async Task StartAsync(CancellationToken cancellationToken)
    {
        if (settings.External is null)
        {
            _embedded = services.GetRequiredService<EmbeddedBroker>();
            await _embedded.StartAsync().ConfigureAwait(false);
            outputs.Refresh();
        }
        else
        {
            BrokerLink link = services.GetRequiredService<BrokerLink>();
            link.Opened += outputs.Refresh;
            link.Found += outputs.Find;
            _linking = link.RunAsync(_endLink.Token);
        }

        _publishing = outputs.RunAsync(_endPublishing.Token);
        _isOpen = true;
    }

    public async Task StopAsync(CancellationToken cancellationToken)
    {
        await catchUp.DisposeAsync().ConfigureAwait(false);
        await EndAsync(_endPublishing, _publishing).ConfigureAwait(false); // nothing says that the shop is there once it has signed off
        if (_isOpen)
        {
            await SignOffAsync().ConfigureAwait(false);
        }

        await EndAsync(_endLink, _linking).ConfigureAwait(false);
        if (_embedded is not null)
        {
            await _embedded.StopAsync().ConfigureAwait(false);
        }
    }

    public void Dispose()
    {
        _endPublishing.Dispose();
        _endLink.Dispose();
    }

    private static async Task EndAsync(CancellationTokenSource cancellation, Task running)
    {
        await cancellation.CancelAsync().ConfigureAwait(false);
        try
        {
            await running.ConfigureAwait(false);
        }
        catch (OperationCanceledException)
        {
            // It was told to end.
        }
    }

    private async Task SignOffAsync()
    {
        using var patience = new CancellationTokenSource(Patience, TimeProvider.System);
        try
        {
            await outputs.SignOffAsync(patience.Token).ConfigureAwait(false);
        }
        catch (Exception e) when (e is IOException or OperationCanceledException)
        {
            Log.NotPublished(log, e);
        }
    }
}
