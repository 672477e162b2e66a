using CureWatch.Benchmarks.Harness;

namespace CureWatch.Benchmarks.Durable;

/// <summary>A server of its own under the load, once the compiler has done most of its work.</summary>
internal static class Trial
{
    public const int ProbesPerBay = 2;
    private const int Cars = 10;
    private static readonly TimeSpan WarmUp = TimeSpan.FromSeconds(20);

    /// <summary>How many cars are under coats.</summary>
    public static int CarsIn(int bays) => Math.Min(Cars, bays);

    public static async Task<Outcome> OfCureWatchAsync(int bays, int coats, TimeSpan time)
    {
        using var shop = new LoadShop(bays, ProbesPerBay);
        using Server server = await Server.CureWatchAsync(shop);
        await LoadShop.BringCarsAsync(server.Board!, CarsIn(bays), coats);
        return await MeasureAsync(server, shop, time);
    }

    public static async Task<Outcome> OfBareAsync(int bays, TimeSpan time)
    {
        using var shop = new LoadShop(bays, ProbesPerBay);
        using Server server = await Server.BareAsync();
        return await MeasureAsync(server, shop, time);
    }

    private static async Task<Outcome> MeasureAsync(Server server, LoadShop shop, TimeSpan time)
    {
        using Listener listener = await Listener.AtAsync(server.MqttPort);
        using Crowd crowd = await Crowd.ConnectAsync(server.MqttPort, shop, Load.Connections);
        _ = await Load.RunAsync(crowd, WarmUp);
        (Usage before, int heard) = (server.Usage(), listener.Heard);
        (double messages, TimeSpan lasted) = await Load.RunAsync(crowd, time);
        Usage after = server.Usage();
        return new Outcome(
            messages / lasted.TotalSeconds,
            (after.Processor - before.Processor).TotalMicroseconds / messages,
            (after.Paused - before.Paused).TotalMicroseconds / messages,
            (after.AllocatedBytes - before.AllocatedBytes) / messages,
            (listener.Heard - heard) / lasted.TotalSeconds);
    }
}

/// <param name="Rate">Acknowledged messages a second.</param>
/// <param name="MicrosecondsEach">The server's processor time a message.</param>
/// <param name="PausedEach">For how long it collected garbage.</param>
/// <param name="BytesEach">What the server allocated a message.</param>
/// <param name="Outputs">Outputs a second that the listener heard.</param>
internal readonly record struct Outcome(double Rate, double MicrosecondsEach, double PausedEach, double BytesEach, double Outputs);
