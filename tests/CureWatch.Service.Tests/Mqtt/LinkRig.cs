using CureWatch.Service.Mqtt;
using CureWatch.Service.Pump;
using CureWatch.Service.Settings;
using Microsoft.Extensions.Logging.Abstractions;

namespace CureWatch.Service.Tests.Mqtt;

/// <summary>A link with an external broker, with a stand-in for the pump behind it.</summary>
internal sealed class LinkRig : IAsyncDisposable
{
    private readonly CancellationTokenSource _stopping = new();
    private readonly CatchUp _catchUp;
    private readonly Task _running;

    private LinkRig(ExternalBroker broker, Latest latest, Func<Arrival, Answer?>? answer, TimeProvider time)
    {
        var inbox = new Inbox();
        Pump = new StandInPump(inbox, answer);
        _catchUp = new CatchUp(inbox, TimeProvider.System);
        Link = new BrokerLink(
            broker,
            BrokerRig.Limits,
            new TopicDirectory(latest),
            new Reception(inbox, _catchUp, BrokerRig.Limits, NullLogger<Reception>.Instance),
            Troubles,
            time,
            new Random(1),
            NullLogger<BrokerLink>.Instance);
        Link.Opened += () => Openings++;
        _running = Link.RunAsync(_stopping.Token);
    }

    public BrokerLink Link { get; }

    public StandInPump Pump { get; }

    public Troubles Troubles { get; } = new(TimeProvider.System);

    public int Openings { get; private set; }

    public static ExternalBroker At(int port) => new("127.0.0.1", port, Tls: false, null, null, "curewatch-test", null);

    public static async Task<LinkRig> ConnectAsync(ExternalBroker broker, Func<Arrival, Answer?>? answer = null, Latest? latest = null)
    {
        LinkRig rig = Begin(broker, answer, latest);
        await Eventually.TrueAsync(() => rig.Openings > 0, $"the connection, which {rig.Link.Trouble}");
        return rig;
    }

    public static LinkRig Begin(
        ExternalBroker broker, Func<Arrival, Answer?>? answer = null, Latest? latest = null, TimeProvider? time = null) =>
        new(broker, latest ?? Registers.Latest(), answer, time ?? TimeProvider.System);

    public async ValueTask DisposeAsync()
    {
        await _stopping.CancelAsync();
        await Assert.ThrowsAnyAsync<OperationCanceledException>(() => _running);
        _stopping.Dispose();
        await _catchUp.DisposeAsync();
        await Pump.DisposeAsync();
    }
}
