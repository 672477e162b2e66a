using System.Globalization;
using CureWatch.Benchmarks.Harness;

namespace CureWatch.Benchmarks.Durable;

/// <summary>
/// Durable QoS 1 throughput beside a bare embedded broker: alternating pairs in one run, each server a process of its own, one warm-up pair.
/// Both have the same listener; the bare one has nothing to tell it.
/// </summary>
internal sealed class DurableRun
{
    public const string Verb = "durable";

    private const int ProbesPerBay = 2;
    private const int Cars = 10;

    /// <summary>Until the compiler has done most of its work.</summary>
    private static readonly TimeSpan WarmUp = TimeSpan.FromSeconds(20);

    private static readonly TimeSpan Measured = TimeSpan.FromSeconds(6);

    private readonly int _pairs;
    private readonly int _bays;
    private readonly int _coats;

    private DurableRun(int pairs, int bays, int coats) => (_pairs, _bays, _coats) = (pairs, bays, coats);

    /// <param name="options">How many pairs, bays, and coats on each of ten cars; all may be left out.</param>
    public static Task RunAsync(string[] options)
    {
        int[] numbers = [.. options.Select(o => int.Parse(o, CultureInfo.InvariantCulture))];
        return new DurableRun(numbers.Length > 0 ? numbers[0] : 5, numbers.Length > 1 ? numbers[1] : 10, numbers.Length > 2 ? numbers[2] : 40).RunAsync();
    }

    private async Task RunAsync()
    {
        Console.WriteLine($"{_bays} bays of {ProbesPerBay} probes, {Math.Min(Cars, _bays)} cars of {_coats} coats, {Load.Connections} connections of {Load.InFlight} in flight");
        Console.WriteLine("| pair | durable /s | bare /s | ratio | durable CPU µs | bare CPU µs | durable bytes | bare bytes | outputs /s |");
        Console.WriteLine("| --- | ---: | ---: | ---: | ---: | ---: | ---: | ---: | ---: |");
        var pairs = new List<(Outcome Durable, Outcome Bare)>();
        for (int i = 0; i <= _pairs; i++)
        {
            (Outcome, Outcome) pair = (await DurableAsync(), await BareAsync());
            Console.WriteLine(Row(i == 0 ? "warm-up" : $"{i}", pair));
            if (i > 0)
            {
                pairs.Add(pair);
            }
        }

        double[] ratios = [.. pairs.Select(p => p.Durable.Rate / p.Bare.Rate).Order()];
        Console.WriteLine(string.Create(
            CultureInfo.InvariantCulture,
            $"median ratio {Median(ratios):0.00} ({ratios[0]:0.00} to {ratios[^1]:0.00}), durable {Median(pairs.Select(p => p.Durable.Rate)):0}/s at {Median(pairs.Select(p => p.Durable.MicrosecondsEach)):0.0} µs of its processor a message, bare {Median(pairs.Select(p => p.Bare.Rate)):0}/s at {Median(pairs.Select(p => p.Bare.MicrosecondsEach)):0.0} µs"));
    }

    private async Task<Outcome> DurableAsync()
    {
        using var shop = new LoadShop(_bays, ProbesPerBay);
        using Server server = await Server.CureWatchAsync(shop);
        await LoadShop.BringCarsAsync(server.Board!, Math.Min(Cars, _bays), _coats);
        return await MeasureAsync(server, shop);
    }

    private async Task<Outcome> BareAsync()
    {
        using var shop = new LoadShop(_bays, ProbesPerBay);
        using Server server = await Server.BareAsync();
        return await MeasureAsync(server, shop);
    }

    private static async Task<Outcome> MeasureAsync(Server server, LoadShop shop)
    {
        using Listener listener = await Listener.AtAsync(server.MqttPort);
        using Crowd crowd = await Crowd.ConnectAsync(server.MqttPort, shop, Load.Connections);
        _ = await Load.RunAsync(crowd, WarmUp);
        (Usage before, int heard) = (server.Usage(), listener.Heard);
        (double messages, TimeSpan time) = await Load.RunAsync(crowd, Measured);
        Usage after = server.Usage();
        return new Outcome(
            messages / time.TotalSeconds,
            (after.Processor - before.Processor).TotalMicroseconds / messages,
            (after.AllocatedBytes - before.AllocatedBytes) / messages,
            (listener.Heard - heard) / time.TotalSeconds);
    }

    private static string Row(string name, (Outcome Durable, Outcome Bare) pair) => string.Create(
        CultureInfo.InvariantCulture,
        $"| {name} | {pair.Durable.Rate:0} | {pair.Bare.Rate:0} | {pair.Durable.Rate / pair.Bare.Rate:0.00} | {pair.Durable.MicrosecondsEach:0.0} | {pair.Bare.MicrosecondsEach:0.0} | {pair.Durable.BytesEach:0} | {pair.Bare.BytesEach:0} | {pair.Durable.Outputs:0} |");

    private static double Median(IEnumerable<double> values) => values.Order().ElementAt(values.Count() / 2);

    /// <param name="Rate">Acknowledged messages a second.</param>
    /// <param name="MicrosecondsEach">The server's processor time a message.</param>
    /// <param name="BytesEach">What the server allocated a message.</param>
    /// <param name="Outputs">Outputs a second that the listener heard.</param>
    private readonly record struct Outcome(double Rate, double MicrosecondsEach, double BytesEach, double Outputs);
}
