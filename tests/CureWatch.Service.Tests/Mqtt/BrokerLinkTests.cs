using System.Collections.Concurrent;
using CureWatch.Readings;
using CureWatch.Service.Journal;
using CureWatch.Service.Mqtt;
using CureWatch.Service.Pump;
using CureWatch.Service.Settings;
using CureWatch.Warnings;

namespace CureWatch.Service.Tests.Mqtt;

/// <summary>Against a real external broker.</summary>
public class BrokerLinkTests
{
    private const string Timed = """{"at":"2026-03-02T08:00:00Z","temperatureC":20,"humidityPct":50}""";
    private const string Untimed = """{"temperatureC":20,"humidityPct":50}""";
    private const string Status = $"{Registers.Root}/status";

    [Fact]
    public async Task Reading_OnADefaultOrAnOwnTopic_ReachesThePump()
    {
        await using Mosquitto broker = await Mosquitto.StartAsync();
        await using LinkRig rig = await LinkRig.ConnectAsync(LinkRig.At(broker.Port));

        await Mosquitto.PublishAsync(broker.Port, "-V", "5", "-q", "1", "-t", Registers.AirTopic, "-m", Timed);
        await Mosquitto.PublishAsync(broker.Port, "-V", "311", "-i", "post", "-t", "yard/weather-post", "-m", """{"sent":1772438400,"outdoor":{"temperature":"50","humidity":80}}""");

        await Eventually.TrueAsync(() => rig.Pump.Readings.Count() == 2, "both readings");
        Assert.Contains(new Entry.Reading("bay-1", "yard", new DateTimeOffset(2026, 3, 2, 8, 0, 0, TimeSpan.Zero), 10, 80, null), rig.Pump.Readings);
    }

    [Theory]
    [InlineData(Registers.AirTopic, "20,5", "Malformed bay-1/air")]
    [InlineData($"{Registers.Root}/bay-1/probe/attic", Timed, "UnknownProbe bay-1/attic")]
    public async Task Message_ThatCannotBeUsed_IsCounted(string topic, string payload, string counted)
    {
        await using Mosquitto broker = await Mosquitto.StartAsync();
        await using LinkRig rig = await LinkRig.ConnectAsync(LinkRig.At(broker.Port));
        await Mosquitto.PublishAsync(broker.Port, "-V", "5", "-t", topic, "-m", payload);
        await rig.Pump.RefusesAsync(counted);
    }

    [Fact]
    public async Task Message_KeptByTheBroker_CountsOnlyWithATime()
    {
        await using Mosquitto broker = await Mosquitto.StartAsync();
        await Mosquitto.PublishAsync(broker.Port, "-V", "5", "-r", "-t", Registers.AirTopic, "-m", Untimed);
        await Mosquitto.PublishAsync(broker.Port, "-V", "5", "-r", "-t", Registers.AirTopic.Replace("bay-1", "bay-2", StringComparison.Ordinal), "-m", Timed);
        await Mosquitto.PublishAsync(broker.Port, "-V", "5", "-r", "-t", $"{Registers.Root}/bay-1/tap", "-m", """{"job":"x","at":"2026-03-02T08:00:00Z","did":"washed"}""");

        await using LinkRig rig = await LinkRig.ConnectAsync(LinkRig.At(broker.Port));

        await Eventually.TrueAsync(() => rig.Pump.Refusals.Count() == 2, "the refusals");
        Assert.Equal(["RetainedTap bay-1/tap", "RetainedWithoutTime bay-1/air"], rig.Pump.Refusals.Order());
        await Eventually.TrueAsync(() => rig.Pump.Readings.Any(), "the reading with a time");
        Assert.DoesNotContain(rig.Pump.Taken, a => a is Arrival.Tap);
    }

    [Fact]
    public async Task Message_NotOnDiskYet_ComesAgainOnTheNextConnection()
    {
        await using Mosquitto broker = await Mosquitto.StartAsync();
        var held = new ConcurrentQueue<Arrival>();
        LinkRig crashed = await LinkRig.ConnectAsync(LinkRig.At(broker.Port), arrival =>
        {
            held.Enqueue(arrival);
            return null;
        });
        for (int i = 0; i < 3; i++)
        {
            await Mosquitto.PublishAsync(broker.Port, "-V", "5", "-q", "1", "-t", Registers.AirTopic, "-m", Timed);
        }

        await Eventually.TrueAsync(() => held.Count == 3, "three readings");
        held.First().Complete(Answer.Stored.Plain);
        await Eventually.TrueAsync(() => held.First().Answered.IsCompleted, "the answer");
        await crashed.DisposeAsync();
        held.Last().Complete(Answer.Stored.Plain);

        await using LinkRig rig = await LinkRig.ConnectAsync(LinkRig.At(broker.Port));
        await Eventually.TrueAsync(() => rig.Pump.Readings.Count() >= 2, "what was not acknowledged");
    }

    [Fact]
    public async Task Message_ThatCannotBeStored_ComesAgain()
    {
        await using Mosquitto broker = await Mosquitto.StartAsync();
        int asked = 0;
        await using LinkRig rig = await LinkRig.ConnectAsync(
            LinkRig.At(broker.Port), _ => Interlocked.Increment(ref asked) == 1 ? new Answer.NotStored("the disk is full") : Answer.Stored.Plain);

        await Mosquitto.PublishAsync(broker.Port, "-V", "5", "-q", "1", "-t", Registers.AirTopic, "-m", Timed);

        await Eventually.TrueAsync(() => rig.Pump.Readings.Count() == 2, "the reading again");
        await Eventually.TrueAsync(() => rig.Openings == 2, "the second connection"); // the reading may be here before that is told
    }

    [Fact]
    public async Task Backlog_OfABrokerWithoutTimes_CountsItsNewestOnly()
    {
        await using Mosquitto broker = await Mosquitto.StartAsync();
        await (await LinkRig.ConnectAsync(LinkRig.At(broker.Port))).DisposeAsync();
        for (int i = 1; i <= 10; i++)
        {
            await Mosquitto.PublishAsync(broker.Port, "-V", "5", "-q", "1", "-t", Registers.AirTopic, "-m", $$"""{"temperatureC":{{i}},"humidityPct":50}""");
        }

        await using LinkRig rig = await LinkRig.ConnectAsync(LinkRig.At(broker.Port));

        await Eventually.TrueAsync(() => rig.Pump.Readings.Any(), "the newest");
        Assert.Equal([10.0], rig.Pump.Readings.Select(r => r.AirC));
        Assert.Equal(Enumerable.Repeat($"{Disbelief.Late} bay-1/air", 9), rig.Pump.Refusals);
    }

    [Fact]
    public async Task Broker_ThatComesBack_IsFoundAgain()
    {
        await using Mosquitto broker = await Mosquitto.StartAsync();
        await using LinkRig rig = await LinkRig.ConnectAsync(LinkRig.At(broker.Port));
        await broker.StopAsync();
        await Eventually.TrueAsync(() => rig.Link.Trouble is not null, "the loss");
        await Assert.ThrowsAsync<BrokerAwayException>(() => rig.Link.KeepAsync(Status, "x"u8.ToArray(), TestContext.Current.CancellationToken));

        await broker.StartAsync();

        await Eventually.TrueAsync(() => rig.Openings == 2, "the connection");
        await Mosquitto.PublishAsync(broker.Port, "-V", "5", "-q", "1", "-t", Registers.AirTopic, "-m", Timed);
        await Eventually.TrueAsync(() => rig.Pump.Readings.Any(), "the reading");
        Assert.Null(rig.Link.Trouble);
        Assert.Empty(rig.Troubles.Standing); // it was back before anybody had to be told
    }

    [Fact]
    public async Task Broker_ThatStaysAway_IsATrouble_UntilItIsBackForGood()
    {
        await using Mosquitto broker = await Mosquitto.StartAsync();
        await using LinkRig rig = LinkRig.Begin(LinkRig.At(broker.Port), time: new HastyTime());
        await Eventually.TrueAsync(() => rig.Link.Trouble is null, "the connection");
        Assert.Empty(rig.Troubles.Standing);
        await broker.KillAsync();

        await Eventually.TrueAsync(() => rig.Troubles.Of(WarningKind.BrokerTrouble) is not null, "the trouble");

        Assert.EndsWith($"(127.0.0.1, port {broker.Port})", rig.Troubles.Standing[0].Why, StringComparison.Ordinal);
        await broker.StartAsync();
        await Eventually.TrueAsync(() => rig.Troubles.Standing.IsEmpty, "the end of the trouble");
        Assert.Null(rig.Link.Trouble);
    }

    [Fact]
    public async Task Message_ThatCannotBeStoredForMinutes_IsNoTroubleOfTheBroker()
    {
        await using Mosquitto broker = await Mosquitto.StartAsync();
        var time = new HastyTime();
        long begun = time.GetTimestamp();
        await using LinkRig rig = LinkRig.Begin(LinkRig.At(broker.Port), _ => new Answer.NotStored("the disk is full"), time: time);
        await Eventually.TrueAsync(() => rig.Openings == 1, "the connection");

        await Mosquitto.PublishAsync(broker.Port, "-V", "5", "-q", "1", "-t", Registers.AirTopic, "-m", Timed);

        await Eventually.TrueAsync(() => rig.Openings > 3 && time.GetElapsedTime(begun) > TimeSpan.FromMinutes(1), "it to be sent again and again");
        Assert.Empty(rig.Troubles.Standing);
    }

    [Fact]
    public async Task Broker_ThatIsNotThereYet_IsWaitedFor()
    {
        await using Mosquitto broker = await Mosquitto.StartAsync();
        await broker.StopAsync();
        await using LinkRig rig = LinkRig.Begin(LinkRig.At(broker.Port));
        await Eventually.TrueAsync(() => rig.Link.Trouble is not (null or "not connected yet"), "a failure");
        await broker.StartAsync();
        await Eventually.TrueAsync(() => rig.Openings == 1, "the connection");
    }

    [Fact]
    public async Task Status_OfAProgramThatDied_IsOfflineByWill()
    {
        await using Mosquitto broker = await Mosquitto.StartAsync();
        LinkRig rig = await LinkRig.ConnectAsync(LinkRig.At(broker.Port));
        await rig.Link.KeepAsync(Status, "online"u8.ToArray(), TestContext.Current.CancellationToken);
        await using Watcher watcher = await Watcher.ConnectAsync(broker.Port);
        await watcher.SeesAsync(Status, s => s == "online");

        await rig.DisposeAsync();

        await watcher.SeesAsync(Status, s => s == "offline");
        await using Watcher late = await Watcher.ConnectAsync(broker.Port, "late");
        await late.SeesAsync(Status, s => s == "offline");
    }

    [Fact]
    public async Task Topic_OfNewSettings_IsSubscribedAtOnce()
    {
        await using Mosquitto broker = await Mosquitto.StartAsync();
        Latest latest = Registers.Latest();
        await using LinkRig rig = await LinkRig.ConnectAsync(LinkRig.At(broker.Port), null, latest);
        ProbeWiring first = Registers.Shop.Wiring[0];
        ShopSettings changed = Registers.Shop with { Wiring = Registers.Shop.Wiring.Replace(first, first with { Topic = "moved/here" }) };
        latest.Register = latest.Register with { Settings = latest.Register.Settings with { Shop = changed } };
        var entry = new Entry.SettingsChanged(new SettingsItem(SettingsItem.Shop, "ottermoss-works", 0), "", "", SettingsOrigin.Board);

        rig.Link.Follow(new Commit([new Step(1, default, entry, [], latest.Register)], latest.Register));
        await Eventually.TrueAsync(
            () =>
            {
                Mosquitto.PublishAsync(broker.Port, "-V", "5", "-t", "moved/here", "-m", Timed).Wait(TestContext.Current.CancellationToken);
                return rig.Pump.Readings.Any();
            },
            "the reading on the new topic");
    }
}
