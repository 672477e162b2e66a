using System.Text;

namespace CureWatch.Service.Demo;

/// <summary>Everybody who does something in the demo, connected from outside: probes and a push-button by MQTT, bookings by HTTP.</summary>
internal sealed class Cast : IAsyncDisposable
{
    private readonly Dictionary<DemoProbe, DemoClient> _probes = [];
    private readonly HttpClient _board;
    private readonly ILogger _log;
    private DemoClient? _button;

    private Cast(Uri board, ILogger log) => (_board, _log) = (new HttpClient { BaseAddress = board }, log);

    public static async Task<Cast> ConnectAsync(DemoAddresses addresses, Earshot earshot, ILogger log, CancellationToken cancelled)
    {
        var cast = new Cast(addresses.Board, log);
        foreach (DemoProbe probe in DemoProbe.All)
        {
            string id = $"demo-{probe.Bay}-{probe.Id}";
            cast._probes[probe] = await DemoClient.ConnectAsync(id, addresses.MqttPort, null, cancelled).ConfigureAwait(false);
        }

        cast._button = await DemoClient.ConnectAsync("demo-people", addresses.MqttPort, earshot.Hear, cancelled).ConfigureAwait(false);
        await cast._button.SubscribeAsync(Earshot.Filter, cancelled).ConfigureAwait(false);
        return cast;
    }

    /// <summary>
    /// Does an act, and returns once it is acknowledged. A refusal is told and the play goes on: whoever looks at the demo may have handed
    /// the car over, or taken a job's name.
    /// </summary>
    public async Task DoAsync(DemoAct act, CancellationToken cancelled)
    {
        string? refusal = act switch
        {
            DemoAct.Published a => await _probes[a.Probe].PublishAsync(a.Probe.Topic, a.Payload, cancelled).ConfigureAwait(false),
            DemoAct.Tapped a => await _button!.PublishAsync($"{DemoDay.Root}/{a.Bay}/tap", a.Payload, cancelled).ConfigureAwait(false),
            DemoAct.BookedIn a => await PostAsync("api/v1/jobs", a.Body, cancelled).ConfigureAwait(false),
            DemoAct.HandedOver a => await PostAsync($"api/v1/jobs/{a.Job}/handover", a.Body, cancelled).ConfigureAwait(false),
            _ => throw new System.Diagnostics.UnreachableException(act.GetType().Name),
        };
        if (refusal is not null)
        {
            Log.ActRefused(_log, act.GetType().Name, act.At, refusal);
        }
    }

    public async ValueTask DisposeAsync()
    {
        foreach (DemoClient client in _probes.Values)
        {
            await client.DisposeAsync().ConfigureAwait(false);
        }

        if (_button is not null)
        {
            await _button.DisposeAsync().ConfigureAwait(false);
        }

        _board.Dispose();
    }

    private async Task<string?> PostAsync(string path, string body, CancellationToken cancelled)
    {
        using var content = new StringContent(body, Encoding.UTF8, "application/json");
        using HttpResponseMessage response = await _board.PostAsync(path, content, cancelled).ConfigureAwait(false);
        return response.IsSuccessStatusCode
            ? null
            : $"{(int)response.StatusCode} {await response.Content.ReadAsStringAsync(cancelled).ConfigureAwait(false)}";
    }
}
