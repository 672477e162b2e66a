namespace CureWatch.Benchmarks.Kills;

/// <summary>Everybody who sends to the shop or listens to it, over all its lives.</summary>
internal sealed class Crew
{
    private readonly List<LoadedProbe> _probes = [];
    private readonly List<Technician> _technicians = [];

    public Crew()
    {
        // Fresh coats are looked at with every reading of their bay, which costs a millisecond: the flood goes to the bays without a car.
        string[] worked = LoadedShop.Bays[..2];
        foreach (string bay in LoadedShop.Bays)
        {
            TimeSpan often = TimeSpan.FromMilliseconds(worked.Contains(bay) ? 500 : 25), seldom = TimeSpan.FromSeconds(4);
            _probes.Add(new LoadedProbe(bay, "air-0", often, TimeSpan.Zero, Ledger));
            _probes.Add(new LoadedProbe(bay, "air-1", often, clockAhead: TimeSpan.FromSeconds(20), Ledger));
            _probes.Add(new LoadedProbe(bay, "panel", often, TimeSpan.Zero, Ledger));
            _probes.Add(new LoadedProbe(bay, "seldom", seldom, TimeSpan.Zero, Ledger));
        }

        _technicians.Add(new Technician("button", worked[0], hasButton: true, Ledger));
        _technicians.Add(new Technician("board", worked[1], hasButton: false, Ledger));
    }

    /// <summary>What they sent, and what was acknowledged.</summary>
    public Ledger Ledger { get; } = new();

    /// <summary>The warnings they heard.</summary>
    public HeardWarnings Heard { get; } = new();

    /// <summary>Sends until anything came through: an external broker takes what nobody has asked it for yet, and forgets it.</summary>
    public static async Task HeardAsync(Addresses addresses, Func<Task<bool>> hasHeard)
    {
        using Connected broker = await Connected.ToAsync(addresses.MqttPort, "first", CancellationToken.None);
        while (!await hasHeard())
        {
            var letter = new Letter("", $"{LoadedShop.Root}/{LoadedShop.Bays[0]}/probe/air-0", """{"temperatureC":20,"humidityPct":50}""");
            await broker.PublishAsync(letter, new Ledger(), CancellationToken.None);
            await Task.Delay(TimeSpan.FromMilliseconds(50), TimeProvider.System);
        }
    }

    /// <summary>Sends and listens until the program is gone.</summary>
    /// <param name="addresses">Where it is reached.</param>
    /// <param name="isGoing">Whether it is on its way out, so that whatever a sender meets is what it should meet.</param>
    /// <param name="cancelled">Ends it.</param>
    public Task WorkAsync(Addresses addresses, Func<bool> isGoing, CancellationToken cancelled) => Task.WhenAll(
    [
        .. _probes.Select(p => UntilGoneAsync(p.RunAsync(addresses.MqttPort, cancelled), isGoing)),
        .. _technicians.Select(t => UntilGoneAsync(t.RunAsync(addresses, cancelled), isGoing)),
        UntilGoneAsync(Heard.RunAsync(addresses.MqttPort, cancelled), isGoing),
    ]);

    /// <summary>Sends what is still open, and nothing new.</summary>
    public async Task SettleAsync(Addresses addresses, CancellationToken cancelled)
    {
        await Task.WhenAll(_probes.Select(p => p.SettleAsync(addresses.MqttPort, cancelled)));
        await Task.WhenAll(_technicians.Select(t => t.SettleAsync(addresses, cancelled)));
    }

    private static async Task UntilGoneAsync(Task sending, Func<bool> isGoing)
    {
        try
        {
            await sending;
        }
#pragma warning disable CA1031 // whatever a sender meets once its service is gone is what it should meet
        catch (Exception) when (isGoing())
#pragma warning restore CA1031
        {
            // It goes on when the service is back.
        }
    }
}
